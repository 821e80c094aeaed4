"""A random working day at the door of a register; each entry is said aloud once it is saved.

python -m tests.faults.workload FOLDER SEED ACTS
"""

import os
import random
import secrets
import signal
import sys
from collections.abc import Callable
from itertools import islice
from pathlib import Path

import msgspec

from provenance.errors import Refused
from provenance.model.custody import CustodyEvent
from provenance.model.negative import Negative
from provenance.model.prints import Print
from provenance.records.act import Act
from provenance.records.images import store_thumbnail
from provenance.records.private import Contacts
from provenance.records.register import Register
from tests import studios

STAYING = b"staying\n"
_SAY = Callable[[bytes], object]


def work(folder: Path, seed: int, acts: int, say: _SAY, *, stay: bool = False) -> None:
    """Do `acts` acts of every sort; `say` gets a line ``seq digest`` for each entry saved.

    With `stay` the register is then kept open until somebody ends the program.
    """
    chance = random.Random(seed)  # noqa: S311 - a working day, not a secret
    with Register.open(folder, clock=studios.clock()) as register:
        for _ in range(acts):
            with register.act("printer") as act:
                chance.choices(_DEEDS, _WEIGHTS)[0](act, folder, chance)
                # told before it is saved: after it, others may have written already
                own = range(act.number, act.head()[0] + 1)
            for seq, _entry, digest in islice(register.read.entries(own.start), len(own)):
                say(f"{seq} {digest}\n".encode())
        if stay:
            say(STAYING)
            signal.pause()


def _enter(act: Act, _folder: Path, chance: random.Random) -> None:
    for _ in range(chance.choice((1, 1, 1, 3, 12))):
        title = "x" * chance.choice((10, 200, 3_000))
        act.enter(Negative(code=f"N-{secrets.token_hex(6)}", title=title))


def _revise(act: Act, _folder: Path, chance: random.Random) -> None:
    held = act.all(Negative)
    one = chance.choice(held)
    body = msgspec.structs.replace(one.body, note=f"looked at {secrets.token_hex(6)}")
    if chance.random() < 0.5:
        act.change(one.id, one.version, body)
    else:
        act.correct(one.id, one.version, body, "it was written down wrongly")


def _void(act: Act, folder: Path, chance: random.Random) -> None:
    one = chance.choice(act.all(Negative))
    if act.links_to(one.id):
        return _enter(act, folder, chance)
    act.void(one.id, one.version, "a duplicate")
    return None


def _undo(act: Act, folder: Path, chance: random.Random) -> None:
    try:
        act.undo(act.entry(chance.randint(2, act.head()[0])).act, "a slip")
    except Refused:
        # changed since, or others speak of it
        _enter(act, folder, chance)


def _scan(act: Act, folder: Path, chance: random.Random) -> None:
    jpeg = chance.randbytes(20_000)
    (folder / "images").mkdir(exist_ok=True)
    store_thumbnail(folder / "images", jpeg)
    act.enter(studios.scan(chance.choice(act.all(Print)).id, jpeg))


def _release(act: Act, folder: Path, chance: random.Random) -> None:
    free = [one for one in act.all(Print) if not act.linked(one.id, CustodyEvent, "print")]
    if not free:
        return _enter(act, folder, chance)
    party = Contacts(folder).add(name=f"A. Collector {chance.random()}")
    act.enter(studios.release(chance.choice(free).id, party=party))
    return None


_DEEDS = (_enter, _revise, _void, _undo, _scan, _release)
_WEIGHTS = (40, 25, 8, 8, 12, 7)


if __name__ == "__main__":
    work(Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3]), lambda line: os.write(1, line))
