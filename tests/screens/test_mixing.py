"""Mixing: computed as it is typed, refused at its field, drawn down when it is saved."""

from pathlib import Path

import pytest

from provenance.model.chemistry import Bath, Stock
from provenance.screens.dialogs.mix_bath import MixBath
from provenance.screens.dialogs.mix_stock import MixStock
from provenance.studio.shelf.bottles import left_in
from tests import studios
from tests.screens.form_app import SIZES, Hands
from tests.screens.house import at_work
from tests.screens.stocked import stocked

PAIR = "thiourea-A, hydroxide-B"
both_sizes = pytest.mark.parametrize("size", SIZES, ids=["80x24", "120x40"])


@pytest.fixture
def shelf(tmp_path: Path) -> dict[str, int]:
    return stocked(tmp_path / "studio")


@pytest.fixture
def folder(tmp_path: Path, shelf: dict[str, int]) -> Path:
    return tmp_path / "studio"


def worked(hands: Hands, begins: str) -> str:
    """The line of the working that begins so, its spaces made single."""
    bar = "▁▂▃▄▅▆▇█ "
    lines = (" ".join(line.rstrip(bar).split()) for line in hands.text().splitlines())
    return next((line for line in lines if line.startswith(begins)), "")


@both_sizes
async def test_the_pair_is_computed_both_ways_as_it_is_typed(
    folder: Path, size: tuple[int, int]
) -> None:
    """D9-D11 of the trade's handbook (calculated): 2 g and 8 g of 85 %, 1 L and 1.1 L."""
    async with at_work(folder, size) as hands:
        await hands.open(MixBath())
        await hands.put(stocks=PAIR, dilution="20 ml + 80 ml", volume="1")
        assert worked(hands, "thiourea-A 20 ml").endswith("leaves 980 ml")
        assert worked(hands, "hydroxide-B 80 ml").endswith("leaves 60 ml")
        assert worked(hands, "water") == "water 900 ml"
        assert worked(hands, "mol/L") == "mol/L, for 1 L grams moles made up to added to ratio"
        assert worked(hands, "thiourea 2") == "thiourea 2 g 0.02628 0.0263 0.0239 1.00"
        assert worked(hands, "potassium") == (
            "potassium hydroxide 85 % 8 g 0.1212 0.1212 0.1102 4.61"
        )
        assert worked(hands, "in all 1 L 1.1") == "in all 1 L 1.1 L"
        assert hands.value("role") == "thiourea"
        await hands.choose(finish="added to")
        assert worked(hands, "water") == "water 1 L"
        assert worked(hands, "in all").startswith("in all 1.1 L")
        await hands.go("dilution")
        await hands.press(*["backspace"] * 5, "4", "0")
        assert worked(hands, "hydroxide-B 40 ml").endswith("leaves 100 ml")


@both_sizes
async def test_saving_draws_the_bottles_down(
    folder: Path, shelf: dict[str, int], size: tuple[int, int]
) -> None:
    async with at_work(folder, size) as hands:
        await hands.open(MixBath(PAIR.split(", ")))
        await hands.put(dilution="20+80+900", volume="1.5", code="thio-2")
        await hands.press("f2")
        assert hands.results[-1] is not None
        read = hands.app.register.read
        bath = read.by_code(Bath, "thio-2")
        assert bath is not None
        assert bath.body.made_from == "Thiourea toner"
        assert bath.body.dilution is not None
        assert bath.body.dilution.typed == "20+80+900"
        assert [draw.volume_hundredth_ml for draw in bath.body.drawn] == [3_000, 12_000]
        left = [left_in(read, read.get(Stock, shelf[code])) for code in PAIR.split(", ")]
        assert left == [97_000, 2_000]


async def test_a_fixer_may_have_a_limit_of_its_own_and_be_the_second_of_a_pair(
    folder: Path, shelf: dict[str, int]
) -> None:
    async with at_work(folder) as hands:
        await hands.open(MixBath())
        await hands.put(stocks="thiourea-A", volume="0.5")
        assert "silver limit" not in hands.text()
        await hands.put(stocks="plain-hypo")
        assert hands.value("role") == "fix"
        assert "else the studio's: single, 0.5 g/L" in hands.text()
        await hands.choose(limit="first of two")
        await hands.put(second_of="thio", code="fixD")
        await hands.press("f2")
        assert "thio" in hands.wrong("second_of")
        assert hands.results == []
        await hands.put(second_of="fixC")
        await hands.press("f2")
        assert hands.results[-1] is not None
        bath = hands.app.register.read.by_code(Bath, "fixD")
        assert bath is not None
        assert (bath.body.limit, bath.body.second_of) == ("first of two", shelf["fixC"])


async def test_more_than_is_in_the_bottle_is_refused_at_the_field(
    folder: Path, shelf: dict[str, int]
) -> None:
    async with at_work(folder) as hands:
        await hands.open(MixBath(PAIR.split(", ")))
        await hands.put(dilution="20+80+900", code="thio-2")
        await hands.put(volume="2")
        assert "160 ml is more than the 140 ml that is left in hydroxide-B" in hands.wrong("volume")
        assert worked(hands, "hydroxide-B").endswith("lacks 20 ml")
        await hands.press("f2")
        assert hands.results == []
        assert hands.app.register.read.by_code(Bath, "thio-2") is None
        await hands.put(volume="1")
        assert hands.wrong("volume") == ""
        await hands.press("f2")
        assert hands.results[-1] is not None


