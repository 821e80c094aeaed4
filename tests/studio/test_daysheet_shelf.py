"""Formulas, bottles, trays poured from them, and their end, in day sheets."""

from pathlib import Path

import pytest

from provenance.model.chemistry import Bath, Stock
from provenance.model.formula import Formula
from provenance.records.audit import audit
from provenance.studio.daysheet.filled import Filled, enter_filled
from provenance.studio.settings import Settings
from provenance.studio.shelf.bottles import left_in
from tests.studio.sheets import Desk, open_desk
from tests.studio.test_daysheet_refusals import told

STOCKS = """\
[[stock]]
code = "thio-A"
formula = "thiourea-stock"
volume = "1 L"
[[stock]]
code = "hydr-B"
made_from = "hydroxide"
mixed = "2031-05"
volume = "500 ml"
"""
TONER = """\
[[bath]]
code = "thio-1"
role = "thiourea"
draw = { "thio-A" = "20 ml", "hydr-B" = "80 ml" }
volume = "1 L"
"""
TRAY = '[[bath]]\ncode = "B"\nrole = "thiourea"\nvolume = "1 L"\n'
FIX = '[[bath]]\ncode = "B"\nrole = "fix"\n'
OWN = """\
[[formula]]
code = "brine"
name = "Brine"
role = "washing aid"
use = "working"
finish = "made up to"
source = "a test"
standing = "P"
one_shot = true
[[formula.part]]
substance = "sodium_chloride"
amount = "10 g"
"""


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    """A studio with three sheets and a fixing bath."""
    return open_desk(tmp_path)


@pytest.fixture(scope="module")
def shelf(tmp_path_factory: pytest.TempPathFactory) -> Desk:
    """The same with two bottles; nothing more is entered."""
    desk = open_desk(tmp_path_factory.mktemp("shelf"))
    desk.enter(STOCKS)
    return desk


def bath(desk: Desk, code: str) -> Bath:
    with desk.folder.open() as register:
        stored = register.read.by_code(Bath, code)
    assert stored is not None
    return stored.body


def left(desk: Desk, code: str) -> int:
    with desk.folder.open() as register:
        stored = register.read.by_code(Stock, code)
        assert stored is not None
        return left_in(register.read, stored)


def test_bottles_come_from_formulas_and_are_drawn_down(desk: Desk) -> None:
    done = desk.enter(STOCKS + TONER)
    assert done.entered == ("stock thio-A  1 L", "stock hydr-B  500 ml", "bath thio-1  thiourea")
    assert not done.warnings
    with desk.folder.open() as register:
        formula = register.read.by_code(Formula, "thiourea-stock")
        stock = register.read.by_code(Stock, "thio-A")
    assert formula is not None
    assert stock is not None
    assert (stock.body.formula, stock.body.made_from) == (formula.id, "Thiourea toner, stock A")
    # 180 days after the day of the sheet
    assert (stock.body.mixed_on, stock.body.keeps_until) == ("2031-06-01", "2031-11-28")
    made = bath(desk, "thio-1")
    assert made.made_from == "Thiourea toner, stock A and hydroxide"
    assert made.dilution is not None
    assert made.dilution.parts_hundredths == (100, 400, 4_500)
    assert (left(desk, "thio-A"), left(desk, "hydr-B")) == (98_000, 42_000)
    assert not audit(desk.folder.path).findings


def test_added_to_means_that_the_volume_is_the_water(desk: Desk) -> None:
    desk.enter(STOCKS + TONER + 'finish = "added to"\none_shot = true\nmade_from = "toner"\n')
    made = bath(desk, "thio-1")
    assert (made.volume_hundredth_ml, made.finish) == (110_000, "added to")
    assert (made.made_from, made.one_shot) == ("toner", True)


