"""The worksheet of a plan: one side, black on white, every figure on it."""

import re
import zlib
from dataclasses import replace
from datetime import UTC, datetime

import pytest

from provenance.craft.chart import Frame
from provenance.documents.chart_drawing import draw_chart
from provenance.documents.fonts import Font
from provenance.documents.marks import Drawing, Style
from provenance.documents.worksheet import (
    FIGURES_MM,
    LEAST_LINE_PT,
    Line,
    Part,
    Worksheet,
    draw_worksheet,
)
from provenance.errors import Refused
from provenance.model.certificate import Page
from tests.documents import worksheets

AT = datetime(2031, 6, 1, tzinfo=UTC)


def worksheet(page: Page = "A4", lines: int = 8, title: str = "To match QUAY 3/25") -> Worksheet:
    many = tuple(Line(f"step {at}", "2:00", "1+9 then, 1+19 now") for at in range(lines))
    return Worksheet(
        title=title,
        about="negative N-1, paper FB-2, 3 to print",
        base="40.7 s",
        beside=("38.9 to 42.5 s", "grade 2"),
        parts=(Part("Trays", many),),
        before=(),
        ladder=("32.3", "36.2", "40.7", "45.7", "51.3"),
        crop=None,
        drawn_at_utc=AT,
        page=page,
    )


def content(pdf: bytes) -> str:
    return contents(pdf)[0]


def contents(pdf: bytes) -> list[str]:
    streams = re.findall(rb"stream\n(.*?)\nendstream", pdf, re.S)
    found = []
    for stream in streams:
        try:
            found.append(zlib.decompress(stream))
        except zlib.error:
            continue
    return [one.decode("latin-1") for one in found if b" Tf " in one]


@pytest.mark.parametrize("page", ["A4", "letter"])
def test_it_is_one_side_in_black_with_no_hairline(page: Page) -> None:
    pdf = draw_worksheet(worksheet(page))
    assert pdf.count(b"/Type /Page ") == 1
    drawn = content(pdf)
    assert set(re.findall(r"(\S+) [gG] ", drawn)) == {"0"}
    weights = [float(one) for one in re.findall(r"(\S+) w ", drawn)]
    assert min(weights) >= LEAST_LINE_PT - 0.001
    assert LEAST_LINE_PT >= 0.3 * 72 / 25.4


def test_the_base_is_ten_millimetres_high() -> None:
    sizes = [float(one) for one in re.findall(r"(\S+) Tf", content(draw_worksheet(worksheet())))]
    assert max(sizes) * 0.64 >= FIGURES_MM * 72 / 25.4 * 0.98


def test_everything_stands_on_one_side_where_there_is_room() -> None:
    assert draw_worksheet(worksheets.FULL).count(b"/Type /Page ") == 1


def test_what_is_done_by_daylight_goes_to_the_back_and_stays_black() -> None:
    pdf = draw_worksheet(worksheets.crowded())
    assert pdf.count(b"/Type /Page ") == 2
    assert b"/Alt" in pdf
    for drawn in contents(pdf):
        assert set(re.findall(r"(\S+) [gG]\b", drawn)) == {"0"}
        weights = [float(one) for one in re.findall(r"(\S+) w\b", drawn)]
        assert min(weights) >= LEAST_LINE_PT - 0.001


def test_a_chart_keeps_to_its_frame() -> None:
    wide = replace(worksheets.CHART, frame=Frame(-0.5, 0.5, 0.5, 1.0))
    style = Style(Font.SANS, 8, 10, 0.0)
    mark = draw_chart(
        wide, (0, 0, 200, 100), style, weight_pt=1, told=("x", "y"), alternative="curves"
    )
    drawing = next(ink for ink in mark.inks if isinstance(ink, Drawing))
    for stroke in drawing.strokes:
        for x, down in stroke.points:
            assert -2 <= x <= drawing.width_pt + 2
            assert -2 <= down <= drawing.height_pt + 2


def test_equal_sheets_give_equal_bytes() -> None:
    assert draw_worksheet(worksheet()) == draw_worksheet(worksheet())


def test_more_than_one_side_is_refused_with_how_much() -> None:
    with pytest.raises(Refused, match="longer than one side"):
        draw_worksheet(worksheet(lines=60))


def test_a_character_that_cannot_be_printed_is_named() -> None:
    with pytest.raises(Refused, match="cannot be printed"):
        draw_worksheet(worksheet(title="To match 🙂"))
