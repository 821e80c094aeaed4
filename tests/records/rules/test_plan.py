"""Negatives, editions, papers, baths, process sheets and the studio itself."""

from typing import Any

import pytest

from provenance.model.body import Body
from provenance.model.chemistry import Bath
from provenance.model.paper import Paper
from provenance.model.process import Aim, PlannedStep, ProcessSheet
from provenance.model.quantities import Size
from provenance.records.register import Register
from tests.records.rules.conftest import Refuses
from tests.studios import SHEET, Shelf, edition, enter, negative, studio


@pytest.mark.parametrize(
    ("body", "words"),
    [
        (negative(title=" "), "title: is empty"),
        (negative(made="2031-07"), "2031-07 is still to come"),
        (negative(made="about 1998"), "is not a date.*1998~"),
        (negative(state="lost", state_since="2040"), "still to come"),
        (negative(code=""), "cannot serve as a code"),
        (negative(code="7-N"), "cannot serve as a code"),
        (negative(code="N 1"), "cannot serve as a code"),
        (negative(code="N" * 25), "cannot serve as a code"),
        (negative(code="../N"), "cannot serve as a code"),
        (Paper(code="FB-2", base="fibre", bought="2032"), "still to come"),
        (Bath(code="B-1", role="fix", made_on="2032"), "still to come"),
        (
            Bath(code="B-1", role="fix", made_on="2031-03", retired_on="2031-02"),
            "2031-02 lies before 2031-03",
        ),
    ],
)
def test_refused(refuses: Refuses, body: Body, words: str) -> None:
    refuses(words, body)


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"promise": "\n"}, "promise: is empty"),
        ({"numbered": 0, "artist_proofs": 0}, "declares no impressions"),
        ({"sheet": Size(height_tenth_mm=100, width_tenth_mm=100)}, "check both sizes"),
        ({"image": SHEET, "sheet": Size(height_tenth_mm=4060, width_tenth_mm=3050)}, "turn"),
        ({"opened": "2031-04", "closed": "2031-03"}, "2031-03 lies before 2031-04"),
        ({"opened": "2032"}, "still to come"),
        ({"code": "quay"}, "the code is taken by"),
    ],
)
def test_an_edition_is_refused(
    refuses: Refuses, shelf: Shelf, fields: dict[str, Any], words: str
) -> None:
    refuses(words, edition(shelf.negative, **{"code": "PIER"} | fields))


def test_a_code_is_taken_within_its_kind(
    register: Register, refuses: Refuses, shelf: Shelf
) -> None:
    refuses(f"the code is taken by #{shelf.negative}", negative(code="n-1"))
    other = enter(register, Paper(code="N-1", base="fibre"))
    refuses("the code is taken by", other, code="FB-1")
    with register.act("printer") as act:
        act.void(other, other, "a duplicate")
    enter(register, Paper(code="N-1", base="resin-coated"))


@pytest.mark.parametrize(
    ("steps", "words"),
    [
        ((), "has no steps"),
        ((PlannedStep(name="fix", role="fix"),) * 2, "2 steps are called 'fix'"),
        ((PlannedStep(name="", role="fix"),), "called ''"),
        ((PlannedStep(name="look"),), "either a bath's role or a test"),
        ((PlannedStep(name="both", role="fix", test="silver"),), "either a bath's role"),
        (
            (PlannedStep(name="fix", role="fix", aim=Aim(time_ms=10, least_ms=20)),),
            "outside its own limits",
        ),
        (
            (PlannedStep(name="fix", role="fix", aim=Aim(time_ms=30, longest_ms=20)),),
            "outside its own limits",
        ),
    ],
)
def test_a_process_sheet_is_refused(
    refuses: Refuses, steps: tuple[PlannedStep, ...], words: str
) -> None:
    refuses(words, ProcessSheet(code="P-1", name="Two baths", base="fibre", steps=steps))


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"studio_id": "f" * 32}, "the studio's id never changes"),
        ({"mark": "D"}, "cannot begin a certificate number"),
        ({"mark": "DR1"}, "cannot begin a certificate number"),
        ({"artist": ""}, "artist: is empty"),
    ],
)
def test_the_studio_is_refused(refuses: Refuses, fields: dict[str, Any], words: str) -> None:
    refuses(words, 1, **fields)


def test_a_register_holds_one_studio(refuses: Refuses) -> None:
    refuses("a register holds one studio", studio(studio_id="f" * 32))