def test_a_formula_of_ones_own_is_entered_and_changed(desk: Desk) -> None:
    desk.enter(OWN)
    desk.enter(OWN.replace("10 g", "12 g"))
    made = '[[bath]]\ncode = "aid"\nrole = "washing aid"\nformula = "brine"\nvolume = "1 L"\n'
    desk.enter(made)
    with desk.folder.open() as register:
        stored = register.read.by_code(Formula, "brine")
        assert stored is not None
        assert len(register.read.versions(stored.id)) == 2
    assert stored.body.ingredients[0].mg_per_l == 12_000
    assert (bath(desk, "aid").formula, bath(desk, "aid").made_from) == (stored.id, "Brine")
    assert bath(desk, "aid").one_shot


def test_a_formula_in_the_studios_folder_serves_by_its_code(desk: Desk) -> None:
    own = desk.folder.path / "templates" / "formulas"
    own.mkdir(parents=True)
    lines = [line for line in OWN.splitlines() if line != "[[formula]]"]
    text = "\n".join(lines).replace("[[formula.part]]", "[[part]]").replace("brine", "lake")
    (own / "lake.toml").write_text(text, encoding="utf-8")
    assert desk.enter('[[formula]]\ncode = "lake"\n').entered == ("formula lake  Brine",)
    # the same again changes nothing, which is no work of a day
    assert "enters nothing" in told(desk.refused('[[formula]]\ncode = "lake"\n'))


def test_two_baths_are_a_pair_with_a_limit(desk: Desk) -> None:
    desk.enter(FIX + 'second_of = "fix-A"\nlimit = "first of two"\n')
    made = bath(desk, "B")
    with desk.folder.open() as register:
        first = register.read.by_code(Bath, "fix-A")
    assert first is not None
    assert (made.second_of, made.limit) == (first.id, "first of two")


def test_trays_and_bottles_are_retired_after_the_work(desk: Desk) -> None:
    done = desk.enter(
        STOCKS
        + TONER
        + '[[treatment]]\nsheets = ["QUAY Q1"]\n[[treatment.step]]\ndo = "thiourea"\n'
        + 'bath = "thio-1"\ntime = "1 min"\n'
        + '[[retire]]\nbaths = ["thio-1", "fix-A"]\nstocks = ["hydr-B"]\nwhy = "the end"\n'
        + 'disposed = "collected"\n'
    )
    assert done.entered[-1] == "retired thio-1, fix-A, hydr-B"
    ended = bath(desk, "thio-1")
    assert (ended.retired_on, ended.retired_why) == ("2031-06-01", "the end")
    assert ended.disposed == "collected"


