"""What is proposed from the last time, and what is not."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from provenance.model.chemistry import Bath
from provenance.model.edition import Edition
from provenance.model.printing import Burn, Exposure, Printing, Step
from provenance.model.prints import Print
from provenance.records.reader import Stored
from provenance.records.register import Register
from provenance.studio.last_time import last_time, lowest_free, next_marks
from tests import studios


@pytest.fixture
def register(tmp_path: Path) -> Iterator[Register]:
    with studios.new_register(tmp_path) as register:
        with register.act(studios.WHO) as act:
            studios.furnish(act)
        yield register


def edition(register: Register) -> Stored[Edition]:
    found = register.read.by_code(Edition, "QUAY")
    assert found is not None
    return found


def printed(register: Register, of: Stored[Edition], *marks: str, **other: object) -> list[int]:
    """A printing with its sheets."""
    fields: dict[str, object] = {"negative": of.body.negative, "done_on": "2031-04-01"}
    printing = studios.enter(register, Printing(**fields | other))  # type: ignore[arg-type]
    return [
        studios.enter(
            register,
            Print(
                edition=of.id,
                printing=printing,
                mark=mark,
                image=studios.IMAGE,
                sheet=studios.SHEET,
            ),
        )
        for mark in marks
    ]


def test_nothing_is_proposed_before_the_first_printing(tmp_path: Path) -> None:
    with studios.new_register(tmp_path) as register:
        negative = studios.enter(register, studios.negative())
        studios.enter(register, studios.edition(negative))
        last = last_time(register.read, edition(register))
    assert (last.day, last.paper, last.baths, last.sheets) == ("", "", {}, 1)


def test_another_edition_lends_the_enlarger_but_not_the_exposure(register: Register) -> None:
    exposure = Exposure(
        base_ms=14_000,
        aperture_tenth=56,
        grade="2 1/2",
        enlarger="diffusion head",
        burns=(Burn(area="sky", milli_stop=333, grade="1"),),
    )
    own = edition(register)
    printed(register, own, "Q1", exposure=exposure)
    studios.enter(register, studios.edition(own.body.negative, code="SMALL"))
    small = register.read.by_code(Edition, "SMALL")
    assert small is not None
    here, there = last_time(register.read, own), last_time(register.read, small)
    assert (here.base, here.aperture, here.burns) == ("14 s", "f/5.6", "sky +1/3 grade 1")
    assert (there.base, there.burns, there.enlarger) == ("", "", "diffusion head")


def test_a_bath_that_was_used_up_is_replaced_by_the_newer_one(register: Register) -> None:
    used = studios.enter(register, Bath(code="T-1", role="thiourea", one_shot=True))
    (print_,) = printed(register, edition(register), "Q1")
    toned = Step(
        role="thiourea", name="toner", sheets=(print_,), bath=used, done_on="2031-04-01", place=1
    )
    studios.enter(register, toned)
    assert last_time(register.read, edition(register)).baths == {}
    studios.enter(register, Bath(code="T-2", role="thiourea", one_shot=True))
    assert last_time(register.read, edition(register)).baths == {"toner": "T-2"}


def test_marks_go_on_from_the_last_one(register: Register) -> None:
    held = edition(register)
    assert next_marks(register.read, held, 2) == ["Q1", "Q2"]
    printed(register, held, "R12", "Q10", "Q12", "Q11")
    assert next_marks(register.read, held, 2) == ["Q13", "Q14"]
    printed(register, held, "the torn one")
    assert next_marks(register.read, held, 1) == ["Q1"]


def test_the_lowest_free_number(register: Register) -> None:
    held = edition(register)
    assert lowest_free(register.read, held) == 1
    prints = printed(register, held, "Q1", "Q2")
    studios.revise(register, prints[0], designation="1/25")
    studios.revise(register, prints[1], designation="3/25")
    assert lowest_free(register.read, held) == 2
    assert lowest_free(register.read, held, 2) == 4
    assert lowest_free(register.read, held, 22) == 4
    assert lowest_free(register.read, held, 23) is None
