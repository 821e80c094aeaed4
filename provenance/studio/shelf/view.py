"""The whole shelf at a glance."""

from dataclasses import dataclass
from datetime import date

from provenance.model.chemistry import Bath, Stock
from provenance.model.paper import Paper
from provenance.model.printing import Printing
from provenance.model.quantities import Size
from provenance.records.newest import how_many
from provenance.records.reader import Reader, Stored
from provenance.studio.settings import Settings
from provenance.studio.shelf.bottles import Bottle, bottles
from provenance.studio.shelf.trays import Tray, trays, usual_sheet


@dataclass(frozen=True)
class PaperBox:
    """A batch of paper, and how many sheets of it were printed on."""

    paper: Stored[Paper]
    sheets: int
    last_used: str
    """The day of the last printing on it, EDTF; empty where there is none."""


@dataclass(frozen=True)
class Shelf:
    """Trays, bottles and papers."""

    trays: tuple[Tray, ...]
    bottles: tuple[Bottle, ...]
    papers: tuple[PaperBox, ...]
    size: Size | None
    """The sheet that the trays are counted in: the one that was printed on last."""
    trays_left_out: int = 0
    """How many more were thrown away than are listed."""
    bottles_left_out: int = 0


def view_shelf(reader: Reader, settings: Settings, today: date, *, retired: bool = False) -> Shelf:
    """What is on the shelf today; with `retired`, also what was thrown away."""
    size = usual_sheet(reader)
    ready = tuple(trays(reader, settings, today, retired=retired, size=size))
    standing = tuple(bottles(reader, today, retired=retired))
    return Shelf(
        ready,
        standing,
        tuple(papers(reader)),
        size,
        how_many(reader, Bath) - len(ready) if retired else 0,
        how_many(reader, Stock) - len(standing) if retired else 0,
    )


def papers(reader: Reader) -> list[PaperBox]:
    """Every batch of paper, in the order in which they were entered."""
    return [_box(reader, paper) for paper in reader.all(Paper)]


_PRINTED_ON = """
WITH printing AS (
  SELECT source AS id FROM link WHERE target = ? AND kind = 'printing' AND field = 'paper'
), sheet AS (
  SELECT p.id AS printing, l.source AS id FROM printing p
  LEFT JOIN link l ON l.target = p.id AND l.kind = 'print' AND l.field = 'printing'
)
SELECT printing, count(id), max(id) FROM sheet GROUP BY printing
"""


def _box(reader: Reader, paper: Stored[Paper]) -> PaperBox:
    sheets, days = 0, [""]
    for printing, count, one in reader.connection.execute(_PRINTED_ON, (paper.id,)).fetchall():
        sheets += count
        days.append(_day(reader, printing, one))
    return PaperBox(paper, sheets, max(days))


def _day(reader: Reader, printing: int, sheet: int | None) -> str:
    """The day of a printing: the view has it with each of its sheets."""
    row = reader.connection.execute(
        "SELECT printed_on FROM impression WHERE id = ?", (sheet,)
    ).fetchone()
    return str(row[0]) if row else reader.get(Printing, printing).body.done_on
