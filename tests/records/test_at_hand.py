"""What is in use stands apart: whoever asks reads nothing that is done with."""

import pytest

from provenance.model.chemistry import Bath, Stock
from provenance.model.process import PlannedStep, ProcessSheet
from provenance.model.run import Override, Run
from provenance.records.at_hand import at_hand, baths_in_use, bottles_in_use, runs_in_hand
from provenance.records.newest import how_many, newest, newest_first
from provenance.records.projection import rebuild
from provenance.records.register import Register
from tests.studios import PRINTED_ON, WHO, Shelf, enter, revise, sheet, stock


@pytest.fixture
def run(register: Register, shelf: Shelf) -> int:
    """A run in hand."""
    wash = PlannedStep(name="wash", role="wash")
    plan = enter(register, ProcessSheet(code="short", name="Short", base="fibre", steps=(wash,)))
    held = enter(register, sheet(shelf, "a"))
    return enter(register, Run(process=plan, sheets=(held,), began_on=PRINTED_ON))


def in_use(register: Register) -> dict[str, list[int]]:
    """Everything in use, and the same after the view was made again."""
    reader = register.read

    def read() -> dict[str, list[int]]:
        found = {
            "run": runs_in_hand(reader),
            "to explain": at_hand(reader, Run, "to explain"),
            "bath": baths_in_use(reader),
            "stock": bottles_in_use(reader),
        }
        return {use: [one.id for one in held] for use, held in found.items()}

    grown = read()
    rebuild(reader.connection)
    assert read() == grown
    return grown


def test_a_run_is_at_hand_until_it_has_ended_and_is_explained(register: Register, run: int) -> None:
    assert in_use(register)["run"] == [run]
    over = Override(finding="Q2", step="wash", sheets=(), why="in a hurry")
    revise(register, run, overrides=(over,))
    assert in_use(register)["to explain"] == []
    ended = revise(register, run, state="finished")
    now = in_use(register)
    assert (now["run"], now["to explain"]) == ([], [run])
    explained = Override(
        finding="Q2", step="wash", sheets=(), why="in a hurry", explained="it was rinsed"
    )
    revise(register, run, overrides=(explained,))
    assert in_use(register)["to explain"] == []
    with register.act(WHO) as act:
        act.undo(act.head()[0], "a slip")
    assert in_use(register)["to explain"] == [run]
    with register.act(WHO) as act:
        act.undo(ended, "not ended yet")
    assert in_use(register)["run"] == [run]


def test_a_bath_or_bottle_is_at_hand_until_it_is_thrown_away(
    register: Register, shelf: Shelf
) -> None:
    bottle = enter(register, stock())
    assert (in_use(register)["bath"], in_use(register)["stock"]) == (
        [shelf.fix, shelf.wash],
        [bottle],
    )
    gone = {"retired_on": "2031-03-03", "retired_why": "spent"}
    revise(register, shelf.fix, **gone)
    revise(register, bottle, **gone)
    assert (in_use(register)["bath"], in_use(register)["stock"]) == ([shelf.wash], [])
    revise(register, bottle, verb="correct", retired_on=None, retired_why="")
    assert in_use(register)["stock"] == [bottle]


def test_the_newest_come_first_page_by_page(
    register: Register, shelf: Shelf, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("provenance.records.newest._AT_ONCE", 2)
    ids = [enter(register, stock(code=f"S-{place}")) for place in range(5)]
    reader = register.read
    found = [one.id for one in newest_first(reader, Stock)]
    assert found == ids[::-1]
    latest = newest(reader, Bath)
    assert latest is not None
    assert latest.id == shelf.wash
    assert how_many(reader, Bath) == 2
    assert newest(reader, Run) is None
