"""Studies and finishes: dated, of things that go together, and saying something."""

from typing import Any

import pytest

from provenance.model.finish import Condition, Inscription
from provenance.model.paper import Paper
from provenance.model.process import PlannedStep, ProcessSheet
from provenance.model.study import BleachedPatch, SpotPoint, WashReading
from provenance.records.register import Register
from tests.records.rules.conftest import Refuses
from tests.studios import (
    Shelf,
    enter,
    finish,
    revise,
    sheet,
    spot_calibration,
    toning_study,
    wash_study,
)


@pytest.fixture
def one(register: Register, shelf: Shelf) -> int:
    """A print."""
    return enter(register, sheet(shelf, "1"))


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"done_on": "2031-06-02"}, "still to come"),
        ({"done_on": "soon"}, "is not a date"),
        ({"method": "silver-nitrate spot"}, "gives no amount of thiosulfate; use one of"),
        ({"method": "selenium spot"}, "gives no amount of thiosulfate"),
        ({"readings": ()}, "no calibration: estimate only"),
        (
            {"readings": (WashReading(washed_ms=0, left_ng_per_cm2=9),)},
            "one wash time cannot show how fast a paper washes",
        ),
    ],
)
def test_a_wash_study_is_refused(
    refuses: Refuses, shelf: Shelf, fields: dict[str, Any], words: str
) -> None:
    refuses(words, wash_study(shelf.paper, **fields))


@pytest.mark.parametrize(
    ("patches", "words"),
    [
        (((860, 900),), "patch 1: 0.86 before and 0.9 after the bleach would be more than 100 %"),
        (((860, 700), (20, 20)), "patch 2: its density before the bleach, 0.02, is less than that"),
        (((100, 90),), "no patch is dark enough"),
        ((), "no patch is dark enough"),
    ],
)
def test_a_toning_study_is_refused(
    refuses: Refuses, shelf: Shelf, patches: tuple[tuple[int, int], ...], words: str
) -> None:
    read = tuple(BleachedPatch(before_md=one, after_md=two) for one, two in patches)
    refuses(words, toning_study(shelf.paper, patches=read))


def test_a_toning_study_is_of_a_process_for_its_paper(
    register: Register, refuses: Refuses, shelf: Shelf
) -> None:
    steps = (PlannedStep(name="fix", role="fix"),)
    plan = ProcessSheet(code="rc", name="Resin", base="resin-coated", steps=steps)
    process = enter(register, plan)
    refuses(
        "process rc is for resin-coated paper, FB-1 is fibre",
        toning_study(shelf.paper, process=process),
    )
    refuses("is not on record, not a process", toning_study(shelf.paper, process=999))


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        (
            {"points": (SpotPoint(darker_md=50, found_ng_per_cm2=9),)},
            "one spot or none is no scale",
        ),
        ({"points": ()}, "one spot or none is no scale"),
        (
            {"points": tuple(SpotPoint(darker_md=50, found_ng_per_cm2=n) for n in (1, 2, 3))},
            "3 spots give only 1 levels",
        ),
        ({"method": "methylene blue"}, "methylene blue leaves no spot"),
        ({"method": "sulfide spot"}, "tells of silver, which is reckoned as itself"),
        ({"reckoned_as": None}, "say as what it is reckoned"),
        ({"contact_ms": 120_000, "read_ms": 60_000}, "before the contact time was over"),
    ],
)
def test_a_calibration_is_refused(
    refuses: Refuses, shelf: Shelf, fields: dict[str, Any], words: str
) -> None:
    refuses(words, spot_calibration(shelf.paper, **fields))


@pytest.mark.parametrize("study", [wash_study, toning_study, spot_calibration])
def test_a_study_is_not_older_than_its_paper(
    register: Register, refuses: Refuses, study: Any
) -> None:
    paper = enter(register, Paper(code="FB-9", base="fibre", bought="2031-04"))
    refuses("the paper was bought 2031-04", study(paper))
    enter(register, study(paper, done_on="2031-04-20"))


def test_a_study_bears_its_code_alone(register: Register, refuses: Refuses, shelf: Shelf) -> None:
    held = enter(register, wash_study(shelf.paper))
    refuses(f"the code is taken by #{held}", wash_study(shelf.paper))
    refuses("cannot serve as a code", wash_study(shelf.paper, code="7 a"))


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"drying": None, "flattening": None}, "says nothing of what was done"),
        ({"done_on": "2031-03-01"}, "lies before sheet 1 was printed on 2031-03-02"),
        ({"done_on": "2031-06-02"}, "still to come"),
        ({"mount": "", "adhesive": "paste"}, "an adhesive holds a print that is not mounted"),
        ({"inscriptions": (Inscription(text=" "),)}, "an inscription has no words"),
        ({"condition": Condition(occasion="finished", text="")}, "does not say how it looked"),
    ],
)
def test_a_finish_is_refused(
    refuses: Refuses, one: int, fields: dict[str, Any], words: str
) -> None:
    refuses(words, finish(one, **fields))


def test_a_finish_is_of_prints_that_are_there(
    register: Register, refuses: Refuses, shelf: Shelf, one: int
) -> None:
    refuses("names no sheets", finish())
    refuses("names a sheet twice", finish(one, one))
    revise(register, one, existence="destroyed", gone_on="2031-03-03", gone_why="torn")
    refuses("sheet 1 was destroyed on 2031-03-03", finish(one))
    nothing_done = {"drying": None, "flattening": None, "trimmed": False}
    enter(register, finish(one, done_on="2031-03-03", **nothing_done))


def test_a_printing_is_not_redated_past_its_finish(
    register: Register, refuses: Refuses, shelf: Shelf, one: int
) -> None:
    held = enter(register, finish(one))
    refuses(
        f"#{held} has 2031-03-04 for sheet 1, before it was printed",
        shelf.printing,
        verb="correct",
        done_on="2031-03-05",
    )
