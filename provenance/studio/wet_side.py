"""What the wet side shows: the runs in hand, and of what is over the latest."""

from dataclasses import dataclass
from itertools import islice

from provenance.model.dates import latest
from provenance.model.printing import Printing
from provenance.model.run import Run
from provenance.records.at_hand import at_hand, runs_in_hand
from provenance.records.newest import how_many, newest_first
from provenance.records.reader import Reader, Stored

RUNS, PRINTINGS = 30, 50
"""How many of the runs that have ended, and of the printings, are shown."""


@dataclass(frozen=True)
class WetSide:
    """Runs and printings, the latest first; how many more of each are on record."""

    in_hand: tuple[Stored[Run], ...]
    ended: tuple[Stored[Run], ...]
    """The latest, and the latest of those that ask for an explanation."""
    more_ended: int
    printings: tuple[Stored[Printing], ...]
    """Those that were entered last, by the day of the work."""
    more_printings: int


def view_wet_side(reader: Reader) -> WetSide:
    """The wet side as it stands."""
    in_hand = tuple(reversed(runs_in_hand(reader)))
    over = (run for run in newest_first(reader, Run) if run.body.state != "in hand")
    open_ = at_hand(reader, Run, "to explain")[-RUNS:]
    ended = {run.id: run for run in (*islice(over, RUNS), *open_)}
    printings = sorted(
        islice(newest_first(reader, Printing), PRINTINGS),
        key=lambda one: (latest(one.body.done_on), one.id),
        reverse=True,
    )
    return WetSide(
        in_hand,
        tuple(ended[record] for record in sorted(ended, reverse=True)),
        how_many(reader, Run) - len(in_hand) - len(ended),
        tuple(printings),
        how_many(reader, Printing) - len(printings),
    )
