from hypothesis import given
from hypothesis import strategies as st

from provenance.documents.lines import break_lines


def set_in(width: int, text: str) -> tuple[str, ...]:
    return break_lines(text, width, lambda piece: float(len(piece)))


@given(st.text(st.sampled_from("ab 7\N{NO-BREAK SPACE}"), max_size=120), st.integers(3, 40))
def test_no_line_is_too_wide_and_nothing_is_lost(text: str, width: int) -> None:
    lines = set_in(width, text)
    assert all(0 < len(line) <= width for line in lines)
    assert "".join(lines).replace(" ", "") == text.replace(" ", "")


@given(st.lists(st.text("abc", min_size=1, max_size=9), max_size=30), st.integers(9, 40))
def test_the_lines_are_no_more_than_necessary(words: list[str], width: int) -> None:
    greedy = [""]
    for word in words:
        joined = f"{greedy[-1]} {word}".strip()
        greedy = [*greedy[:-1], joined] if len(joined) <= width else [*greedy, word]
    assert len(set_in(width, " ".join(words))) == len([line for line in greedy if line])


def test_a_last_word_is_not_left_alone() -> None:
    assert set_in(20, "one two three four five") == ("one two three", "four five")


def test_a_figure_stays_with_what_it_counts() -> None:
    assert set_in(22, "toned in selenium for 2 minutes") == ("toned in selenium for", "2 minutes")
    assert set_in(28, "Q-0412, made 1998, 6.0 × 7.0 cm, in use") == (
        "Q-0412, made 1998,",
        "6.0 × 7.0 cm, in use",
    )


def test_a_no_break_space_is_kept() -> None:
    assert set_in(10, "washed 40\N{NO-BREAK SPACE}min") == ("washed", "40\N{NO-BREAK SPACE}min")


def test_white_space_of_any_kind_separates() -> None:
    assert set_in(20, " one\ttwo\r\n three ") == ("one two three",)
    assert set_in(20, " \n ") == ()
