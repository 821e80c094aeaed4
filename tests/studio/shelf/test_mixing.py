"""Mixing: volumes, strengths, what to heed, and the bottles drawn down."""

from datetime import date
from typing import Any

import pytest

from provenance.craft.dilution import parse_dilution
from provenance.errors import Refused
from provenance.model.chemistry import Bath, Finish, Role, Stock
from provenance.model.formula import Formula
from provenance.model.process import PlannedStep, ProcessSheet
from provenance.records.register import Register
from provenance.studio.chemicals import load_chemicals
from provenance.studio.folder import StudioFolder
from provenance.studio.formulas import formula_codes, load_formula
from provenance.studio.shelf.bottles import left_in
from provenance.studio.shelf.mixing import MixPlan, Wish, mix_bath, plan_mix
from provenance.studio.shelf.retiring import retire
from provenance.studio.shelf.weighing import good_until, mix_stock, weigh
from tests import shelf as table
from tests.studios import WHO, Shelf, enter, revise, stock

TODAY = date(2031, 6, 1)
CHEMICALS = load_chemicals()


def template(code: str) -> Formula:
    """A formula that comes along."""
    return load_formula(code, CHEMICALS.substances)


def mixed(register: Register, code: str, name: str, volume: int = 100_000) -> int:
    """A bottle by a formula that comes along, mixed on the first of March."""
    with register.act(WHO) as act:
        weighing = weigh(template(code), volume, CHEMICALS)
        return mix_stock(act, weighing, code=name, mixed_on="2031-03-01", lot="L 4")


@pytest.fixture
def pair(register: Register) -> tuple[int, int]:
    """The two bottles of the thiourea toner."""
    return (
        mixed(register, "thiourea-stock", "thiourea-A"),
        mixed(register, "hydroxide-stock", "hydroxide-B"),
    )


def plan(register: Register, *, process: ProcessSheet | None = None, **wish: Any) -> MixPlan:
    """A plan for a litre of toner, unless said otherwise."""
    fields: dict[str, Any] = {"role": "thiourea", "volume_hundredth_ml": 100_000} | wish
    return plan_mix(register.read, CHEMICALS, Wish(**fields), today=TODAY, process=process)


def test_a_bottle_by_a_formula_is_put_on_record(register: Register, pair: tuple[int, int]) -> None:
    held = register.read.get(Stock, pair[0]).body
    assert (held.made_from, held.lot, held.keeps_until) == (
        "Thiourea toner, stock A",
        "L 4",
        "2031-08-28",
    )
    assert held.formula is not None
    assert register.read.get(Formula, held.formula).body == template("thiourea-stock")
    again = mixed(register, "thiourea-stock", "thiourea-A2")
    assert register.read.get(Stock, again).body.formula == held.formula


@pytest.mark.parametrize(
    ("finish", "thiourea", "hydroxide", "water", "finished", "parts"),
    [
        # D10 and D11 of the handbook (calculated; the assay of 85 % read in the source)
        ("made up to", 0.02628, 0.1212, 90_000, 100_000, (100, 400, 4_500)),
        ("added to", 0.02389, 0.1102, 100_000, 110_000, (100, 400, 5_000)),
    ],
)
def test_the_two_stock_toner_both_ways(
    register: Register,
    pair: tuple[int, int],
    finish: Finish,
    thiourea: float,
    hydroxide: float,
    water: int,
    finished: int,
    parts: tuple[int, ...],
) -> None:
    seen = plan(register, stocks=pair, draws=(2_000, 8_000), finish=finish)
    moles = {one.substance: one.mol_per_l for one in seen.contents}
    assert moles["thiourea"] == pytest.approx(thiourea, abs=5e-6)
    assert moles["potassium_hydroxide"] == pytest.approx(hydroxide, abs=5e-5)
    assert (seen.water_hundredth_ml, seen.finished_hundredth_ml) == (water, finished)
    assert seen.dilution is not None
    assert seen.dilution.parts_hundredths == parts
    assert seen.label.signal_word == "Danger"
    assert not seen.problems


def test_parts_are_measured_out_for_any_volume(register: Register, pair: tuple[int, int]) -> None:
    toner = parse_dilution("20+80+900", colon_means=None)
    wide = plan(register, stocks=pair, dilution=toner, volume_hundredth_ml=250_000)
    assert [one.volume_hundredth_ml for one in wide.poured] == [5_000, 20_000]
    into = plan(
        register, stocks=pair, dilution=toner, volume_hundredth_ml=90_000, finish="added to"
    )
    assert [one.volume_hundredth_ml for one in into.poured] == [2_000, 8_000]
    assert into.finished_hundredth_ml == 100_000


