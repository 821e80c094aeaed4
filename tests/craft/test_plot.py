"""Curves in braille: every dot is where it belongs."""

from hypothesis import given
from hypothesis import strategies as st

from provenance.craft.chart import Bar, Chart, Frame, Sign, Trace, frame_around, ticks
from provenance.craft.plot import Line, braille, chart_rows, frame_of, letter_rows

points = st.lists(st.tuples(st.floats(-5, 5), st.floats(-5, 5)), max_size=8)


def test_corners() -> None:
    marks = Line([(0, 0), (1, 0), (0, 1), (1, 1)], joined=False)
    assert braille([marks], 3, 2) == ["⠁⠀⠈", "⡀⠀⢀"]


def test_a_level_line_and_a_rising_one() -> None:
    frame = Frame(0, 1, 0, 1)
    assert braille([Line([(0, 0), (1, 0)])], 4, 1, frame) == ["⣀⣀⣀⣀"]
    assert braille([Line([(0, 0), (1, 1)])], 2, 1, frame) == ["⡠⠊"]


def test_a_dotted_line_leaves_gaps() -> None:
    dotted = Line([(0, 0), (1, 0)], every=2)
    assert braille([dotted], 4, 1, Frame(0, 1, 0, 1)) == ["⡀⡀⡀⡀"]


def test_lines_share_a_cell() -> None:
    frame = Frame(0, 1, 0, 1)
    both = [Line([(0, 0)]), Line([(1, 1)])]
    assert braille(both, 1, 1, frame) == ["⡈"]


@given(st.lists(points.map(Line), max_size=3), st.integers(1, 40), st.integers(1, 20))
def test_the_picture_has_the_size_that_was_asked_for(
    lines: list[Line], columns: int, rows: int
) -> None:
    drawn = braille(lines, columns, rows)
    assert [len(row) for row in drawn] == [columns] * rows
    dots = sum(bin(ord(cell) - 0x2800).count("1") for row in drawn for cell in row)
    assert (dots > 0) == any(line.points for line in lines)


@given(points.filter(bool))
def test_what_lies_outside_of_the_frame_is_left_out(away: list[tuple[float, float]]) -> None:
    drawn = braille([Line([(x + 20, y) for x, y in away])], 5, 3, Frame(-5, 5, -5, 5))
    assert drawn == ["⠀" * 5] * 3


def test_a_frame_is_never_without_width() -> None:
    frame = frame_of([Line([(1, 2)])])
    assert frame.right > frame.left
    assert frame.top > frame.bottom
    assert frame_of([]).right > 0


def test_a_chart_has_its_figures_and_letters_where_they_belong() -> None:
    chart = Chart(
        "log H",
        "density",
        Frame(0, 1, 0, 2),
        (Trace([(0, 0), (1, 2)]),),
        (Bar((0, 1), (1, 1)),),
        (Sign("A", (1, 2)), Sign("B", (0, 0)), Sign("C", (5, 5))),
    )
    rows = chart_rows(chart, 25, 11)
    assert rows[0].startswith(" 2.0┤")
    assert rows[0].endswith("A")
    assert rows[8].startswith(" 0.0┤B")
    assert rows[4].startswith(" 1.0┤")
    assert "⠤" in rows[4] or "⠒" in rows[4]
    assert rows[-1].split() == ["0.0", "0.5", "1.0"] or rows[-1].split() == ["0.0", "1.0"]
    assert "C" not in "".join(rows)


@given(st.floats(-3, 3), st.floats(0.1, 6), st.integers(2, 9))
def test_ticks_lie_in_their_span_and_are_few(low: float, wide: float, most: int) -> None:
    found = ticks(low, low + wide, most)
    assert len(found) <= most
    assert all(low - 1e-6 <= one <= low + wide + 1e-6 for one in found)


@given(points.filter(bool))
def test_a_frame_around_points_holds_them(held: list[tuple[float, float]]) -> None:
    frame = frame_around(held)
    assert all(0 <= share <= 1 for point in held for share in frame.shares(point))


def test_letters_lie_where_their_points_do() -> None:
    rows = letter_rows([("a", (0, 0)), ("B", (1, 1))], 20, 30, 32, 40)
    assert rows[1].startswith("│a")
    assert rows[-2].endswith("B│")
    assert {len(row) for row in rows} == {32}
    assert len(rows) == 2 + 10
    assert len(letter_rows([], 30, 20, 80, 12)) == 12