REFUSALS = {
    "more than is left": (
        TRAY + 'draw = { "hydr-B" = "500.01 ml" }\n',
        "line 8 bath B draw: hydr-B: 500.01 ml is more than the 500 ml that is left in the bottle",
    ),
    "more than is left of two": (
        TRAY
        + 'draw = { "hydr-B" = "300 ml" }\n'
        + TRAY.replace('"B"', '"C"')
        + 'draw = { "hydr-B" = "201 ml" }\n',
        "line 13 bath C draw: hydr-B: 201 ml is more than the 200 ml that is left",
    ),
    "no such bottle": (
        TRAY + 'draw = { "thio-C" = "20 ml" }\n',
        "bath 1 draw thio-C: there is no stock thio-C; on record are: thio-A, hydr-B",
    ),
    "a draw without unit": (
        TRAY + 'draw = { "thio-A" = "20" }\n',
        "bath 1 draw thio-A: “20” has no unit",
    ),
    "drawn without a volume": (
        FIX + 'draw = { "thio-A" = "20 ml" }\n',
        "bath B volume: does not say how much there is",
    ),
    "made before the bottle": (
        TRAY + 'made = 2031-05-30\ndraw = { "thio-A" = "20 ml" }\n',
        "line 9 bath B draw: thio-A was mixed on 2031-06-01, after bath B was made from it",
    ),
    "made up to less than is poured": (
        TRAY.replace("1 L", "50 ml") + 'draw = { "thio-A" = "51 ml" }\n',
        "bath B draw: 51 ml were drawn for 50 ml",
    ),
    "no such formula": (
        '[[stock]]\ncode = "C"\nformula = "thiorea"\nvolume = "1 L"\n',
        "line 6 stock 1 formula: there is no formula thiorea; there are: alkaline-rapid-fixer",
    ),
    "a bottle without volume": ('[[stock]]\ncode = "C"\n', "stock 1 volume: is missing"),
    "a bottle of nought": (
        '[[stock]]\ncode = "C"\nvolume = "0 ml"\n',
        "line 6 stock",
    ),
    "kept until before it was mixed": (
        '[[stock]]\ncode = "C"\nvolume = "1 L"\nkeeps_until = 2031-05-01\n',
        "line 7 stock C keeps_until: kept until 2031-05-01, before it was mixed on 2031-06-01",
    ),
    "mixed tomorrow": (
        '[[stock]]\ncode = "C"\nvolume = "1 L"\nmixed = 2031-06-02\n',
        "line 7 stock C mixed: 2031-06-02 is still to come",
    ),
    "no such limit": (
        FIX + 'limit = "double"\n',
        "line 7 bath B limit: there is no silver limit “double”; choose one of: strictest",
    ),
    "a pair of two kinds": (
        TRAY + 'second_of = "fix-A"\n',
        "line 8 bath B second_of: bath B is for thiourea; a pair is of two fixing baths",
    ),
    "no such first": (FIX + 'second_of = "F-9"\n', "bath 1 second_of: there is no bath F-9"),
    "retired without a reason": ('[[retire]]\nbaths = ["fix-A"]\n', "retire 1 why: is missing"),
    "retired for nothing": (
        '[[retire]]\nbaths = ["fix-A"]\nwhy = " "\n',
        "line 6 bath fix-A why: does not say why it was retired",
    ),
    "nothing retired": ('[[retire]]\nwhy = "spent"\n', "line 4 retire 1 baths: names nothing"),
    "retired before it was used up": (
        '[[retire]]\nstocks = ["thio-A"]\non = 2031-05-01\nwhy = "spent"\n',
        "line 6 stock thio-A on: 2031-05-01 lies before 2031-06-01",
    ),
    "retired twice": (
        '[[retire]]\nbaths = ["fix-A"]\nwhy = "spent"\n' * 2,
        "line 7 retire 2 on: fix-A was retired on 2031-06-01 already",
    ),
    "used after it was retired": (
        '[[retire]]\nbaths = ["fix-A"]\non = 2031-05-20\nwhy = "spent"\n'
        '[[treatment]]\nsheets = ["QUAY Q1"]\n[[treatment.step]]\ndo = "fix"\nbath = "fix-A"\n',
        "line 6 bath fix-A on: step #13 used it on 2031-06-01; check both dates",
    ),
    "a template and more": (
        '[[formula]]\ncode = "thiourea-stock"\nname = "Ours"\n',
        "line 6 formula 1 name: stands beside the code of a template; leave it out",
    ),
    "a template that is not there": (
        '[[formula]]\ncode = "thiorea"\n',
        "line 5 formula 1 code: there is no formula thiorea; there are: alkaline-rapid-fixer",
    ),
    "a formula without its source": (
        OWN.replace('source = "a test"\n', ""),
        "formula 1 source: is missing; a formula of your own needs it",
    ),
    "a formula of nothing known": (
        OWN.replace("sodium_chloride", "sodium_chlorine"),
        "line 14 formula 1 part 1 substance: there is no substance",
    ),
    "a formula with an amount of nothing": (
        OWN.replace("10 g", "10"),
        "line 15 formula 1 part 1 amount: “10” has no unit",
    ),
    "a formula for nothing": (
        OWN.replace('role = "washing aid"\n', ""),
        "formula brine role: is for a bath or for a test",
    ),
    "a formula with a colon": (
        OWN.replace('standing = "P"', 'standing = "P"\ndilution = "1:9"'),
        "line 12 formula 1 dilution: “1:9” can be read as 1+9 or as 1+8",
    ),
}


@pytest.mark.parametrize("case", REFUSALS)
def test_a_mistake_is_told_where_it_stands(shelf: Desk, case: str) -> None:
    text, expected = REFUSALS[case]
    before, files = shelf.head(), shelf.files()
    assert expected in told(shelf.refused(text))
    assert (shelf.head(), shelf.files()) == (before, files)


