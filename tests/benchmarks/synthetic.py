"""A studio of so many prints without their acts: real editions, and prints in the view alone.

A million acts would take minutes, and no screen reads the journal of a print
that it only lists.  Such a register is good for looking at and for nothing else.
"""

from collections.abc import Iterator
from pathlib import Path

from provenance.model.edition import Edition
from provenance.model.negative import Negative
from provenance.records.act import Act
from tests.benchmarks.studios import EACH, IMAGE, SHEET, new_register

WORDS = ("Slipway, first frost", "Quay steps", "Ropewalk, interior", "Drying room")
STATES = "wpncrx"


def make_synthetic_studio(folder: Path, prints: int) -> None:
    """Make a studio in `folder` whose view lists `prints` prints, fifty to an edition."""
    with new_register(folder) as register:
        with register.act("printer") as act:
            editions = [_enter_edition(act, place) for place in range((prints + EACH - 1) // EACH)]
        connection = register.read.connection
        first, _digest = register.read.head()
        connection.execute("BEGIN IMMEDIATE")
        connection.executemany(
            "INSERT INTO impression VALUES"
            " (?, ?, ?, ?, ?, 'numbered', ?, ?, ?, ?, NULL, ?, NULL, NULL)",
            _impressions(first + 1, prints, editions),
        )
        connection.executemany(
            "INSERT INTO search (rowid, words, kind) VALUES (?, ?, 'print')",
            (
                (
                    first + 1 + place,
                    f"SLIP{place // EACH} {WORDS[place // EACH % 4]}"
                    f" S{place % EACH + 1} {place % EACH + 1}/{EACH}",
                )
                for place in range(prints)
            ),
        )
        connection.execute("COMMIT")
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchall()


def _enter_edition(act: Act, place: int) -> int:
    negative = act.enter(Negative(code=f"N-{place}", title=WORDS[place % 4]))
    return act.enter(
        Edition(
            negative=negative,
            code=f"SLIP{place}",
            name=WORDS[place % 4],
            promise="Fifty prints",
            numbered=EACH,
            image=IMAGE,
            sheet=SHEET,
        )
    )


def _impressions(first: int, prints: int, editions: list[int]) -> Iterator[tuple[object, ...]]:
    for place in range(prints):
        edition, number = place // EACH, place % EACH + 1
        state = STATES[place * 7 % len(STATES)]
        yield (
            first + place,
            editions[edition],
            f"SLIP{edition}",
            f"S{number}",
            f"{number}/{EACH}",
            number,
            number,
            state,
            f"20{place % 30:02}-03-{place % 28 + 1:02}",
            {"w": "stgp", "p": "fgp", "n": "fp"}.get(state, ""),
        )
