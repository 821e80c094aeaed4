"""The whole shelf at a glance."""

from dataclasses import dataclass
from datetime import date

from provenance.model.paper import Paper
from provenance.model.printing import Printing
from provenance.model.quantities import Size
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


def view_shelf(reader: Reader, settings: Settings, today: date, *, retired: bool = False) -> Shelf:
    """What is on the shelf today; with `retired`, also what was thrown away."""
    size = usual_sheet(reader)
    return Shelf(
        tuple(trays(reader, settings, today, retired=retired, size=size)),
        tuple(bottles(reader, today, retired=retired)),
        tuple(papers(reader)),
        size,
    )


def papers(reader: Reader) -> list[PaperBox]:
    """Every batch of paper, in the order in which they were entered."""
    return [_box(reader, paper) for paper in reader.all(Paper)]


def _box(reader: Reader, paper: Stored[Paper]) -> PaperBox:
    printings = reader.linked(paper.id, Printing, "paper")
    (sheets,) = reader.connection.execute(
        "SELECT count(*) FROM link one JOIN link other ON other.target = one.source"
        " AND other.kind = 'print' AND other.field = 'printing'"
        " WHERE one.target = ? AND one.kind = 'printing' AND one.field = 'paper'",
        (paper.id,),
    ).fetchone()
    days = (printing.body.done_on for printing in printings)
    return PaperBox(paper, int(sheets), max(days, default=""))