async def test_a_colon_is_refused_with_both_readings(folder: Path) -> None:
    async with at_work(folder) as hands:
        await hands.open(MixBath(["thiourea-A"]))
        await hands.put(volume="1", dilution="1:9")
        assert "1+9 or as 1+8" in hands.text()
        assert hands.wrong("dilution") == ""  # it is still being typed
        await hands.press("tab")
        assert "can be read as 1+9 or as 1+8" in hands.wrong("dilution")
        await hands.press("f2")
        assert hands.results == []


async def test_a_colon_is_read_as_the_studio_has_chosen(folder: Path) -> None:
    (folder / "settings.toml").write_text('colon_dilution = "parts"\n', encoding="utf-8")
    async with at_work(folder) as hands:
        await hands.open(MixBath(["thiourea-A"]))
        await hands.put(volume="1", dilution="1:9")
        assert worked(hands, "thiourea-A 100 ml").endswith("leaves 900 ml")


async def test_a_name_that_is_neither_bottle_nor_formula_is_told_with_those_there_are(
    folder: Path,
) -> None:
    async with at_work(folder) as hands:
        await hands.open(MixBath())
        await hands.put(stocks="thiourea-A, soda", volume="1")
        assert "no bottle is called soda" in hands.wrong("stocks")
        assert "aid-S" in hands.wrong("stocks")


async def test_a_bath_by_a_formula_is_weighed_and_its_neighbours_are_looked_at(
    folder: Path,
) -> None:
    """Sulfide and the acid stop beside it: handbook of the trade, dangerous meetings."""
    own = folder / "templates" / "process"
    own.mkdir(parents=True)
    steps = "".join(
        f'[[step]]\nname = "{name}"\nrole = "{role}"\n'
        for name, role in (("stop", "stop"), ("sulfide", "sulfide"), ("stop again", "stop"))
    )
    (own / "acid.toml").write_text(
        f'code = "acid"\nname = "Acid beside sulfide"\nbase = "fibre"\n{steps}', encoding="utf-8"
    )
    async with at_work(folder, (120, 40)) as hands:
        await hands.open(MixBath())
        await hands.put(stocks="sulfide-toner", volume="0.5", process="acid")
        assert worked(hands, "2 10 g").startswith("2 10 g sodium sulfide nonahydrate")
        text = " ".join(hands.text().split())
        danger = "stop next to sulfide, sulfide next to stop again: danger: Hydrogen sulfide"
        assert text.count(danger) == 1
        assert text.count("Hydrogen sulfide comes off") == 1
        assert text.count("safety data sheet decides") == 1
        assert hands.value("role") == "sulfide"


@both_sizes
async def test_a_bottle_is_weighed_with_its_heat_and_put_on_record(
    folder: Path, size: tuple[int, int]
) -> None:
    """A9 of the trade's handbook: 100 g of hydroxide; here 85 % of 100 g gives 87.3 kJ."""
    async with at_work(folder, size) as hands:
        await hands.open(MixStock())
        await hands.put(formula="hydroxide-stock", volume="1")
        assert worked(hands, "1 about") == "1 about 750 ml cold water"
        assert worked(hands, "2 ").startswith("2 100 g potassium hydroxide, 85 %, pellets")
        assert worked(hands, "3 ") == "3 water to make 1 L"
        assert "gives off 87.3 kJ: about 19 to 21 °C" in " ".join(hands.text().split())
        assert hands.value("keeps_until") == "2031-11-28"
        await hands.put(code="hydroxide-C", lot="L 9")
        await hands.press("f2")
        stored = hands.app.register.read.by_code(Stock, "hydroxide-C")
        assert stored is not None
        assert (stored.body.lot, stored.body.keeps_until) == ("L 9", "2031-11-28")


async def test_more_than_dissolves_is_warned_of_with_figure_and_standing(folder: Path) -> None:
    own = folder / "templates" / "formulas"
    own.mkdir(parents=True)
    (own / "strong.toml").write_text(
        'code = "strong"\nname = "Too strong"\nrole = "thiourea"\nuse = "stock"\n'
        'finish = "made up to"\nsource = "this test"\nstanding = "P"\n'
        '[[part]]\nsubstance = "thiourea"\namount = "400 g"\n',
        encoding="utf-8",
    )
    async with at_work(folder, (120, 40)) as hands:
        await hands.open(MixStock())
        await hands.put(formula="strong", volume="1")
        assert "400 g/L of thiourea" in hands.text()
        assert "g/L that dissolve (" in hands.text()


async def test_a_bottle_without_a_formula_says_what_there_is(tmp_path: Path) -> None:
    studios.new_register(tmp_path / "bare").close()
    async with at_work(tmp_path / "bare") as hands:
        await hands.open(MixStock())
        assert "there are: alkaline-rapid-fixer" in hands.text()
        await hands.put(formula="nothing-such", volume="1")
        assert "there is no formula nothing-such" in hands.wrong("formula")
        await hands.press("f2")
        assert hands.results == []