def test_one_bottle_is_taken_as_its_formula_says(register: Register) -> None:
    aid = mixed(register, "washing-aid", "aid")
    thinned = plan(register, role="washing aid", stocks=(aid,))
    assert [one.volume_hundredth_ml for one in thinned.poured] == [10_000]
    plain = enter(register, stock())
    undiluted = plan(register, stocks=(plain,), volume_hundredth_ml=50_000)
    assert (undiluted.water_hundredth_ml, undiluted.dilution) == (0, None)
    assert undiluted.unknown == ("S-1",)
    assert "what is in S-1 is not on record" in undiluted.heed


def test_a_working_formula_is_weighed_out(register: Register) -> None:
    seen = plan(
        register, role="bleach", formula=template("sepia-bleach"), volume_hundredth_ml=200_000
    )
    assert seen.weighing is not None
    assert [one.mass_mg for one in seen.weighing.batch.measures] == [40_000, 10_000]
    assert seen.made_from == "Sepia bleach: ferricyanide and bromide"
    with register.act(WHO) as act:
        made = mix_bath(act, seen, code="blch", made_on="2031-06-01")
    body = register.read.get(Bath, made).body
    assert body.formula is not None
    assert (body.volume_hundredth_ml, body.one_shot) == (200_000, False)


def test_mixing_draws_the_bottles_down(register: Register, pair: tuple[int, int]) -> None:
    seen = plan(register, stocks=pair, draws=(2_000, 8_000), finish="added to")
    assert [one.left_after_hundredth_ml for one in seen.poured] == [98_000, 92_000]
    with register.act(WHO) as act:
        made = mix_bath(act, seen, code="thio", made_on="2031-06-01", one_shot=True)
        assert not act.warnings
    body = register.read.get(Bath, made).body
    assert body.made_from == "Thiourea toner"
    assert (body.finish, body.volume_hundredth_ml) == ("added to", 110_000)
    left = [left_in(register.read, register.read.get(Stock, one)) for one in pair]
    assert left == [98_000, 92_000]


def test_a_bottle_that_has_not_enough_is_told_while_it_is_typed_and_refused_at_the_door(
    register: Register, pair: tuple[int, int]
) -> None:
    seen = plan(register, stocks=pair, draws=(100_001, 8_000), volume_hundredth_ml=200_000)
    (problem,) = seen.problems
    assert problem.what == "1.00001 L is more than the 1 L that is left in thiourea-A"
    with pytest.raises(Refused, match="that is left in the bottle"), register.act(WHO) as act:
        mix_bath(act, seen, code="thio", made_on="2031-06-01")
    assert register.read.by_code(Bath, "thio") is None


def test_a_bottle_that_is_retired_or_stale_is_told(
    register: Register, pair: tuple[int, int]
) -> None:
    revise(register, pair[0], keeps_until="2031-05-31")
    with register.act(WHO) as act:
        retire(act, act.get(Stock, pair[1]), on="2031-05-31", why="cloudy", disposed="collected")
    seen = plan(register, stocks=pair, draws=(2_000, 8_000))
    assert [one.what for one in seen.problems] == ["hydroxide-B was retired on 2031-05-31"]
    assert [one.what for one in seen.warnings] == ["thiourea-A was good until 2031-05-31"]


@pytest.mark.parametrize(
    ("wish", "words"),
    [
        ({}, "made from bottles, or weighed out by a formula"),
        ({"stocks": "pair", "formula": template("sepia-bleach")}, "made from bottles, or weighed"),
        ({"stocks": "pair"}, "0 volumes for 2 bottles"),
        ({"stocks": "pair", "draws": (1_000,)}, "1 volumes for 2 bottles"),
        ({"stocks": "pair", "dilution": "1+9"}, "1 parts besides the water for 2 bottles"),
        ({"stocks": "pair", "draws": (60_000, 60_000)}, "more is poured in than the volume"),
        ({"stocks": "pair", "draws": (0, 60_000)}, "not above zero"),
        ({"stocks": "pair", "draws": (1, 1), "volume_hundredth_ml": 0}, "not above zero"),
        ({"formula": template("sepia-bleach"), "volume_hundredth_ml": 0}, "less than can be"),
    ],
)
def test_what_gives_no_volumes_is_refused(
    register: Register, pair: tuple[int, int], wish: dict[str, Any], words: str
) -> None:
    if wish.get("stocks") == "pair":
        wish = wish | {"stocks": pair}
    if "dilution" in wish:
        wish = wish | {"dilution": parse_dilution(wish["dilution"], colon_means=None)}
    with pytest.raises(Refused, match=words):
        plan(register, **wish)


