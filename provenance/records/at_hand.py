"""What is still in use, apart from everything that ever was.

A studio grows by runs that have ended and by bottles that were thrown away;
what is asked for every day are the few that were not.
"""

from typing import Literal, TypeVar

from provenance.model.body import Body
from provenance.model.chemistry import Bath, Stock
from provenance.model.run import Run
from provenance.records.reader import Reader, Stored

B = TypeVar("B", bound=Body)

Use = Literal["run", "to explain", "bath", "stock"]
"""A run in hand, one that has ended and still asks why a finding was overridden, a bath or
bottle that was not thrown away."""

USES: dict[str, tuple[Use, ...]] = {
    Run.KIND: ("run", "to explain"),
    Bath.KIND: ("bath",),
    Stock.KIND: ("stock",),
}
"""The uses that a record of each kind may be in."""


def use_of(body: Body) -> Use | None:
    """What the record is in use as; None when it is done with."""
    match body:
        case Run(state="in hand"):
            return "run"
        case Run(overrides=overrides) if any(one.unexplained for one in overrides):
            return "to explain"
        case Bath(retired_on=None):
            return "bath"
        case Stock(retired_on=None):
            return "stock"
    return None


def at_hand(reader: Reader, kind: type[B], use: Use) -> list[Stored[B]]:
    """Every record in such a use, in the order in which they were entered."""
    rows = reader.connection.execute(
        "SELECT id FROM at_hand WHERE use = ? ORDER BY id", (use,)
    ).fetchall()
    return [reader.get(kind, row[0]) for row in rows]


def runs_in_hand(reader: Reader) -> list[Stored[Run]]:
    """Runs that were begun and not ended."""
    return at_hand(reader, Run, "run")


def baths_in_use(reader: Reader) -> list[Stored[Bath]]:
    """Baths that were not thrown away."""
    return at_hand(reader, Bath, "bath")


def bottles_in_use(reader: Reader) -> list[Stored[Stock]]:
    """Bottles that were not thrown away."""
    return at_hand(reader, Stock, "stock")
