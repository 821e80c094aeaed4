"""What reaches the terminal, and what does not."""

import json
import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from provenance.cli import output
from provenance.errors import Damaged, Misuse, Problem, Refused


@given(st.text())
def test_what_is_safe_is_one_line_without_controls(text: str) -> None:
    said = output.safe(text)
    assert all(unicodedata.category(letter) not in ("Cc", "Cs", "Zl", "Zp") for letter in said)
    assert "\u202e" not in said
    said.encode("utf-8")


@given(st.text(st.characters(exclude_categories=["C", "Z"])))
def test_ordinary_text_is_left_as_it_is(text: str) -> None:
    assert output.safe(text) == text


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("\x1b[2J", "\\u001b[2J"),
        ("\x9b31m", "\\u009b31m"),
        ("a\nb\tc\rd", "a\\nb\\tc\\u000dd"),
        ("\u202eright", "\\u202eright"),
        ("\udcff", "\\udcff"),
    ],
)
def test_what_could_steer_is_shown(text: str, said: str) -> None:
    assert output.safe(text) == said


@given(st.recursive(st.text() | st.integers(-(2**53), 2**53), st.lists))
def test_json_stays_json(value: object) -> None:
    written = output.safe(json.dumps(value, ensure_ascii=False))
    assert json.loads(written) == value


@pytest.mark.parametrize(
    ("text", "columns"),
    [("quay", 4), ("é", 1), ("e\u0301", 1), ("静か", 4), ("Ａ", 2), ("a\u200bb", 2)],
)
def test_the_width_is_that_of_a_terminal(text: str, columns: int) -> None:
    assert output.width(text) == columns


def test_columns_stand_under_each_other_whatever_is_in_them(
    capsys: pytest.CaptureFixture[str],
) -> None:
    rows = [("1", "静かな岸", "x"), ("22", "quay", "y"), ("3", "a\x1b[1m", "z")]
    output.table(("id", "name", "about"), rows, right=(0,))
    lines = capsys.readouterr().out.splitlines()
    assert lines[1].startswith(" 1  ")
    assert len({output.width(line) for line in lines[1:]}) == 1


@pytest.mark.parametrize("as_json", [True, False])
def test_an_error_never_steers_the_terminal(
    capsys: pytest.CaptureFixture[str], as_json: bool
) -> None:
    steering = "\x1b]0;x\x07\x9b\x7f\n"
    output.tell_error(Refused(Problem(*[steering] * 4)), as_json=as_json)
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.endswith("\n")
    assert not any(unicodedata.category(letter) == "Cc" for letter in said.err[:-1])


def test_an_error_has_one_shape() -> None:
    error = Refused(Problem("w", "r", "f", "m", 3), "only what")
    assert output.error_shape(error) == {
        "error": "refused",
        "problems": [
            {"what": "w", "record": "r", "field": "f", "mend": "m", "line": 3},
            {"what": "only what", "record": "", "field": "", "mend": "", "line": None},
        ],
    }


@pytest.mark.parametrize(
    ("error", "heading"),
    [(Refused("x"), "refused: x"), (Damaged("x"), "damaged: x"), (Misuse("x"), "wrong use: x")],
)
def test_a_person_is_told_what_kind_of_error_it_is(
    capsys: pytest.CaptureFixture[str], error: Refused, heading: str
) -> None:
    output.tell_error(error, as_json=False)
    assert capsys.readouterr().err == f"{heading}\n"
