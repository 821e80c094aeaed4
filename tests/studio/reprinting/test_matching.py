"""A print against its reference: where it differs, and who decided."""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from msgspec import structs

from provenance.craft.statement import statement
from provenance.errors import Refused
from provenance.model.matching import MatchReport
from provenance.model.printing import Printing
from provenance.model.prints import Print
from provenance.records.dossier import print_history
from provenance.records.register import Register
from provenance.studio.reprinting.matching import compare_prints, decide
from tests.studios import enter, furnish, match_report, new_register, reading, sheet

DECIDED = {"by": "artist", "on": "2031-05-01", "why": "", "source": "notes"}


@dataclass
class Pair:
    register: Register
    old: int
    new: int


@pytest.fixture
def pair(tmp_path: Path) -> Iterator[Pair]:
    with new_register(tmp_path / "studio") as register:
        with register.act("printer") as act:
            shelf = furnish(act)
        old = enter(register, sheet(shelf, "Q1"))
        new = enter(register, sheet(shelf, "Q2"))
        enter(register, reading(old))
        yield Pair(register, old, new)


def test_a_print_within_tolerance_matches(pair: Pair) -> None:
    enter(pair.register, reading(pair.new, {"sky": 125, "wall": 660, "hull": 1590}))
    matched = compare_prints(pair.register.read, pair.new, pair.old)
    assert (matched.outcome, matched.differs_at) == ("matches", ())


def test_a_print_that_fails_at_one_spot_says_where(pair: Pair) -> None:
    enter(pair.register, reading(pair.new, {"sky": 120, "wall": 710, "hull": 1600}))
    matched = compare_prints(pair.register.read, pair.new, pair.old)
    assert (matched.outcome, matched.differs_at) == ("differs", ("wall",))


def test_a_spot_that_was_not_read_again_is_no_match(pair: Pair) -> None:
    enter(pair.register, reading(pair.new, {"sky": 120, "wall": 650}))
    assert compare_prints(pair.register.read, pair.new, pair.old).differs_at == ("hull",)


def test_what_was_decided_is_on_record_with_the_tolerances(pair: Pair) -> None:
    enter(pair.register, reading(pair.new, {"sky": 120, "wall": 710, "hull": 1600}))
    matched = compare_prints(pair.register.read, pair.new, pair.old)
    with pair.register.act("artist") as act:
        record = decide(act, matched, accepted=True, **DECIDED)  # type: ignore[arg-type]
    body = pair.register.read.get(MatchReport, record).body
    assert (body.outcome, body.accepted, body.differs_at) == ("differs", True, ("wall",))
    assert (body.light_md, body.dark_md, body.delta_e00_hundredth) == (20, 50, 100)


def test_an_outcome_that_the_readings_deny_is_refused(pair: Pair) -> None:
    fresh = enter(pair.register, reading(pair.new, {"sky": 120, "wall": 710, "hull": 1600}))
    old = compare_prints(pair.register.read, pair.new, pair.old).old.id
    with pytest.raises(Refused, match="differ"):
        enter(pair.register, match_report(pair.new, pair.old, fresh, old))


def test_a_print_is_not_matched_to_itself(pair: Pair) -> None:
    fresh = enter(pair.register, reading(pair.new))
    with pytest.raises(Refused, match="itself"):
        enter(pair.register, match_report(pair.new, pair.new, fresh, fresh))


def test_a_print_without_readings_cannot_be_judged(pair: Pair) -> None:
    with pytest.raises(Refused, match="new print are not on record"):
        compare_prints(pair.register.read, pair.new, pair.old)


@pytest.mark.parametrize(
    ("wall", "accepted", "expected"),
    [
        (655, True, "made.matched"),
        (710, True, "made.matched.apart"),
        (655, False, None),
    ],
)
def test_a_later_print_says_how_it_was_matched(
    pair: Pair, wall: int, accepted: bool, expected: str | None
) -> None:
    read = pair.register.read
    first = read.get(Print, pair.old).body
    printing = read.get(Printing, first.printing).body
    later = enter(pair.register, structs.replace(printing, done_on="2031-04-20"))
    new = enter(pair.register, structs.replace(first, printing=later, mark="Q9"))
    tones = {"sky": 120, "wall": wall, "hull": 1600}
    enter(pair.register, reading(new, tones, done_on="2031-04-21"))
    with pair.register.act("artist") as act:
        matched = compare_prints(read, new, pair.old)
        decide(act, matched, accepted=accepted, **DECIDED)  # type: ignore[arg-type]
    said = [one for one in statement(print_history(read, new)) if "matched" in one.id]
    assert [one.id for one in said] == ([expected] if expected else [])
    if expected == "made.matched.apart":
        assert said[0].words["where"] == ("wall",)
