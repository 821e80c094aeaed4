"""Draw labels for bottles and trays, several on a sheet."""

from dataclasses import dataclass
from datetime import datetime

import msgspec

from provenance.documents.label_blocks import SetLabel, set_label
from provenance.documents.label_layout import LabelLayout, PageName, shipped_label_layout
from provenance.documents.label_text import LabelText, checked
from provenance.documents.page import SIZES_PT, About, Paper
from provenance.errors import Problem, Refused

__all__ = ["DrawnLabels", "LabelSheet", "LabelText", "draw_labels"]


@dataclass(frozen=True)
class LabelSheet:
    """Labels to be printed together."""

    labels: tuple[LabelText, ...]
    drawn_at_utc: datetime
    """For the file; it must know its time zone."""
    author: str = ""
    page: PageName = "A4"
    first: int = 1
    """The first label of the sheet that is still there, counted from 1 along the rows."""
    language: str = "en"

    def sheets(self, layout: LabelLayout) -> int:
        """How many sheets of paper it takes."""
        return -(-(self.first - 1 + len(self.labels)) // layout.grid(self.page).count)


@dataclass(frozen=True)
class DrawnLabels:
    """The file, and what had no room in it."""

    pdf: bytes
    left_off: tuple[tuple[str, ...], ...]
    """For each label, the labels of the further lines that gave way."""


def draw_labels(sheet: LabelSheet, layout: LabelLayout | None = None) -> DrawnLabels:
    """The labels as a PDF, black on white; equal sheet and layout give equal bytes.

    A label that is full is set smaller, as small as it may be to be read at
    arm's length; then its further lines give way, then the meaning of hazard
    codes, never the codes.  Raises Refused
    for every label that holds more even so, saying what to shorten; for a
    character that cannot be printed; for no labels; and for a first label that
    the sheet does not have.
    """
    layout = layout or shipped_label_layout()
    cells = list(layout.grid(sheet.page).cells(sheet.page))
    if sheet.drawn_at_utc.utcoffset() is None:
        raise ValueError("drawn_at_utc must know its time zone")
    if not sheet.labels:
        raise Refused(Problem(what="there are no labels to print", mend="name a bottle or tray"))
    if not 1 <= sheet.first <= len(cells):
        raise Refused(
            Problem(
                what=f"a sheet of {sheet.page} has no label {sheet.first}",
                field="from",
                mend=f"count along the rows, from 1 to {len(cells)}",
            )
        )
    labels, problems = list[tuple[float, SetLabel]](), list[Problem]()
    for at, text in enumerate(sheet.labels, sheet.first - 1):
        cell = cells[at % len(cells)]
        try:
            labels.append((cell.top_pt, set_label(checked(text), cell, layout.label)))
        except Refused as error:
            problems += error.problems
    if problems:
        raise Refused(*problems)
    paper = Paper(_about(sheet, layout), SIZES_PT[sheet.page])
    for at, (top_pt, label) in enumerate(labels, sheet.first):
        paper.draw(label.marks, top_pt)
        if at % len(cells) == 0 or at == sheet.first - 1 + len(labels):
            paper.turn()
    return DrawnLabels(paper.finish(), tuple(label.left_off for _top_pt, label in labels))


def _about(sheet: LabelSheet, layout: LabelLayout) -> About:
    return About(
        title=layout.words_in(sheet.language).title,
        author=sheet.author,
        subject=", ".join(label.code for label in sheet.labels),
        language=sheet.language,
        issued_at_utc=sheet.drawn_at_utc,
        identity=msgspec.json.encode((sheet, layout), order="deterministic"),
    )
