"""What labels say of bottles and trays, from formulas and from records."""

from pathlib import Path
from typing import Any

import pytest

from provenance.documents.label_layout import shipped_label_layout
from provenance.documents.label_text import LabelText
from provenance.errors import NotFound, Refused
from provenance.model.certificate import Page
from provenance.model.chemistry import Bath
from provenance.model.quantities import Dilution
from provenance.records.register import Register
from provenance.studio.folder import StudioFolder
from provenance.studio.formulas import load_formula
from provenance.studio.label_texts import LabelWriter
from provenance.studio.labels import print_labels
from tests.shelf import hazards, substances
from tests.studios import bath, clock, draw, enter, furnish, new_register, stock

WORDS = shipped_label_layout().words_in("en")
WRITER = LabelWriter(substances(), hazards(), WORDS)
PAGES: tuple[Page, ...] = ("A4", "letter")
FORMULAS = sorted(path.stem for path in Path("templates/formulas").glob("*.toml"))


def of(code: str) -> LabelText:
    return WRITER.of_formula(load_formula(code, substances()))


@pytest.fixture
def shelf(tmp_path: Path) -> Register:
    register = new_register(tmp_path / "studio")
    with register.act("printer") as act:
        furnish(act)
    return register


def on_record(register: Register, *bodies: Any) -> list[int]:
    return [enter(register, body) for body in bodies]


def test_strength_and_codes_of_what_burns() -> None:
    label = of("hydroxide-stock")
    assert label.contents == "potassium hydroxide 85 %, 100 g/L"
    assert label.signal_word == "Danger"
    assert label.pictograms == (("GHS05", WORDS.pictogram["GHS05"]),)
    assert [code for code, _say in label.hazards] == ["H314"]
    assert "H302" in label.basis
    assert "H290" in label.basis
    assert "ammonium salts" in label.keep_from[1]
    assert "cold water" not in label.keep_from[1], "how to mix it is no matter of the bottle"
    assert label.mixed[1] == label.discard[1] == ""


@pytest.mark.parametrize("code", FORMULAS)
def test_every_formula_that_comes_along_has_a_label(code: str) -> None:
    label = of(code)
    assert label.basis.startswith("Label codes estimated from contents.")
    assert label.basis.endswith(hazards().decides)
    assert bool(label.hazards) != bool(label.no_codes)
    assert "hypochlorite bleach" in label.keep_from[1]
    assert label.protect[1] == WORDS.protect_say
    assert label.contents


def test_all_of_them_fit_a_sheet_with_codes_and_meanings(tmp_path: Path) -> None:
    folder = StudioFolder(tmp_path)
    for page in PAGES:
        printed = print_labels(
            folder,
            tmp_path / f"{page}.pdf",
            formulas=FORMULAS,
            page=page,
            clock=clock(),
        )
        assert len(printed.labels) == len(FORMULAS)
        # dilution and keeping may give way on a full label, waste does not
        assert all(WORDS.waste not in left_off for left_off in printed.left_off)
        assert (tmp_path / f"{page}.pdf").read_bytes()[:5] == b"%PDF-"


def test_a_bottle_has_its_dates_from_its_formula(shelf: Register) -> None:
    (formula,) = on_record(shelf, load_formula("thiourea-stock", substances()))
    mixed = stock(formula=formula, mixed_on="2031-03-01", lot="jar 3")
    label = WRITER.of_stock(shelf.read, mixed)
    assert (label.code, label.name) == ("S-1", "Thiourea toner, stock A")
    assert label.mixed[1] == "2031-03-01"
    assert label.discard[1] == "2031-08-28"
    assert ("Lot", "jar 3") in label.lines
    own = WRITER.of_stock(shelf.read, replace_body(mixed, keeps_until="2031-05-01"))
    assert own.discard[1] == "2031-05-01"
    month = WRITER.of_stock(shelf.read, replace_body(mixed, mixed_on="2031-03"))
    assert (month.mixed[1], month.discard[1]) == ("March 2031", "2031-08-28")


def replace_body(body: Any, **changes: Any) -> Any:
    fields = {name: getattr(body, name) for name in body.__struct_fields__}
    return type(body)(**fields | changes)


