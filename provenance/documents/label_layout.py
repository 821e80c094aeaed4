"""Where labels lie on a sheet, and the words that every label bears; read from TOML text."""

import tomllib
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Annotated, Literal

import msgspec

from provenance.documents.page import MM, SIZES_PT
from provenance.errors import Problem, Refused
from provenance.resources import resource
from provenance.toml import read_toml

Count = Annotated[int, msgspec.Meta(ge=1, le=20)]
White = Annotated[float, msgspec.Meta(ge=0, le=100)]
Side = Annotated[float, msgspec.Meta(ge=20, le=300)]
PageName = Literal["A4", "letter"]


class Table(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Base of all tables."""


@dataclass(frozen=True)
class Cell:
    """The place of one label, in points; `top_pt` is above the lower edge of the page."""

    left_pt: float
    top_pt: float
    width_pt: float
    height_pt: float


class SheetGrid(Table, frozen=True, kw_only=True):
    """The labels of one sheet, alike, in rows and columns."""

    columns: Count
    rows: Count
    width_mm: Side
    height_mm: Side
    left_mm: White
    top_mm: White
    column_gap_mm: White = 0
    row_gap_mm: White = 0

    @property
    def count(self) -> int:
        """How many labels a sheet has."""
        return self.columns * self.rows

    def cells(self, page: PageName) -> Iterator[Cell]:
        """The labels of a sheet, along the rows."""
        for row in range(self.rows):
            for column in range(self.columns):
                left_mm = self.left_mm + column * (self.width_mm + self.column_gap_mm)
                down_mm = self.top_mm + row * (self.height_mm + self.row_gap_mm)
                yield Cell(
                    left_mm * MM,
                    SIZES_PT[page][1] - down_mm * MM,
                    self.width_mm * MM,
                    self.height_mm * MM,
                )


class LabelStyle(Table, frozen=True, kw_only=True):
    """The inside of a label."""

    padding_mm: Annotated[float, msgspec.Meta(ge=1, le=10)]
    corner_marks: bool


class LabelWords(Table, frozen=True, kw_only=True):
    """The fixed words of a label."""

    title: str
    mixed: str
    discard: str
    no_codes: str
    codes_not_known: str
    contents_not_known: str
    estimated: str
    below: str
    some_suppliers: str
    not_known: str
    keep_from: str
    protect: str
    protect_say: str
    use: str
    keeps: str
    keeps_bottle: str
    keeps_tray: str
    one_use: str
    lot: str
    waste: str
    pictogram: dict[str, str]


class LabelLayout(Table, frozen=True, kw_only=True):
    """Sheets, the inside of a label, and words by language."""

    form: Literal[1]
    sheet: dict[PageName, SheetGrid]
    label: LabelStyle
    words: dict[str, LabelWords]

    def words_in(self, language: str) -> LabelWords:
        """The words of a language.  Raises Refused with the languages there are."""
        if language not in self.words:
            raise _refused(f"there are no words in {language!r}, only in {', '.join(self.words)}")
        return self.words[language]

    def grid(self, page: PageName) -> SheetGrid:
        """The labels of a sheet of that size.  Raises Refused with the sizes there are."""
        if page not in self.sheet:
            raise _refused(f"there is no sheet of size {page}, only {', '.join(self.sheet)}")
        return self.sheet[page]


def read_label_layout(text: str, name: str = "label.toml") -> LabelLayout:
    """The layout in the TOML `text` of the file `name`.

    Raises Refused for what is unknown, missing or not of its kind, and for
    labels that reach over the edge of their sheet.
    """
    try:
        data = read_toml(unicodedata.normalize("NFC", text))
        layout = msgspec.convert(data, LabelLayout)
    except (tomllib.TOMLDecodeError, msgspec.ValidationError) as error:
        raise _refused(f"cannot be read: {error}", name) from error
    for page, grid in layout.sheet.items():
        *_, last = grid.cells(page)
        if last.left_pt + last.width_pt > SIZES_PT[page][0] or last.top_pt < last.height_pt:
            raise _refused(f"the labels reach over the edge of a sheet of {page}", name)
    return layout


def shipped_label_layout() -> LabelLayout:
    """The layout that comes with the program."""
    return read_label_layout(resource("templates", "label.toml").read_text("utf-8"))


def _refused(what: str, name: str = "label.toml") -> Refused:
    return Refused(
        Problem(
            what=what,
            record=name,
            mend="compare it with the label.toml that comes with the program",
        )
    )
