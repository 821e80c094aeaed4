"""What to heed, once and the gravest first; the order of mixing; what is inside a bottle."""

from pathlib import Path

import pytest

from provenance.craft.hazards.contents import contents_of
from provenance.craft.hazards.label import label_of_mix
from provenance.craft.hazards.meetings import BY_ROLE, meetings_in_mix
from provenance.model.chemistry import Bath, Stock
from provenance.records.register import Register
from provenance.studio.chemicals import load_chemicals
from provenance.studio.folder import StudioFolder
from provenance.studio.formulas import load_formula
from provenance.studio.labels import next_label_file
from provenance.studio.shelf.both_ways import both_ways
from provenance.studio.shelf.heeding import label_text, said_once
from provenance.studio.shelf.inside import inside_of
from provenance.studio.shelf.mixing import Wish, plan_mix
from provenance.studio.shelf.order import order_of_mixing
from provenance.studio.shelf.retiring import disposal_of
from provenance.studio.shelf.weighing import mix_stock, weigh
from tests import shelf as table
from tests.studio.shelf.test_mixing import TODAY
from tests.studios import WHO, Shelf, enter, stock

CHEMICALS = load_chemicals()


def test_dangers_come_before_cautions_and_each_kind_once() -> None:
    ids = ["potassium_ferricyanide", "citric_acid", "sodium_sulfide_nonahydrate", "acetic_acid"]
    met = meetings_in_mix(ids, CHEMICALS.hazards)
    said = said_once(met)
    assert len(met) > len(said) == len(set(said)) > 1
    words = [line.partition(":")[0] for line in said]
    assert words == sorted(words, key=["danger", "caution"].index)
    assert {"danger", "caution"} == set(words)


def test_a_hydroxide_mix_is_said_to_burn_unless_it_was_tested() -> None:
    formula = load_formula("hydroxide-stock", CHEMICALS.substances)
    label = label_of_mix(contents_of(formula), CHEMICALS.substances, CHEMICALS.hazards)
    said = label_text(label, CHEMICALS.hazards)
    assert said.startswith("Danger: ")
    assert "(H314)" in said
    assert said.endswith("above pH 11.5, unless it was tested.")


def test_nothing_is_said_of_what_reaches_no_code() -> None:
    formula = load_formula("citric-stop", CHEMICALS.substances)
    label = label_of_mix(contents_of(formula), CHEMICALS.substances, CHEMICALS.hazards)
    assert label_text(label, CHEMICALS.hazards) == ""


@pytest.mark.parametrize(
    ("code", "first"),
    [
        ("hydroxide-stock", ("about 750 ml", "cold water")),
        ("plain-hypo", ("about 750 ml", "water")),
        # 800 ml of concentrate leave no more room than that
        ("alkaline-rapid-fixer", ("about 200 ml", "water")),
    ],
)
def test_mixing_begins_with_water(code: str, first: tuple[str, str]) -> None:
    weighing = weigh(load_formula(code, CHEMICALS.substances), 100_000, CHEMICALS)
    order = order_of_mixing(weighing, CHEMICALS.substances)
    assert (order[0].amount, order[0].what) == first
    assert len(order) == len(weighing.batch.measures) + 2
    assert order[-1].what == "water to make 1 L"


def test_mixing_into_water_names_all_of_it() -> None:
    into = table.formula(table.ingredient("thiourea"), finish="added to")
    order = order_of_mixing(weigh(into, 100_000, CHEMICALS), CHEMICALS.substances)
    assert [one.amount for one in order] == ["1 L", "10 g"]


def test_both_ways_needs_a_pair_whose_substances_are_known(register: Register) -> None:
    with register.act(WHO) as act:
        pair = [
            mix_stock(
                act,
                weigh(load_formula(code, CHEMICALS.substances), 100_000, CHEMICALS),
                code=code,
                mixed_on="2031-03-01",
            )
            for code in ("thiourea-stock", "hydroxide-stock")
        ]
    bought = enter(register, stock(code="bought"))

    def blends(*stocks: int, volume: int = 100_000) -> list[int]:
        draws = (2_000, 8_000)[: len(stocks)]
        wish = Wish(role="thiourea", volume_hundredth_ml=volume, stocks=stocks, draws=draws)
        plan = plan_mix(register.read, CHEMICALS, wish, today=TODAY)
        return [one.volumes.finished_hundredth_ml for one in both_ways(plan)]

    assert blends(*pair) == [100_000, 110_000]
    assert blends(pair[0]) == []
    assert blends(pair[0], bought) == []


def test_what_is_inside_is_judged_by_its_formula_else_by_its_kind(
    register: Register, shelf: Shelf
) -> None:
    with register.act(WHO) as act:
        weighing = weigh(load_formula("hydroxide-stock", CHEMICALS.substances), 100_000, CHEMICALS)
        bottle = mix_stock(act, weighing, code="B", mixed_on="2031-03-01")
    known = inside_of(register.read, CHEMICALS, register.read.get(Stock, bottle).body)
    assert known.contents == "potassium hydroxide 85 %, 100 g/L"
    assert known.heed[0].startswith("Danger:")
    assert "Wear gloves and eye protection (P280)." in known.heed[1]
    assert known.heed[-1] == CHEMICALS.hazards.decides
    assert len(set(known.heed)) == len(known.heed)
    fixer = inside_of(register.read, CHEMICALS, register.read.get(Bath, shelf.fix).body)
    assert fixer.contents == ""
    assert any(line.casefold().startswith(BY_ROLE.casefold()) for line in fixer.heed)
    assert "Collect fixer by itself: it holds silver." in fixer.heed


def test_what_is_thrown_away_is_collected_by_kind(register: Register, shelf: Shelf) -> None:
    fix, wash = (register.read.get(Bath, one) for one in (shelf.fix, shelf.wash))
    lines = disposal_of(register.read, CHEMICALS, [fix, fix])
    assert lines[0] == "Collect fixer by itself: it holds silver."
    assert len(lines) == 2
    assert "Local rules decide" in lines[-1]
    assert len(disposal_of(register.read, CHEMICALS, [wash])) == 1


def test_labels_never_take_the_place_of_earlier_ones(tmp_path: Path) -> None:
    folder = StudioFolder(tmp_path)
    names = []
    for _ in range(3):
        path = next_label_file(folder, "2031-06-01")
        path.touch()
        names.append(path.name)
    assert names == ["labels-2031-06-01.pdf", "labels-2031-06-01-2.pdf", "labels-2031-06-01-3.pdf"]
