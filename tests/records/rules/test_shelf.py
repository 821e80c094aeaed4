"""Formulas, bottles and trays: what was mixed is drawn once, and thrown away with a reason."""

from typing import Any

import pytest

from provenance.errors import Problem, Refused
from provenance.model.printing import Printing
from provenance.model.quantities import Dilution
from provenance.records.register import Register
from tests import shelf as table
from tests.records.rules.conftest import Refuses
from tests.studios import WHO, Shelf, bath, draw, enter, revise, sheet, step, stock


@pytest.fixture
def bottle(register: Register, shelf: Shelf) -> int:
    """A litre, mixed on the first of March."""
    return enter(register, stock(keeps_until="2031-05-31"))


def warned(register: Register, *bodies: Any) -> list[Problem]:
    """What is warned of when `bodies` are entered in one act."""
    with register.act(WHO) as act:
        for body in bodies:
            act.enter(body)
        return act.warnings


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"mixed_on": "2031-06-02"}, "mixed_on: 2031-06-02 is still to come"),
        ({"mixed_on": "Monday"}, "mixed_on: .* is not a date"),
        ({"keeps_until": "soon"}, "keeps_until: .* is not a date"),
        ({"keeps_until": "2031-02"}, "kept until 2031-02, before it was mixed on 2031-03-01"),
        ({"volume_hundredth_ml": 0}, "volume: is nought"),
        ({"retired_on": "2031-04"}, "retired_why: does not say why"),
        ({"retired_why": "spent"}, "retired_on: does not say when"),
        ({"disposed": "collected"}, "retired_on: does not say when"),
        ({"retired_on": "2031-02", "retired_why": "spent"}, "2031-02 lies before 2031-03-01"),
        ({"formula": 999}, "#999 is not on record, not a formula"),
    ],
)
def test_a_stock_is_refused(refuses: Refuses, fields: dict[str, Any], words: str) -> None:
    refuses(words, stock(**fields))


def test_a_bottle_may_keep_beyond_today(register: Register) -> None:
    enter(register, stock(keeps_until="2033"))


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"test": "silver"}, "is for a bath or for a test"),
        ({"role": None}, "is for a bath or for a test"),
        ({"ingredients": ()}, "nothing goes into it"),
    ],
)
def test_a_formula_is_refused(refuses: Refuses, fields: dict[str, Any], words: str) -> None:
    refuses(words, table.formula(**{"ingredients": (table.ingredient("thiourea"),)} | fields))


def test_what_is_drawn_comes_out_of_the_bottle(
    register: Register, refuses: Refuses, bottle: int
) -> None:
    first = enter(register, bath(draw(bottle, 60_000)))
    refuses(
        "S-1: 500 ml is more than the 400 ml that is left in the bottle",
        bath(draw(bottle, 50_000), code="B-2"),
    )
    enter(register, bath(draw(bottle, 40_000), code="B-2"))
    refuses(
        "S-1: 0.01 ml is more than the 0 ml that is left",
        bath(draw(bottle, 1), code="B-3"),
    )
    refuses("1 L were drawn from it already", bottle, verb="correct", volume_hundredth_ml=99_999)
    revise(register, first, verb="correct", drawn=(draw(bottle, 59_999),))
    enter(register, bath(draw(bottle, 1), code="B-3"))


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"drawn": (0,)}, "a draw is not above zero"),
        ({"drawn": (2_000, 3_000)}, "draws on S-1 twice"),
        ({"volume_hundredth_ml": None}, "does not say how much there is"),
        ({"volume_hundredth_ml": 1_999}, "20 ml were drawn for 19.99 ml"),
        ({"made_on": "2031-02-28"}, "S-1 was mixed on 2031-03-01, after bath B-1 was made from it"),
        ({"limit": "single"}, "limit for silver is for a fixing bath, and this is for thiourea"),
        ({"role": "fix", "limit": "double"}, "no silver limit “double”; choose one of: strictest"),
        ({"retired_on": "2031-03-03"}, "retired_why: does not say why"),
        ({"disposed": "collected"}, "retired_on: does not say when"),
    ],
)
def test_a_bath_is_refused(
    refuses: Refuses, bottle: int, fields: dict[str, Any], words: str
) -> None:
    drawn = [draw(bottle, volume) for volume in fields.pop("drawn", (2_000,))]
    refuses(words, bath(*drawn, **fields))


def test_a_bottle_is_drawn_from_while_it_stands(
    register: Register, refuses: Refuses, bottle: int
) -> None:
    enter(register, bath(draw(bottle), made_on="2031-03-10"))
    refuses("S-1 was mixed on 2031-03-11, after bath B-1", bottle, mixed_on="2031-03-11")
    gone = {"retired_why": "cloudy"}
    refuses("retired on 2031-03-09, before bath B-1", bottle, retired_on="2031-03-09", **gone)
    revise(register, bottle, retired_on="2031-03-10", **gone)
    refuses(
        "S-1 was retired on 2031-03-10, before", bath(draw(bottle), code="B-2", made_on="2031-04")
    )


def test_a_bottle_that_was_drawn_from_stays_on_record(register: Register, bottle: int) -> None:
    enter(register, bath(draw(bottle)))
    with (
        pytest.raises(Refused, match="other records refer to it: bath"),
        register.act(WHO) as act,
    ):
        act.void(bottle, bottle, "a mistake")


