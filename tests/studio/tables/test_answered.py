"""A move on record answers for one row of a table, and its event is held against it too."""

import pytest

from provenance.errors import Refused
from provenance.model.custody import CustodyEvent
from provenance.records.register import Register
from tests.studio.tables.test_importing import Import

# the fixtures: a studio whose print G5 is lent, and G1 destroyed
from tests.studio.tables.test_on_record import bring, moves, register

__all__ = ["bring", "register"]

HEAD = "print;event;on;to;until;from;rights;why\n"
SOLD = f"{HEAD}QUAY G3;sold;2031-04-01;Ada;;;stay;\n"


def row(event: str, to: str = "Ada", **other: str) -> str:
    """A row of print G3 on the first of April; `giver` is in the column ``from``."""
    rest = (other.get(one, "") for one in ("until", "giver", "rights", "why"))
    return f"QUAY G3;{event};2031-04-01;{to};{';'.join(rest)}\n"


@pytest.mark.parametrize("on_record", [False, True])
def test_a_line_that_stands_twice_is_refused(
    register: Register, bring: Import, on_record: bool
) -> None:
    if on_record:
        bring(SOLD, "custody")
    head = register.read.head()
    with pytest.raises(Refused) as caught:
        bring(SOLD + row("sold", rights="stay"), "custody")
    (problem,) = caught.value.problems
    assert (problem.line, problem.field) == (3, "event")
    assert "stands in line 2 already" in problem.what
    assert register.read.head() == head


def test_a_loan_that_was_made_twice_in_a_day_is_two_moves(
    register: Register, bring: Import
) -> None:
    began = len(moves(register))
    table = HEAD + row("lent") + row("returned", "") + row("lent")
    bring(table, "custody")
    assert [one.event for one in moves(register)[began:]] == ["lent", "returned", "lent"]
    again = bring(table, "custody")
    assert (again.act, again.warnings) == (0, ())
    assert again.entered[-1].endswith(", 3 on record already")
    with pytest.raises(Refused, match="line 5 QUAY G3 event: stands in line 4 already"):
        bring(table + row("lent"), "custody")
    # what only the second loan says otherwise is told of that one
    other = HEAD + row("lent") + row("returned", "") + row("lent", until="2033")
    with pytest.raises(Refused, match="line 4 QUAY G3 until: is not on record for it") as caught:
        bring(other, "custody")
    assert f"#{register.read.all(CustodyEvent)[-1].id}" in str(caught.value)


@pytest.mark.parametrize(
    ("stands", "said"),
    [
        (row("sold", rights="stay"), row("released", rights="stay")),
        (row("sold", giver=""), row("lent", until="2033")),
        (row("lent", until="2033"), row("sold", until="2033")),
        (row("released"), row("returned", "Ada")),
        (row("lost", "", why="in the post"), row("sold", "", why="in the post")),
        (row("lost", ""), row("returned", "")),
    ],
)
def test_another_event_is_told_by_its_column(
    register: Register, bring: Import, stands: str, said: str
) -> None:
    bring(HEAD + stands, "custody")
    head = register.read.head()
    with pytest.raises(Refused) as caught:
        bring(HEAD + said, "custody")
    (problem,) = caught.value.problems
    assert (problem.line, problem.field) == (2, "event")
    there, here = (one.split(";")[1] for one in (stands, said))
    assert problem.what == (
        f"is on record otherwise (#{register.read.all(CustodyEvent)[-1].id}):"
        f" “{there}” there, “{here}” here"
    )
    assert register.read.head() == head


def test_another_person_or_day_is_no_other_event(bring: Import) -> None:
    bring(HEAD + row("sold"), "custody")
    for other in (row("released", "Bea"), row("released").replace("04-01", "04-02")):
        with pytest.raises(Refused) as caught:
            bring(HEAD + other, "custody")
        assert "otherwise" not in str(caught.value)


def test_a_further_move_of_the_day_to_the_same_person_is_warned_of(
    register: Register, bring: Import
) -> None:
    bring(HEAD + row("released"), "custody")
    first = register.read.all(CustodyEvent)[-1].id
    came = bring(HEAD + row("sold"), "custody")
    (warning,) = came.warnings
    assert (warning.line, warning.field) == (2, "event")
    assert f"(#{first}): released there, sold here" in warning.what
    assert moves(register)[-1].event == "sold"


@pytest.mark.parametrize("first_bring", [HEAD + row("released"), None])
def test_of_moves_that_the_table_has_both_nothing_is_warned(
    bring: Import, first_bring: str | None
) -> None:
    if first_bring:
        bring(first_bring, "custody")
    assert bring(HEAD + row("released") + row("sold"), "custody").warnings == ()