def test_what_depends_on_a_refused_bottle_is_not_told_again(shelf: Desk) -> None:
    text = (
        '[[formula]]\ncode = "thiorea"\n'
        '[[stock]]\ncode = "C"\nformula = "thiorea"\nvolume = "1 L"\n'
        + TRAY
        + 'draw = { C = "20 ml" }\n[[retire]]\nbaths = ["B"]\nwhy = "one use"\n'
    )
    assert [problem.line for problem in shelf.refused(text)] == [5]


AGAIN = (
    '[[treatment]]\nsheets = ["QUAY Q1"]\n[[treatment.step]]\ndo = "thiourea"\nbath = "thio-1"\n'
)


def test_a_second_use_is_a_warning_at_its_line(desk: Desk) -> None:
    first = STOCKS + TONER + "one_shot = true\nmade = 2031-06-01\n" + AGAIN
    assert not desk.enter(first).warnings
    desk.day = "2031-06-02"
    later = AGAIN.replace("Q1", "Q2")
    tried = desk.enter(f"[day]\ndate = 2031-06-02\n{later}", rehearse=True)
    done = desk.enter(f"[day]\ndate = 2031-06-02\n{later}")
    assert tried.warnings == done.warnings
    (warning,) = done.warnings
    assert str(warning).startswith(
        "line 7 treatment 1 step 1 bath: bath thio-1 is for one use, and was used on 2031-06-01"
    )


@pytest.mark.parametrize(("grams", "warned"), [(359, False), (361, True)])
def test_more_than_dissolves_is_a_warning_with_its_figure(
    desk: Desk, grams: int, *, warned: bool
) -> None:
    recorded = desk.enter(OWN.replace("10 g", f"{grams} g"))
    said = [str(one) for one in recorded.warnings]
    assert bool(said) is warned
    assert all(f"{grams} g/L of sodium chloride is more than the" in one for one in said)


def test_a_bottle_past_its_time_is_a_warning(desk: Desk) -> None:
    stale = STOCKS.replace('volume = "1 L"', 'volume = "1 L"\nkeeps_until = "2031-05"')
    stale = stale.replace('formula = "thiourea-stock"', 'mixed = "2031-04"')
    (warning,) = desk.enter(stale + TONER).warnings
    assert (warning.line, warning.field) == (17, "draw")
    assert "thio-A was good until 2031-05" in warning.what


def test_a_fixer_taken_past_its_limit_is_a_warning(desk: Desk) -> None:
    tray = FIX + 'volume = "400 ml"\nmade = 2031-05-01\n'
    step = '[[treatment]]\nsheets = {}\n[[treatment.step]]\ndo = "fix"\nbath = "B"\n'
    within = desk.enter(tray + step.format('["QUAY Q1", "QUAY Q2"]'))
    assert not within.warnings
    (warning,) = desk.enter(step.format('["QUAY Q3"]')).warnings
    assert (warning.line, warning.field) == (8, "bath")
    assert warning.what == (
        "bath B is estimated to hold 0.7 g/L of silver, at worst 1.4, past the 0.5 g/L for a"
        " single bath, for permanence"
    )


def test_a_warning_of_a_form_names_its_field(desk: Desk) -> None:
    desk.enter(STOCKS + TONER + "one_shot = true\n" + AGAIN)
    desk.day = "2031-06-02"
    filled = Filled("2031-06-02")
    filled.put("prints", ["QUAY Q2"], "treatment", 0, "sheets")
    filled.put("steps", "thiourea", "treatment", 0, "step", 0, "do", called="line 1")
    filled.put("steps", "thio-1", "treatment", 0, "step", 0, "bath", called="line 1")
    with desk.folder.open(desk.evening()) as register:
        (warning,) = enter_filled(register, desk.folder, filled, settings=Settings()).warnings
    assert (warning.field, warning.record, warning.line) == ("steps", "line 1", None)
