"""A studio folder from a stranger: every text in it that can hold anything tries to steer."""

from pathlib import Path

import msgspec
import pytest

from provenance.errors import Refused
from provenance.records.private import Contacts
from provenance.records.register import Register
from tests import studios
from tests.screens.house import build

HOSTILE = "\x1b]0;pwned\x07\x1b[2J\x9b31m\u202e\u2066[bold red]q[/] [@click=app.exit()]w[/]"
STEERING = frozenset(
    map(chr, (*range(0x0A), *range(0x0B, 0x20), *range(0x7F, 0xA0), *range(0x202A, 0x202F)))
) | frozenset("\u061c\u200e\u200f\u2028\u2029\u2066\u2067\u2068\u2069")
"""What must never reach a terminal from a record; a line ends with a line feed."""


def poisoned(path: Path) -> int:
    """Build it at `path`; how many texts were poisoned.

    The door would refuse all of it, so it is held open by force.
    """
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("provenance.records.entry._check_text", lambda _text, _name: None)
        build(path)
        with Register.open(path, clock=studios.clock()) as register:
            count = sum(_poison(register, record) for record in _records(register))
            party = Contacts(path).add(name=f"A. Collector {HOSTILE}", note=HOSTILE)
            (print_,) = register.read.connection.execute(
                "SELECT id FROM print_key WHERE mark LIKE 'Q7%'"
            ).fetchone()
            studios.enter(register, studios.release(print_, party=party))
    return count


def _records(register: Register) -> list[int]:
    found = register.read.connection.execute("SELECT id FROM record WHERE live ORDER BY id")
    return [row[0] for row in found.fetchall()]


def _poison(register: Register, record: int) -> int:
    stored = register.read.find(record)
    assert stored is not None
    count = 0
    for field in stored.body.__struct_fields__:
        value = getattr(stored.body, field)
        if not isinstance(value, str):
            continue
        now = register.read.find(record)
        assert now is not None
        body = msgspec.structs.replace(now.body, **{field: value + HOSTILE})
        try:
            with register.act(studios.WHO) as act:
                act.correct(record, now.version, body, f"a slip {HOSTILE}")
        except Refused:
            continue  # a date, a choice among words, a code that others rest on
        count += 1
    return count
