"""The wet side of a long life: what is in hand, and of what is over the latest."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from provenance.model.printing import Printing
from provenance.model.process import PlannedStep, ProcessSheet
from provenance.model.run import Override, Run
from provenance.records.register import Register
from provenance.studio import wet_side
from provenance.studio.wet_side import view_wet_side
from tests.studios import PRINTED_ON, WHO, enter, furnish, new_register, revise, sheet


@pytest.fixture
def runs(tmp_path: Path) -> Iterator[tuple[Register, list[int]]]:
    """Five runs: the first asks for an explanation, the last but one is in hand."""
    with new_register(tmp_path / "studio") as register:
        with register.act(WHO) as act:
            shelf = furnish(act)
            wash = PlannedStep(name="wash", role="wash")
            plan = act.enter(ProcessSheet(code="short", name="Short", base="fibre", steps=(wash,)))
            held = [act.enter(sheet(shelf, mark)) for mark in "abcde"]
            for day in ("2031-05-02", "2030-01-01"):
                act.enter(Printing(negative=shelf.negative, done_on=day))
        ids = []
        for place in range(5):
            ids.append(
                enter(register, Run(process=plan, sheets=(held[place],), began_on=PRINTED_ON))
            )
            over = Override(finding="Q2", step="wash", sheets=(), why="in a hurry")
            if place != 3:
                overrides = () if place else (over,)
                revise(register, ids[-1], state="finished", overrides=overrides)
        yield register, ids


def test_everything_is_shown_while_it_is_little(runs: tuple[Register, list[int]]) -> None:
    register, ids = runs
    view = view_wet_side(register.read)
    assert [one.id for one in view.in_hand] == [ids[3]]
    assert [one.id for one in view.ended] == [ids[4], ids[2], ids[1], ids[0]]
    assert [one.body.done_on for one in view.printings] == ["2031-05-02", PRINTED_ON, "2030-01-01"]
    assert (view.more_ended, view.more_printings) == (0, 0)


def test_of_much_the_latest_is_shown_and_what_asks_for_words(
    runs: tuple[Register, list[int]], monkeypatch: pytest.MonkeyPatch
) -> None:
    register, ids = runs
    monkeypatch.setattr(wet_side, "RUNS", 1)
    monkeypatch.setattr(wet_side, "PRINTINGS", 2)
    view = view_wet_side(register.read)
    assert [one.id for one in view.in_hand] == [ids[3]]
    assert [one.id for one in view.ended] == [ids[4], ids[0]]
    assert view.more_ended == 2
    assert [one.body.done_on for one in view.printings] == ["2031-05-02", "2030-01-01"]
    assert view.more_printings == 1