def test_what_is_poured_together_is_judged_by_what_is_in_it(
    register: Register, pair: tuple[int, int]
) -> None:
    acid = mixed(register, "citric-stop", "acid")
    sulfide = mixed(register, "sulfide-toner", "sulfide")
    seen = plan(register, stocks=(acid, sulfide), draws=(1_000, 1_000))
    assert any(one.severity == "danger" for one in seen.met)
    assert seen.heed[0].startswith("danger: ")
    toner = plan(register, stocks=pair, draws=(2_000, 8_000))
    assert not toner.met


def test_the_trays_beside_it_are_judged_by_what_is_in_this_one(register: Register) -> None:
    def trays(*roles: Role) -> ProcessSheet:
        steps = tuple(PlannedStep(name=f"the {role}", role=role) for role in roles)
        return ProcessSheet(code="p", name="p", base="fibre", steps=steps)

    sulfide = mixed(register, "sulfide-toner", "sulfide")
    wish: dict[str, Any] = {"role": "sulfide", "stocks": (sulfide,)}
    near = plan(register, process=trays("stop", "sulfide"), **wish)
    (met,) = near.neighbours
    assert (met.first, met.second, met.severity) == ("the stop", "the sulfide", "danger")
    assert near.heed[0].startswith("the stop next to the sulfide: danger: ")
    assert not plan(register, process=trays("stop", "rinse", "sulfide"), **wish).neighbours
    # a meeting of two other trays is not this one's
    assert not plan(register, process=trays("sulfide", "wash", "stop", "bleach"), **wish).neighbours


def test_only_the_dissolving_asks_for_cold_water(register: Register, pair: tuple[int, int]) -> None:
    """A caution stands where the hazard is: solid hydroxide, not its solution."""
    weighed = weigh(template("hydroxide-stock"), 100_000, CHEMICALS)
    assert any("cold water in portions" in one for one in weighed.heed)
    poured = plan(register, stocks=pair, draws=(2_000, 8_000))
    assert not any("cold water in portions" in one for one in poured.heed)
    assert poured.heed[-1] == CHEMICALS.hazards.decides


def test_dissolving_hydroxide_gives_heat() -> None:
    # A9 of the handbook: 102.7 kJ for 100 g (calculated); here 85 g of it in 100 g of pellets
    (heat,) = weigh(template("hydroxide-stock"), 100_000, CHEMICALS).heats
    assert heat.kj == pytest.approx(102.7 * 0.85, abs=0.05)
    assert heat.least_k < heat.most_k
    assert "if no heat is lost" in str(heat)
    assert not weigh(template("thiourea-stock"), 100_000, CHEMICALS).heats


def test_more_than_dissolves_is_told_with_its_figure_and_standing() -> None:
    strong = table.formula(table.ingredient("thiourea", mg_per_l=200_000))
    (over,) = weigh(strong, 50_000, CHEMICALS).too_much
    assert (over.wanted_g_per_l, over.limit.g_per_l) == (200.0, 136)
    (said,) = [one for one in weigh(strong, 50_000, CHEMICALS).heed if "dissolve" in one]
    assert said.startswith("200 g/L of thiourea")
    assert "136 g/L that dissolve (read in the source named)" in said


@pytest.mark.parametrize(
    ("mixed_on", "until"), [("2031-03-01", "2031-08-28"), ("2031-03", None), ("2031", None)]
)
def test_how_long_a_bottle_keeps_needs_its_day(mixed_on: str, until: str | None) -> None:
    assert good_until(template("thiourea-stock"), mixed_on) == until
    assert good_until(template("citric-stop"), mixed_on) is None


def test_a_formula_that_was_changed_gets_its_next_version(register: Register) -> None:
    first = mixed(register, "thiourea-stock", "A")
    formula = register.read.get(Stock, first).body.formula
    assert formula is not None
    revise(register, formula, note="changed since")
    mixed(register, "thiourea-stock", "B")
    assert register.read.get(Formula, formula).body.note == template("thiourea-stock").note
    assert len(register.read.versions(formula)) == 3


def test_what_was_retired_is_not_retired_again(register: Register, shelf: Shelf) -> None:
    with register.act(WHO) as act:
        retire(act, act.get(Bath, shelf.fix), on="2031-03-05", why="spent", disposed="collected")
    body = register.read.get(Bath, shelf.fix).body
    assert (body.retired_why, body.disposed) == ("spent", "collected")
    with (
        pytest.raises(Refused, match="F-1 was retired on 2031-03-05 already"),
        register.act(WHO) as act,
    ):
        retire(act, act.get(Bath, shelf.fix), on="2031-03-06", why="spent")


def test_the_formulas_there_are(register: Register) -> None:
    folder = StudioFolder(register.folder)
    own = register.folder / "templates" / "formulas"
    own.mkdir(parents=True)
    (own / "brine.toml").touch()
    assert {"brine", "thiourea-stock"} <= set(formula_codes(folder))
