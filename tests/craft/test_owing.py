"""What a print owes follows from its history, in the order of the work."""

from dataclasses import replace

import pytest

from provenance.craft.owing import owed, owed_untouched
from provenance.model.finish import Finish
from tests.craft.histories import DAY, PRINT, a_print, asked, did, fixed, history, known, ordinary

DRIED = known(120, Finish(prints=(PRINT,), done_on=DAY, place=40, drying="on screens"))
NO_SCAN = {"scans": ()}


def test_what_nothing_is_on_record_of_owes_what_its_empty_history_owes() -> None:
    bodies = (a_print(), a_print(signature=None), a_print(designation=None, signature=None))
    for body in bodies:
        numbered, signed = body.designation is not None, body.signature is not None
        empty = owed(history(print=known(PRINT, body), **NO_SCAN))
        assert empty == dict.fromkeys(owed_untouched(numbered=numbered, signed=signed))


def test_a_finished_print_owes_its_certificate() -> None:
    assert owed(history(*ordinary(), finishes=(DRIED,))) == {"certificate": None}


def test_how_it_dried_is_asked_once_it_is_washed() -> None:
    assert owed(history(*ordinary())) == {"certificate": None, "finish": None}
    washed = owed(history(fixed(), did("wash")))
    assert "thiosulfate" in washed
    assert "finish" not in washed


def test_a_finish_that_says_nothing_of_drying_leaves_it_owed() -> None:
    spotted = replace(DRIED, body=Finish(prints=(PRINT,), done_on=DAY, spotting="dye"))
    assert "finish" in owed(history(*ordinary(), finishes=(spotted,)))


@pytest.mark.parametrize("owes", ["number", "signature", "scan"])
def test_what_is_missing_is_owed_before_the_certificate(owes: str) -> None:
    lacks = {
        "number": {"print": known(PRINT, a_print(designation=None, signature=None))},
        "signature": {"print": known(PRINT, a_print(signature=None))},
        "scan": NO_SCAN,
    }
    assert owed(history(*ordinary(), finishes=(DRIED,), **lacks[owes])) == {owes: None}


def test_a_test_that_does_not_count_is_owed_with_the_reason() -> None:
    early = history(fixed(), asked("silver"), did("wash"))
    assert owed(early)["silver"] == "before the wash"


def test_after_toning_a_silver_test_is_no_longer_owed_unless_it_failed() -> None:
    toned = (fixed(), did("wash"), did("selenium"), did("wash"))
    assert "silver" not in owed(history(*toned))
    failed = (fixed(), did("wash"), asked("silver", "failed"), did("selenium"), did("wash"))
    assert owed(history(*failed))["silver"] is None
