"""Curves in braille: every dot is where it belongs."""

from hypothesis import given
from hypothesis import strategies as st

from provenance.craft.plot import Frame, Line, braille, frame_of

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
