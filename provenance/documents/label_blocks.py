"""The inside of one label, set as large as its cell allows."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from provenance.documents.flow import (
    Column,
    Slab,
    Strand,
    artifact,
    height_pt,
    paragraph,
    row,
    side_by_side,
    stacked,
)
from provenance.documents.fonts import Font, width_pt
from provenance.documents.label_layout import Cell, LabelStyle
from provenance.documents.label_text import LabelText, Pair
from provenance.documents.page import MM, Element, Mark, Rule, Style
from provenance.errors import Problem, Refused

LEAST_LINE_PT = 0.3 * MM
_BAR_PT = 0.6 * MM
_CORNER_PT, _CORNER_INSET_PT = 3 * MM, 0.8 * MM
_PEN_PT, _PEN_DATE_PT = 6.2 * MM, 5.4 * MM
"""The white that a pen needs above its line, for words and for a date."""

_NAME_SIZES_PT = (22.0, 20.0, 18.0, 16.0, 15.0, 14.0, 13.0)
_NAME_AT_FULL_PT = 18.0
_NAME_LINES = (1, 2)

_SCALES = (1.16, 1.1, 1.05, 1.0, 0.95, 0.9, 0.86, 0.82)
"""Of the type, largest first.  At the least an x is 1.2 mm high, small print apart."""


@dataclass(frozen=True)
class _Types:
    """The type of a label at one scale."""

    scale: float

    def style(self, font: Font, size_pt: float, leading: float = 1.13) -> Style:
        size_pt *= self.scale
        return Style(font, size_pt, size_pt * leading, 0.0)

    @property
    def read(self) -> Style:
        return self.style(Font.SANS, 9.0)

    @property
    def strong(self) -> Style:
        return self.style(Font.STRONG, 9.0)

    @property
    def date(self) -> Style:
        return self.style(Font.STRONG, 12.0, 1.2)

    @property
    def signal(self) -> Style:
        return self.style(Font.STRONG, 17.0, 1.15)

    @property
    def small(self) -> Style:
        return self.style(Font.SANS, 7.4)


@dataclass(frozen=True)
class SetLabel:
    """The marks of a label, from the upper edge of its cell down."""

    marks: tuple[Mark, ...]
    left_off: tuple[str, ...]
    """The labels of further lines for which there was no room."""


def set_label(label: LabelText, cell: Cell, style: LabelStyle) -> SetLabel:
    """A label, set into its cell.  Raises Refused when it holds more at the least size of type."""
    inside = Column(cell.left_pt + style.padding_mm * MM, cell.width_pt - 2 * style.padding_mm * MM)
    room_pt = cell.height_pt - 2 * style.padding_mm * MM
    for shown, scale, meanings in _ways(label):
        setting = _Setting(shown, inside, _Types(scale), meanings)
        foot = setting.foot()
        spare_pt = room_pt - height_pt(setting.slabs()) - foot.height_pt
        if spare_pt >= 0:
            body = stacked(setting.slabs())
            shift_pt = style.padding_mm * MM
            marks = [mark.lowered(shift_pt) for mark in body.marks]
            marks += [mark.lowered(shift_pt + room_pt - foot.height_pt) for mark in foot.marks]
            if style.corner_marks:
                marks.append(_corners(cell))
            left_off = label.lines[len(shown.lines) :]
            return SetLabel(tuple(marks), tuple(name for name, _said in left_off))
    raise Refused(setting.too_long(-spare_pt))


def _ways(label: LabelText) -> Iterator[tuple[LabelText, float, bool]]:
    """From everything, large, to what must be said, small: label, scale, meanings of codes."""
    for meanings in (True, False) if label.hazards else (True,):
        for kept in range(len(label.lines), -1, -1):
            shown = replace(label, lines=label.lines[:kept])
            yield from ((shown, scale, meanings) for scale in _SCALES)


@dataclass(frozen=True)
class _Setting:
    label: LabelText
    inside: Column
    types: _Types
    meanings: bool

    def slabs(self) -> list[Slab]:
        """Everything above the line for a pen."""
        gap_pt = 2.2 * self.types.scale
        slabs = [*self._name(), *self._text(self.label.contents, self.types.read, gap_pt=1.0)]
        slabs += [self._bar(), self._dates(), *self._signal()]
        if self.meanings:
            slabs += self._pairs(self.label.hazards, gap_pt)
        elif self.label.hazards:
            codes = " ".join(code for code, _meaning in self.label.hazards)
            slabs += self._text(codes, self.types.strong, gap_pt)
        slabs += self._text(self.label.no_codes, self.types.read, gap_pt)
        slabs += self._pairs((self.label.keep_from, self.label.protect), gap_pt)
        slabs += self._pairs(self.label.lines, 0.0)
        return slabs + self._text(self.label.basis, self.types.small, gap_pt)

    def foot(self) -> Slab:
        """The bottle's code, and a line for a pen."""
        code = self.types.style(Font.STRONG, 10.5)
        wide_pt = min(
            width_pt(self.label.code, code.font, code.size_pt) + 1, self.inside.width_pt / 2
        )
        strand = Strand(self.label.code, Column(self.inside.x_pt, wide_pt), code, Element("P"))
        said = stacked(row([strand]))
        tall_pt = max(_PEN_PT, said.height_pt)
        line = Rule(
            self.inside.x_pt + wide_pt + 3 * MM,
            tall_pt - LEAST_LINE_PT,
            self.inside.width_pt - wide_pt - 3 * MM,
            LEAST_LINE_PT,
            0.0,
        )
        lowered = tuple(mark.lowered(tall_pt - said.height_pt) for mark in said.marks)
        return Slab(tall_pt, (*lowered, artifact(line)))

    def too_long(self, over_pt: float) -> Problem:
        """What to shorten, when so much too much remains."""
        leading_pt = self.types.read.leading_pt
        heights = {
            "name": height_pt(self._name()),
            "contents": height_pt(self._text(self.label.contents, self.types.read, 0.0)),
        }
        longest = max(heights, key=lambda field: heights[field])
        lines = max(1, round(over_pt / leading_pt + 0.49))
        return Problem(
            what=f"its label is full: {lines} line{'s' if lines > 1 else ''} too many at the"
            " smallest type",
            record=self.label.code,
            field=longest,
            mend=f"shorten the {longest}, or use a sheet with larger labels (label.toml)",
        )

    def _name(self) -> list[Slab]:
        size_pt = next(
            (size for most in _NAME_LINES for size in _NAME_SIZES_PT if self._suits(size, most)),
            _NAME_SIZES_PT[-1],
        )
        style = Style(Font.STRONG, size_pt, size_pt * 1.08, 0.0)
        return paragraph(Strand(self.label.name, self.inside, style, Element("H1")))

    def _suits(self, size_pt: float, most_lines: int) -> bool:
        style = Style(Font.STRONG, size_pt, size_pt, 0.0)
        lines = Strand(self.label.name, self.inside, style, Element("H1")).lines()
        uncut = " ".join(lines) == " ".join(self.label.name.split())
        return uncut and len(lines) <= most_lines and size_pt <= _NAME_AT_FULL_PT * self.types.scale

    def _text(self, text: str, style: Style, gap_pt: float) -> list[Slab]:
        if not text:
            return []
        return paragraph(Strand(text, self.inside, style, Element("P")), gap_pt)

    def _pairs(self, pairs: Sequence[Pair], gap_pt: float) -> list[Slab]:
        """Labels in one column, their texts in the next."""
        first_pt = self._first_column_pt()
        text = Column(self.inside.x_pt + first_pt, self.inside.width_pt - first_pt)
        slabs = list[Slab]()
        for name, said in pairs:
            element = Element("P")
            strands = [
                Strand(name, Column(self.inside.x_pt, first_pt), self.types.strong, element),
                Strand(said, text, self.types.read, element),
            ]
            slabs += row(strands, 0.0 if slabs else gap_pt)
        return slabs

    def _first_column_pt(self) -> float:
        style = self.types.strong
        names = [*self.label.hazards, self.label.keep_from, self.label.protect, *self.label.lines]
        widest_pt = max(width_pt(name, style.font, style.size_pt) for name, _said in names)
        return min(widest_pt + 5, 0.4 * self.inside.width_pt)

    def _bar(self) -> Slab:
        bar = Rule(self.inside.x_pt, _BAR_PT, self.inside.width_pt, _BAR_PT, 0.0)
        return Slab(2 * _BAR_PT, (artifact(bar),), 3.0)

    def _dates(self) -> Slab:
        half_pt = self.inside.width_pt / 2
        left, right = (
            self._date(pair, Column(self.inside.x_pt + at * half_pt, half_pt))
            for at, pair in enumerate((self.label.mixed, self.label.discard))
        )
        return side_by_side(left, right)

    def _date(self, pair: Pair, column: Column) -> Slab:
        named, date = pair
        style = self.types.date
        element = Element("P")
        label_pt = width_pt(named, self.types.strong.font, self.types.strong.size_pt) + 5
        rest = Column(column.x_pt + label_pt, column.width_pt - label_pt)
        strands = [Strand(named, Column(column.x_pt, label_pt), self.types.strong, element)]
        if date:
            return stacked(row([*strands, Strand(date, rest, style, element)]))
        (said,) = row([*strands])
        tall_pt = _PEN_DATE_PT
        line = Rule(rest.x_pt, tall_pt - 2.5, rest.width_pt - 4 * MM, LEAST_LINE_PT, 0.0)
        lowered = tuple(mark.lowered(tall_pt - said.height_pt) for mark in said.marks)
        return Slab(tall_pt, (*lowered, artifact(line)))

    def _signal(self) -> list[Slab]:
        said = ", ".join(f"{code} {words}" for code, words in self.label.pictograms)
        word, style = self.label.signal_word, self.types.signal
        if not word:
            return self._text(said, self.types.strong, 1.5)
        wide_pt = width_pt(word, style.font, style.size_pt) + 8
        (signal,) = row([Strand(word, Column(self.inside.x_pt, wide_pt), style, Element("P"))])
        if not said:
            return [replace(signal, gap_pt=1.5)]
        column = Column(self.inside.x_pt + wide_pt, self.inside.width_pt - wide_pt)
        slabs = row([Strand(said, column, self.types.strong, Element("P"))])
        beside = stacked(slabs)
        # The last line stands level with the word, if there is room for those above.
        lower_pt = max(0.0, 0.76 * style.leading_pt - _last_baseline_pt(beside))
        lowered = tuple(mark.lowered(lower_pt) for mark in beside.marks)
        both = side_by_side(signal, Slab(beside.height_pt + lower_pt, lowered))
        return [replace(both, gap_pt=1.5)]


def _last_baseline_pt(slab: Slab) -> float:
    return max(ink.down_pt for mark in slab.marks for ink in mark.inks)


def _corners(cell: Cell) -> Mark:
    """Small corners inside the edge; a short thick rule is an upright."""
    thin, long = LEAST_LINE_PT, _CORNER_PT
    left, right = (
        cell.left_pt + _CORNER_INSET_PT,
        cell.left_pt + cell.width_pt - _CORNER_INSET_PT,
    )
    top, bottom = _CORNER_INSET_PT, cell.height_pt - _CORNER_INSET_PT
    inks = list[Rule]()
    for down, upright in ((top, top + long / 2), (bottom, bottom - long / 2)):
        level = down + thin / 2 if down == top else down - thin / 2
        inks += [Rule(x, level, long, thin, 0.0) for x in (left, right - long)]
        inks += [Rule(x, upright, thin, long, 0.0) for x in (left, right - thin)]
    return artifact(*inks)
