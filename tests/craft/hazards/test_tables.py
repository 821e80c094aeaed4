import re

import pytest

from provenance.craft.hazards.tables import read_hazards
from provenance.errors import Refused
from provenance.resources import resource
from tests.shelf import hazards, substances

TEXT = (resource("templates", "data") / "hazards.toml").read_text(encoding="utf-8")


def test_every_code_of_every_substance_has_a_sentence() -> None:
    for substance in substances():
        hazard = substance.hazard
        codes = [*hazard.h_codes, *hazard.euh_codes]
        codes += [code for code in hazard.some_suppliers if "H" in code and "GHS" not in code]
        for code in codes:
            assert hazards().statement[code].say.endswith(".")


def test_sentences_are_short_and_codes_are_codes() -> None:
    for code, statement in hazards().statement.items():
        assert re.fullmatch(r"(?:EU)?H[0-9]{3}[A-Za-z]{0,2}", code)
        assert len(statement.say) <= 60
    for code, sentence in hazards().precaution.items():
        assert re.fullmatch(r"P[0-9]{3}(?:\+P[0-9]{3})*", code)
        assert len(sentence) <= 80


def test_ladders_go_down() -> None:
    ladders = [one.ladder or () for one in hazards().statement.values()]
    ladders += [one.ladder for one in hazards().specific]
    for ladder in ladders:
        percents = [rung.percent for rung in ladder]
        assert percents == sorted(percents, reverse=True)


def test_the_supplier_and_local_rules_decide() -> None:
    assert "safety data sheet decides" in hazards().decides
    assert "local rules" in hazards().decides


@pytest.mark.parametrize(
    ("old", "new", "reason"),
    [
        ('gas = "hydrogen_cyanide"', 'gas = "phosgene"', "substance “phosgene”"),
        ('one = ["cyanoferrate"]', 'one = ["cyan"]', "family “cyan”"),
        ('"P210", "P271"', '"P999", "P271"', "precaution “P999”"),
        ('gives = ["H302"]', 'gives = ["H399"]', "statement “H399”"),
        ('mixed = "danger"', 'mixed = "dreadful"', "cannot be read"),
        ('mixed = "danger"', 'stirred = "danger"', "cannot be read"),
        ("[statement.H220]", "[statement.H220", "cannot be read"),
    ],
)
def test_tables_that_do_not_fit_are_refused(old: str, new: str, reason: str) -> None:
    assert old in TEXT
    with pytest.raises(Refused, match=reason) as refused:
        read_hazards(TEXT.replace(old, new, 1), substances())
    assert refused.value.problems[0].record == "hazards.toml"


def test_a_code_of_some_suppliers_without_a_sentence_is_refused() -> None:
    text = re.sub(r"\[statement\.H251\].*?\n\n", "", TEXT, flags=re.DOTALL)
    with pytest.raises(Refused, match="H251"):
        read_hazards(text, substances())