def test_a_bath_refers_to_bottles_only(refuses: Refuses, shelf: Shelf) -> None:
    refuses(f"drawn_from: #{shelf.paper} is a paper, not a stock", bath(draw(shelf.paper)))


@pytest.mark.parametrize(
    ("fields", "words"),
    [
        ({"second_of": "wash"}, "bath W-1 is for wash; a pair is of two fixing baths"),
        ({"second_of": "fix", "role": "bleach"}, "bath B-1 is for bleach; a pair is of two"),
    ],
)
def test_a_pair_is_of_fixing_baths(
    refuses: Refuses, shelf: Shelf, fields: dict[str, Any], words: str
) -> None:
    first = getattr(shelf, fields.pop("second_of"))
    refuses(words, bath(**{"role": "fix", "second_of": first} | fields))


def test_a_second_bath_stands_beside_a_first_that_is_in_use(
    register: Register, refuses: Refuses, shelf: Shelf
) -> None:
    second = enter(register, bath(role="fix", second_of=shelf.fix))
    refuses("is the second of itself", second, second_of=second)
    revise(register, shelf.fix, retired_on="2031-03-05", retired_why="spent")
    refuses(
        "bath F-1 was retired on 2031-03-05, before this was made",
        bath(role="fix", code="B-2", second_of=shelf.fix, made_on="2031-03-06"),
    )


def test_a_bottle_past_its_time_is_a_warning(register: Register, bottle: int) -> None:
    assert not warned(register, bath(draw(bottle), made_on="2031-05-31"))
    (late,) = warned(register, bath(draw(bottle), code="B-2", made_on="2031-06-01"))
    assert "S-1 was good until 2031-05-31, and B-2 was made from it on 2031-06-01" in late.what
    assert late.field == "drawn"
    with register.act(WHO) as act:
        body = stock(keeps_until="2031-05-30")
        act.change(bottle, bottle, body)
        assert len(act.warnings) == 2


def test_volumes_at_odds_with_the_dilution_are_a_warning(register: Register, bottle: int) -> None:
    thin = Dilution(parts_hundredths=(100, 4_900), typed="1+49")
    assert not warned(register, bath(draw(bottle, 2_000), dilution=thin))
    (odd,) = warned(register, bath(draw(bottle, 3_000), code="B-2", dilution=thin))
    assert odd.what == "1+49 would take 20 ml, and 30 ml were drawn"


def test_an_older_second_bath_is_a_warning(register: Register, shelf: Shelf) -> None:
    pair = {"role": "fix", "second_of": shelf.fix}
    assert not warned(register, bath(made_on="2031-03-01", **pair))
    (old,) = warned(register, bath(code="B-2", made_on="2031-02-28", **pair))
    assert "made before F-1; the second of two baths is the fresher" in old.what


class TestOneUse:
    """A bath for one use is warned of at its second, and entered all the same."""

    @pytest.fixture
    def sheets(self, register: Register, shelf: Shelf) -> list[int]:
        return [enter(register, sheet(shelf, mark)) for mark in ("1", "2", "3")]

    @pytest.fixture
    def toner(self, register: Register, shelf: Shelf) -> dict[str, Any]:
        return {"role": "thiourea", "bath": enter(register, bath())}

    def test_another_day(
        self, register: Register, shelf: Shelf, sheets: list[int], toner: dict[str, Any]
    ) -> None:
        assert not warned(register, step(shelf, sheets[0], **toner))
        (again,) = warned(register, step(shelf, sheets[0], done_on="2031-03-03", **toner))
        assert "bath B-1 is for one use, and was used on 2031-03-02" in again.what
        assert again.field == "bath"

    def test_the_sheets_of_one_printing_one_after_the_other(
        self, register: Register, shelf: Shelf, sheets: list[int], toner: dict[str, Any]
    ) -> None:
        for one in sheets:
            assert not warned(register, step(shelf, one, place=5, **toner))

    def test_after_the_others_were_washed(
        self, register: Register, shelf: Shelf, sheets: list[int], toner: dict[str, Any]
    ) -> None:
        first, second, third = sheets
        washing = {"role": "wash", "bath": shelf.wash, "place": 6}
        enter(register, step(shelf, first, second, place=5, **toner))
        enter(register, step(shelf, first, **washing))
        assert not warned(register, step(shelf, third, place=5, **toner))
        enter(register, step(shelf, second, **washing))
        assert warned(register, step(shelf, third, place=7, **toner))

    def test_another_printing_of_the_day(
        self, register: Register, shelf: Shelf, sheets: list[int], toner: dict[str, Any]
    ) -> None:
        other = enter(register, Printing(negative=shelf.negative, done_on="2031-03-02"))
        late = enter(register, sheet(shelf, "4", printing=other))
        enter(register, step(shelf, *sheets, **toner))
        assert warned(register, step(shelf, late, **toner))

    def test_a_bath_that_is_kept_is_used_again(
        self, register: Register, shelf: Shelf, sheets: list[int]
    ) -> None:
        enter(register, step(shelf, sheets[0]))
        assert not warned(register, step(shelf, sheets[1], done_on="2031-03-09"))

    def test_taking_back_warns_of_nothing(
        self, register: Register, shelf: Shelf, sheets: list[int], toner: dict[str, Any]
    ) -> None:
        enter(register, step(shelf, sheets[0], **toner))
        again = enter(register, step(shelf, sheets[1], done_on="2031-03-03", **toner))
        changed = revise(register, again, note="second use")
        with register.act(WHO) as act:
            act.undo(changed, "not so")
            assert not act.warnings
