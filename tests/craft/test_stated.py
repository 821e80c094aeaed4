"""What finishes, studies and the studio's own scale add to a statement, and when they do not."""

from typing import Any

import pytest

from provenance.craft.history import Fact
from provenance.craft.statement import statement
from provenance.model.evidence import Amount, Claim, Portion, Standing, Term, When
from provenance.model.finish import Condition, Finish, Inscription
from provenance.model.printing import Printing, Step
from provenance.model.proof import Test
from provenance.model.study import BleachedPatch, SpotCalibration, SpotPoint, ToningStudy
from tests.craft.histories import (
    DAY,
    MINUTE,
    NEGATIVE,
    NEXT_DAY,
    PAPER,
    PRINT,
    PRINTING,
    asked,
    did,
    entered,
    history,
    known,
)

PROCESS, OTHER_PROCESS, STUDY, SCALE, FINISH = 60, 61, 70, 80, 50
PATCHES = ((200, 20), (600, 150), (900, 300), (1200, 500), (1900, 1500))
SEPIA = (did("bleach", duration_ms=MINUTE), did("thiourea"), did("wash"))
TONED = (*SEPIA, did("selenium"), did("wash"))


def told(*work: Step | Test | Fact[Any], **other: Any) -> dict[str, Claim]:
    """The claims of a history by their names."""
    printing = Printing(negative=NEGATIVE, done_on=DAY, paper=PAPER, process=PROCESS)
    return {
        one.id: one
        for one in statement(history(*work, **{"printing": known(PRINTING, printing)} | other))
    }


def a_study(on: str = DAY, **fields: Any) -> Fact[ToningStudy]:
    """A strip of the paper of the print, bleached for a minute."""
    given: dict[str, Any] = {
        "code": "T-1",
        "paper": PAPER,
        "process": PROCESS,
        "done_on": DAY,
        "bleach": "toning bleach",
        "bleached_ms": MINUTE,
        "d_min_md": 60,
        "patches": tuple(
            BleachedPatch(before_md=before + 60, after_md=after + 60) for before, after in PATCHES
        ),
    }
    return known(STUDY, ToningStudy(**given | fields), on)


OXIDISED = {"bleach": "oxidising bleach", "bleached_ms": None}


def test_what_was_converted_is_said_of_the_strip_at_three_densities_and_closes_the_gap() -> None:
    said = told(*TONED, toning_studies=(a_study(**OXIDISED),))
    assert said["tested.conversion"].words["parts"] == (
        Portion(100, 200),
        Portion(333, 900),
        Portion(789, 1900),
    )
    assert STUDY in said["tested.conversion"].evidence
    assert "unknown.conversion" not in said


@pytest.mark.parametrize(
    "study",
    [
        a_study(**OXIDISED, process=OTHER_PROCESS),
        a_study(**OXIDISED, process=None),
        # what the bleach left is no conversion: selenium came after it
        a_study(),
    ],
)
def test_a_strip_that_did_not_go_the_way_of_the_print_says_nothing_of_its_conversion(
    study: Fact[ToningStudy],
) -> None:
    said = told(*TONED, toning_studies=(study,))
    assert "tested.conversion" not in said
    assert "unknown.conversion" in said


def test_a_print_that_was_not_toned_needs_no_study() -> None:
    said = told(did("wash"), toning_studies=(a_study(), a_study(**OXIDISED)))
    assert not {"tested.conversion", "tested.coverage", "unknown.coverage"} & said.keys()


def test_what_the_bleach_left_is_said_where_the_time_was_the_same() -> None:
    said = told(*TONED, toning_studies=(a_study(),))
    assert said["tested.coverage"].words["parts"][-1] == Portion(789, 1900)
    assert "unknown.coverage" not in said


@pytest.mark.parametrize("bleached_ms", [None, 2 * MINUTE])
@pytest.mark.parametrize("study_ms", [MINUTE, None])
def test_an_estimate_for_another_time_carries_no_claim(
    bleached_ms: int | None, study_ms: int | None
) -> None:
    work = (did("bleach", duration_ms=bleached_ms), *TONED[1:])
    said = told(*work, toning_studies=(a_study(bleached_ms=study_ms),))
    assert "tested.coverage" not in said
    assert STUDY in said["unknown.coverage"].evidence
    assert said["unknown.coverage"].standing != Standing.NOT_ON_RECORD


def test_a_bleach_that_reduced_the_print_is_no_toning_bleach() -> None:
    reduced = (did("bleach", duration_ms=MINUTE), did("fix"), did("wash"), did("selenium"))
    assert "tested.coverage" not in told(*reduced, toning_studies=(a_study(),))


def test_a_selenium_print_cannot_be_studied_by_what_a_toning_bleach_left() -> None:
    split = (did("selenium"), did("bleach", duration_ms=MINUTE), did("selenium"))
    assert "tested.coverage" not in told(*split, toning_studies=(a_study(),))


