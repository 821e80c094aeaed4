"""No cell is taken for a formula, and every text comes back."""

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from provenance.records.exchange.cells import NO_TEXT, guard, table_lines, text_of, unguard

TEXTS = st.text(st.characters(exclude_categories=["Cs"]), max_size=20)
HOSTILE = st.builds(str.__add__, st.sampled_from(list("=+-@'\t\r\n＝＋－＠")), TEXTS)


@given(st.one_of(TEXTS, HOSTILE))
def test_no_cell_begins_like_a_formula_and_each_comes_back(text: str) -> None:
    cell = guard(text)
    assert not cell.startswith(tuple("=+-@\t\r\n＝＋－＠"))
    assert unguard(cell) == text
    assert text_of(cell) == text


@given(st.lists(st.lists(st.one_of(TEXTS, HOSTILE, st.integers()), min_size=2, max_size=2)))
def test_a_table_comes_back(rows: list[list[str | int]]) -> None:
    text = b"".join(table_lines(["one", "two"], rows)).decode("utf-8")
    read = list(csv.reader(io.StringIO(text, newline="")))
    assert read[0] == ["one", "two"]
    assert [[text_of(cell) for cell in row] for row in read[1:]] == [
        [str(cell) for cell in row] for row in rows
    ]


@pytest.mark.parametrize("typed", ["'tis", "O'Hara", "", "'", "plain"])
def test_what_a_person_typed_stays(typed: str) -> None:
    assert unguard(typed) == typed
    assert text_of(f" {typed} ") == typed


def test_an_optional_text_may_be_there_and_empty() -> None:
    assert b"".join(table_lines(["one"], [[NO_TEXT]])) == b'"one"\r\n"\'"\r\n'
    assert text_of("'") == NO_TEXT
