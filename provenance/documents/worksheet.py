"""Draw the darkroom worksheet: black on white, read by red light, written on wet.

Everything that is needed in the dark stands on one side.  What is done and read
before the light goes out (what to mix, curves, open questions) follows on it
where there is room, else on the back.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from unicodedata import normalize

import msgspec

from provenance.craft.chart import Chart
from provenance.documents.chart_drawing import draw_chart
from provenance.documents.flow import Column, Slab, Strand, artifact, height_pt, row, stacked
from provenance.documents.fonts import Font, require_glyphs
from provenance.documents.marks import Drawing, Mark, Stroke, Words
from provenance.documents.page import MM, SIZES_PT, About, Element, Ink, Paper, Rule, Style
from provenance.errors import Problem, Refused
from provenance.model.certificate import Page

LEAST_LINE_PT = 0.35 * MM
FIGURES_MM = 10.0
_FIGURE_SHARE = 0.65
"""The height of a figure of the typeface, as a share of its size."""
_MARGIN_PT = 12 * MM
_BOX_PT = (24 * MM, 6.2 * MM)
_SCALES = (1.12, 1.0, 0.92, 0.85, 0.78)
"""Of the type; at the least what is read in the dark is 8.6 points."""
_SCALE_OF_ONE_SIDE = 0.92
"""Below this the back is better than small type."""
_CHART_MM = 58
_SKETCH_PT = (46 * MM, 32 * MM)


@dataclass(frozen=True)
class Line:
    """One line: a name, what is aimed at, more in small, and whether a box is filled in by hand."""

    name: str
    aim: str
    more: str = ""
    box: bool = True


@dataclass(frozen=True)
class Part:
    """A group of lines under a heading."""

    heading: str
    lines: tuple[Line, ...]


@dataclass(frozen=True)
class Crop:
    """The frame of the negative and the part that is printed, in any one unit."""

    frame: tuple[float, float]
    """Height and width."""
    left: float
    top: float
    size: tuple[float, float]
    letters: tuple[tuple[str, float, float], ...] = ()
    """A letter, and where it lies in the part that is printed: 0 to 1 across, and down."""


@dataclass(frozen=True)
class Figure:
    """A chart, what its axes tell, a line below it, and words for who cannot see it."""

    chart: Chart
    told: tuple[str, str]
    caption: str
    alternative: str


@dataclass(frozen=True)
class Note:
    """Plain lines under a heading, read by daylight."""

    heading: str
    lines: tuple[str, ...]


@dataclass(frozen=True)
class Worksheet:
    """One side of paper, as finished text.  No text here is markup."""

    title: str
    about: str
    base: str
    """The seconds in large figures; empty leaves room to write them."""
    beside: tuple[str, ...]
    """What stands beside them: band, grade, aperture, head."""
    parts: tuple[Part, ...]
    before: tuple[Part, ...]
    """Groups that are done with before the light goes out."""
    ladder: tuple[str, ...]
    """Seconds of the strip, patch by patch."""
    crop: Crop | None
    drawn_at_utc: datetime
    crop_alternative: str = ""
    figures: tuple[Figure, ...] = ()
    notes: tuple[Note, ...] = ()
    author: str = ""
    page: Page = "A4"
    language: str = "en"


def draw_worksheet(sheet: Worksheet) -> bytes:
    """The worksheet as a PDF; equal sheets give equal bytes.

    Raises Refused for a character that cannot be printed, and for more than a
    side holds at the smallest type.
    """
    if sheet.drawn_at_utc.utcoffset() is None:
        raise ValueError("drawn_at_utc must know its time zone")
    _check(sheet)
    wide, tall = SIZES_PT[sheet.page]
    area = Column(_MARGIN_PT, wide - 2 * _MARGIN_PT)
    room_pt = tall - 2 * _MARGIN_PT
    settings = [_Setting(sheet, area, scale) for scale in _SCALES]
    whole = (one.front() + one.rest() for one in settings if one.scale >= _SCALE_OF_ONE_SIDE)
    side = next((slabs for slabs in whole if height_pt(slabs) <= room_pt), None)
    sides = [side] if side is not None else [_fitting([one.front() for one in settings], sheet)]
    if side is None and (sheet.before or sheet.figures or sheet.notes):
        sides.append(_fitting([one.rest() for one in settings], sheet))
    paper = Paper(_about(sheet), (wide, tall))
    for slabs in sides:
        paper.draw(stacked(slabs).marks, tall - _MARGIN_PT)
        paper.turn()
    return paper.finish()


def _fitting(settings: list[list[Slab]], sheet: Worksheet) -> list[Slab]:
    """The largest setting that one side holds."""
    over_pt = 0.0
    for slabs in settings:
        over_pt = height_pt(slabs) - (SIZES_PT[sheet.page][1] - 2 * _MARGIN_PT)
        if over_pt <= 0:
            return slabs
    raise Refused(
        Problem(
            what=f"the worksheet is {over_pt / MM:.0f} mm longer than one side",
            record=sheet.title,
            mend="shorten the notes of the burns, or name fewer spots",
        )
    )


def _about(sheet: Worksheet) -> About:
    return About(
        title=sheet.title,
        author=sheet.author,
        subject=sheet.about,
        language=sheet.language,
        issued_at_utc=sheet.drawn_at_utc,
        identity=msgspec.json.encode(sheet, order="deterministic"),
    )


def _check(sheet: Worksheet) -> None:
    texts = [sheet.title, sheet.about, sheet.base, *sheet.beside, *sheet.ladder]
    texts += [text for note in sheet.notes for text in (note.heading, *note.lines)]
    texts += [text for one in sheet.figures for text in (*one.told, one.caption)]
    for part in (*sheet.parts, *sheet.before):
        texts.append(part.heading)
        texts += [text for line in part.lines for text in (line.name, line.aim, line.more)]
    for text in texts:
        for font in (Font.SANS, Font.STRONG):
            require_glyphs(font, normalize("NFC", text), record=sheet.title, field=text[:40])


@dataclass(frozen=True)
class _Setting:
    sheet: Worksheet
    area: Column
    scale: float

    def _style(self, size_pt: float, font: Font = Font.SANS) -> Style:
        size_pt *= self.scale
        return Style(font, size_pt, size_pt * 1.18, 0.0)

    def front(self) -> list[Slab]:
        """What is needed in the dark."""
        sheet, area = self.sheet, self.area
        slabs = row([Strand(sheet.title, area, self._style(17, Font.STRONG), Element("H1"))])
        slabs += row([Strand(sheet.about, area, self._style(11), Element("P"))])
        slabs.append(self._head())
        if sheet.ladder:
            slabs.append(self._ladder())
        for part in sheet.parts:
            if part.lines:
                slabs += self._part(part)
        return slabs

    def rest(self) -> list[Slab]:
        """What is read before the light goes out."""
        figures, small = self.sheet.figures, self._style(9.5)
        slabs = [slab for part in self.sheet.before if part.lines for slab in self._part(part)]
        if figures:
            each_pt, gap_pt = self.area.width_pt / len(figures), 5 * MM
            tall_pt = _CHART_MM * MM * self.scale
            columns = [
                Column(self.area.x_pt + at * each_pt, each_pt - gap_pt)
                for at in range(len(figures))
            ]
            marks = [
                draw_chart(
                    one.chart,
                    (column.x_pt, 0.0, column.width_pt, tall_pt),
                    small,
                    weight_pt=LEAST_LINE_PT,
                    told=one.told,
                    alternative=one.alternative,
                )
                for one, column in zip(figures, columns, strict=True)
            ]
            captions = stacked(
                row(
                    [
                        Strand(one.caption, column, small, Element("P"))
                        for one, column in zip(figures, columns, strict=True)
                    ]
                )
            )
            marks += [mark.lowered(tall_pt + 2) for mark in captions.marks]
            slabs.append(Slab(tall_pt + 2 + captions.height_pt, tuple(marks), gap_pt=5 * MM))
        for note in self.sheet.notes:
            heading = self._style(11, Font.STRONG)
            slabs += row([Strand(note.heading, self.area, heading, Element("H2"))], gap_pt=2 * MM)
            for text in note.lines:
                slabs += row([Strand(text, self.area, small, Element("P"))], gap_pt=0.4 * MM)
        return slabs

    def _head(self) -> Slab:
        """The base in large figures, what goes with it, and the crop at the right."""
        size_pt = FIGURES_MM * MM / _FIGURE_SHARE
        large = Style(Font.STRONG, size_pt, size_pt * 1.1, 0.0)
        left = Column(self.area.x_pt, 62 * MM)
        middle = Column(left.x_pt + left.width_pt, 74 * MM)
        said = row([Strand(self.sheet.base, left, large, Element("P"))])
        beside = [
            slab
            for text in self.sheet.beside
            for slab in row([Strand(text, middle, self._style(12), Element("P"))])
        ]
        first, second = stacked(said), stacked(beside)
        tall_pt = max(first.height_pt, second.height_pt, 34 * MM)
        inks: list[Ink] = []
        if not self.sheet.base:
            inks += _box(left.x_pt, 2 * MM, 50 * MM, 15 * MM)
        marks = [*first.marks, *second.marks, artifact(*inks)]
        if self.sheet.crop is not None:
            right_pt = self.area.x_pt + self.area.width_pt
            element = Element("Figure", alternative=self.sheet.crop_alternative)
            sketch = _sketch(self.sheet.crop, right_pt - 48 * MM, self._style(9, Font.STRONG))
            marks.append(Mark(element, sketch))
        return Slab(tall_pt, tuple(marks), gap_pt=2 * MM)

    def _ladder(self) -> Slab:
        """The strip: a box for each patch with its seconds over it."""
        each_pt = self.area.width_pt / len(self.sheet.ladder)
        element = Element("P")
        columns = [
            Column(self.area.x_pt + at * each_pt, each_pt) for at in range(len(self.sheet.ladder))
        ]
        texts = stacked(
            row(
                [
                    Strand(text, column, self._style(13, Font.STRONG), element)
                    for text, column in zip(self.sheet.ladder, columns, strict=True)
                ]
            )
        )
        inks = [
            ink
            for column in columns
            for ink in _box(column.x_pt, texts.height_pt + 1, each_pt - 2 * MM, 8 * MM)
        ]
        return Slab(texts.height_pt + 9 * MM, (*texts.marks, artifact(*inks)), gap_pt=3 * MM)

    def _part(self, part: Part) -> list[Slab]:
        heading = self._style(12, Font.STRONG)
        slabs = row([Strand(part.heading, self.area, heading, Element("H2"))], gap_pt=2.5 * MM)
        bar = Rule(self.area.x_pt, 1, self.area.width_pt, LEAST_LINE_PT * 1.6, 0.0)
        slabs.append(Slab(2.5, (artifact(bar),)))
        table = Element("Table")
        slabs += [self._line(line, table) for line in part.lines]
        return slabs

    def _line(self, line: Line, table: Element) -> Slab:
        wide_pt, box_pt = _BOX_PT
        room_pt = self.area.width_pt - (wide_pt + 3 * MM if line.box else 0)
        first, second = 0.28 * room_pt, 0.30 * room_pt
        x_pt, tr = self.area.x_pt, Element("TR", table)
        name, aim, more = (self._style(11, font) for font in (Font.SANS, Font.STRONG, Font.SANS))
        gap_pt = 2 * MM
        third = room_pt - first - second
        strands = [
            Strand(line.name, Column(x_pt, first - gap_pt), name, Element("TH", tr)),
            Strand(line.aim, Column(x_pt + first, second - gap_pt), aim, Element("TD", tr)),
            Strand(line.more, Column(x_pt + first + second, third), more, Element("TD", tr)),
        ]
        set_ = stacked(row(strands))
        tall_pt = max(set_.height_pt, box_pt if line.box else 0.0)
        marks = [mark.lowered((tall_pt - set_.height_pt) / 2) for mark in set_.marks]
        if line.box:
            left_pt = self.area.x_pt + self.area.width_pt - wide_pt
            marks.append(artifact(*_box(left_pt, 0, wide_pt, box_pt)))
        return Slab(tall_pt, tuple(marks), gap_pt=1.0 * MM)


def _box(left_pt: float, top_pt: float, wide_pt: float, tall_pt: float) -> Sequence[Rule]:
    """A box to write in; a short thick rule is an upright."""
    thin = LEAST_LINE_PT
    level = [
        Rule(left_pt, top_pt + down, wide_pt, thin, 0.0) for down in (thin / 2, tall_pt - thin / 2)
    ]
    upright = [
        Rule(x_pt, top_pt + tall_pt / 2, thin, tall_pt, 0.0)
        for x_pt in (left_pt, left_pt + wide_pt - thin)
    ]
    return [*level, *upright]


def _sketch(crop: Crop, left_pt: float, style: Style) -> tuple[Ink, ...]:
    """The frame, in it the part that is printed, and in that the letters."""
    height, width = crop.frame
    unit = min(_SKETCH_PT[0] / width, _SKETCH_PT[1] / height)
    top_pt = 1 * MM
    wide_pt, tall_pt = width * unit, height * unit
    x_pt, down_pt = crop.left * unit, crop.top * unit
    inner_w, inner_h = crop.size[1] * unit, crop.size[0] * unit
    boxes = (
        ((0.0, 0.0), (wide_pt, 0.0), (wide_pt, tall_pt), (0.0, tall_pt), (0.0, 0.0)),
        (
            (x_pt, down_pt),
            (x_pt + inner_w, down_pt),
            (x_pt + inner_w, down_pt + inner_h),
            (x_pt, down_pt + inner_h),
            (x_pt, down_pt),
        ),
    )
    strokes = tuple(Stroke(box, LEAST_LINE_PT) for box in dict.fromkeys(boxes))
    letters = (
        Words(
            # an area and a spot may lie at one point: they stand to either side of it
            left_pt + x_pt + across * inner_w - (style.size_pt * 0.55 if letter.islower() else 0),
            top_pt + down_pt + down * inner_h + style.size_pt * 0.35,
            letter,
            style,
        )
        for letter, across, down in crop.letters
    )
    return (Drawing(left_pt, top_pt, wide_pt, tall_pt, strokes), *letters)