def test_a_study_is_worth_no_more_than_the_steps_of_the_print() -> None:
    strip = (a_study(**OXIDISED),)
    same_day = told(*TONED, toning_studies=strip)["tested.conversion"]
    assert same_day.standing == Standing.SAME_DAY
    recalled = (*SEPIA, entered(did("selenium"), "2034-01-01", "memory"))
    assert told(*recalled, toning_studies=strip)["tested.conversion"].standing == (
        Standing.FROM_MEMORY
    )
    late = told(*TONED, toning_studies=(a_study("2034-01-01", **OXIDISED),))
    assert late["tested.conversion"].standing == Standing.FROM_NOTES


def measured(**fields: Any) -> Test:
    """What a laboratory found left in a sheet that was washed with the print."""
    given = {"method": "laboratory analysis", "measured_ng_per_cm2": 900}
    return asked("thiosulfate", **given | fields)


@pytest.mark.parametrize(
    ("limit", "known_whose"),
    [
        ({"criterion": "1 µg/cm²", "criterion_source": "the studio"}, True),
        ({"criterion": "1 µg/cm²"}, False),
        ({"criterion_source": "the studio"}, False),
        ({}, False),
    ],
)
def test_a_figure_without_a_limit_or_without_whose_it_is_has_a_gap(
    limit: dict[str, str], known_whose: bool
) -> None:
    said = told(did("wash"), measured(**limit))
    assert "tested.thiosulfate.measured" in said
    assert ("unknown.thiosulfate.limit" not in said) == known_whose


def test_a_spot_by_eye_has_no_limit_to_be_told() -> None:
    assert "unknown.thiosulfate.limit" not in told(did("wash"), asked("thiosulfate"))


def test_a_figure_says_of_what_it_is() -> None:
    words = told(did("wash"), measured(reckoned_as="sodium"))["tested.thiosulfate.measured"].words
    assert (words["amount"], words["species"]) == (Amount(900), Term("species", "sodium"))


def a_scale(**fields: Any) -> Fact[SpotCalibration]:
    """Spots of the studio's own that a laboratory measured."""
    given: dict[str, Any] = {
        "code": "S-1",
        "paper": PAPER,
        "done_on": DAY,
        "method": "silver-nitrate spot",
        "points": tuple(
            SpotPoint(darker_md=darker, found_ng_per_cm2=found)
            for darker, found in ((0, 0), (50, 500), (100, 1000), (200, 2000))
        ),
    }
    return known(SCALE, SpotCalibration(**given | fields))


def test_a_spot_is_turned_into_an_amount_by_the_studio_s_own_scale_only() -> None:
    spot = asked("thiosulfate", darker_md=80, calibration=SCALE)
    held = told(did("wash"), spot, calibrations=(a_scale(),))["tested.thiosulfate.scaled"]
    assert SCALE in held.evidence
    amounts = [held.words[name] for name in ("least", "amount", "most")]
    assert all(isinstance(one, Amount) for one in amounts)
    assert held.standing == Standing.CALCULATED
    assert "tested.thiosulfate.scaled" not in told(did("wash"), asked("thiosulfate", darker_md=80))


def finish(on: str = DAY, record: int = FINISH, **fields: Any) -> Fact[Finish]:
    """What was done to the print after the wash."""
    return known(record, Finish(**{"prints": (PRINT,), "done_on": DAY} | fields), on)


def test_what_was_done_and_what_was_looked_at_and_not_done_is_said_and_silence_is_not() -> None:
    done = finish(drying="on screens", spotting="none", trimmed=False, mount="", enclosure="folder")
    said = told(finishes=(done,))
    assert said["made.finished"].words == {
        "when": When(DAY),
        "drying": Term("drying", "on screens"),
        "spotting": Term("spotting", "none"),
        "trimmed": Term("trimmed", "no"),
        "unmounted": Term("finish", "unmounted"),
        "enclosure": "folder",
    }
    assert said["made.finished"].standing == Standing.SAME_DAY
    assert "unknown.finished" not in said


def test_words_on_the_print_and_its_last_condition_are_sentences_of_their_own() -> None:
    first = finish(
        inscriptions=(Inscription(text="To whom it may concern", medium="pencil", where="verso"),),
        condition=Condition(occasion="finished", text="Flat and clean."),
    )
    back = finish(
        record=51, done_on=NEXT_DAY, condition=Condition(occasion="coming back", text="One crease.")
    )
    said = told(finishes=(first, back))
    words = said["made.inscribed"].words["inscriptions"]
    assert words == ("To whom it may concern (pencil, verso)",)
    assert said["made.condition"].evidence == (51,)
    assert said["made.condition"].words["text"] == "One crease"
    assert "unknown.finished" in said, "neither says how it was dried or mounted"


def test_a_finish_that_was_entered_later_says_so() -> None:
    late = finish("2034-01-01", drying="with heat")
    held = told(finishes=(late,))["made.finished"]
    assert held.standing == Standing.FROM_NOTES
    assert held.words["entered"] == When("2034-01-01")