def test_a_bottle_that_was_bought_is_not_called_harmless(shelf: Register) -> None:
    label = WRITER.of_stock(shelf.read, stock(made_from="rapid fixer concentrate"))
    assert label.name == "rapid fixer concentrate"
    assert label.contents == WORDS.contents_not_known
    assert label.no_codes == WORDS.codes_not_known
    assert WORDS.estimated not in label.basis


def test_a_bath_is_what_was_drawn_for_it(shelf: Register) -> None:
    thiourea, hydroxide = on_record(
        shelf,
        load_formula("thiourea-stock", substances()),
        load_formula("hydroxide-stock", substances()),
    )
    one, other = on_record(
        shelf, stock(code="A", formula=thiourea), stock(code="B", formula=hydroxide)
    )
    label = WRITER.of_bath(shelf.read, bath(draw(one, 2_000), draw(other, 8_000)))
    assert label.contents == "thiourea (thiocarbamide) 2 g/L; potassium hydroxide 85 %, 8 g/L"
    assert label.discard[1] == WORDS.one_use
    # 0.12 mol of hydroxide in a litre is above the pH that burns, though it is under 2 %
    assert "H314" in [code for code, _say in label.hazards]


def test_a_bath_of_bottles_not_all_known_says_so(shelf: Register) -> None:
    (formula,) = on_record(shelf, load_formula("thiourea-stock", substances()))
    one, other = on_record(
        shelf, stock(code="A", formula=formula), stock(code="B", made_from="activator")
    )
    label = WRITER.of_bath(shelf.read, bath(draw(one), draw(other, 8_000)))
    assert label.contents.endswith("; activator")
    assert f"{WORDS.not_known}: activator." in label.basis
    assert label.no_codes == WORDS.codes_not_known, "what is known of it needs no code"
    assert "aluminium and zinc" in label.keep_from[1], "such a bath usually holds hydroxide"


def test_a_dilution_of_a_formula(shelf: Register) -> None:
    (formula,) = on_record(shelf, load_formula("alkaline-rapid-fixer", substances()))
    parts = Dilution(parts_hundredths=(100, 400), typed="1+4")
    diluted = Bath(code="fix-A", role="fix", formula=formula, made_on="2031-03-02", dilution=parts)
    label = WRITER.of_bath(shelf.read, diluted)
    assert label.name == "Alkaline rapid fixer 1+4"
    assert label.contents.startswith("ammonium thiosulfate 60 %, 160 ml/L; ")
    assert label.discard[1] == "2031-03-09"
    usual = WRITER.of_bath(shelf.read, replace_body(diluted, dilution=None))
    assert usual.contents == label.contents, "the formula says how it is taken"


def test_a_bath_of_which_only_the_role_is_known(shelf: Register) -> None:
    fixer = Bath(code="F-2", role="fix", made_from="rapid fixer", made_on="2031-03-02")
    label = WRITER.of_bath(shelf.read, fixer)
    assert label.discard[1] == "2031-05-01", "as the shelf reckons a working fixer"
    assert label.hazards == ()
    assert label.no_codes == WORDS.codes_not_known
    assert "hydroxide" in label.keep_from[1]
    assert "usually holds" in label.basis


def test_records_are_printed_by_reference(shelf: Register, tmp_path: Path) -> None:
    (formula,) = on_record(shelf, load_formula("citric-stop", substances()))
    on_record(shelf, stock(code="S-7", formula=formula))
    shelf.close()
    folder, out = StudioFolder(tmp_path / "studio"), tmp_path / "labels.pdf"
    printed = print_labels(
        folder, out, references=["S-7", "F-1", "citric-stop"], first=8, clock=clock()
    )
    assert [label.code for label in printed.labels] == ["S-7", "F-1", "citric-stop"]
    assert printed.sheets == 2


@pytest.mark.parametrize(
    ("reference", "error", "said"),
    [
        ("QUAY", Refused, "edition"),
        ("F-9", Refused, "retired on 2031-03-05"),
        ("nothing", NotFound, "nothing on record"),
    ],
)
def test_what_gets_no_label(
    shelf: Register, tmp_path: Path, reference: str, error: type[Refused], said: str
) -> None:
    on_record(shelf, Bath(code="F-9", role="fix", retired_on="2031-03-05", retired_why="spent"))
    shelf.close()
    out = tmp_path / "labels.pdf"
    with pytest.raises(error, match=said):
        print_labels(StudioFolder(tmp_path / "studio"), out, references=["F-1", reference])
    assert not out.exists()
