"""A studio's own limits, and what is held against them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from provenance.craft.limits import ResidualLimit, compare, read_limit
from provenance.craft.residual import (
    AREAL_UNITS,
    THIOSULFATES,
    ArealMass,
    convert_areal_mass,
    thiosulfate_as,
)
from provenance.errors import Refused
from provenance.model.process import Question
from provenance.model.sources import Sourced

OWN = Sourced("P", "the studio")
LIMIT = read_limit("the studio’s limit", "thiosulfate", "0.7 µg/cm²", "ion", OWN)
SILVER = read_limit("the studio’s limit", "silver", "0.5 µg/cm²", None, OWN)


def test_a_limit_names_whose_it_is_and_what_it_is_worth() -> None:
    assert LIMIT.ng_per_cm2 == pytest.approx(700)
    assert str(LIMIT) == (
        "the studio’s limit: 0.7 µg/cm² of thiosulfate as ion, the studio"
        " (common practice, no source)"
    )
    assert " as " not in str(SILVER)


@given(st.floats(0, 1e4), st.sampled_from([*AREAL_UNITS]), st.sampled_from([*THIOSULFATES]))
def test_neither_unit_nor_species_changes_what_is_found(
    ug_per_cm2: float, unit: str, species: str
) -> None:
    plain = compare(ArealMass(ug_per_cm2, "µg/cm²"), "ion", LIMIT)
    as_other = thiosulfate_as(ug_per_cm2, "ion", THIOSULFATES[species])
    written = convert_areal_mass(as_other, "µg/cm²", AREAL_UNITS[unit])
    other = compare(ArealMass(written, AREAL_UNITS[unit]), THIOSULFATES[species], LIMIT)
    assert other.share == pytest.approx(plain.share, rel=1e-12, abs=1e-12)
    if abs(plain.share - 1) > 1e-9:
        assert other.within == plain.within == (ug_per_cm2 <= 0.7)


def test_the_limit_itself_is_within() -> None:
    assert compare(ArealMass(0.7, "µg/cm²"), "ion", LIMIT).within
    assert compare(ArealMass(0.007, "g/m²"), "ion", LIMIT).within
    assert not compare(ArealMass(0.7, "µg/cm²"), None, SILVER).within


@pytest.mark.parametrize(
    ("name", "amount", "species", "source"),
    [
        ("mine", "0.014 g/m²", "ion", "the studio"),
        ("mine", "1.4 µg/cm²", "ion", "the studio"),
        ("LE-500", "0.5 µg/cm²", "ion", "the studio"),
        ("LE 100", "0.5 µg/cm²", "ion", "the studio"),
        ("life expectancy", "0.5 µg/cm²", "ion", "the studio"),
        ("mine", "0.5 µg/cm²", "ion", "ANSI IT9.1-1996"),
        ("mine", "0.5 µg/cm²", "ion", "microfilm practice"),
        ("film", "0.5 µg/cm²", "ion", "the studio"),
    ],
)
def test_a_limit_for_film_is_refused(name: str, amount: str, species: str, source: str) -> None:
    with pytest.raises(Refused, match="a limit for film; paper holds") as caught:
        read_limit(name, "thiosulfate", amount, species, Sourced("S", source))
    assert "limit for prints" in caught.value.problems[0].mend


def test_the_film_limit_is_known_in_another_species() -> None:
    crystal = thiosulfate_as(0.014, "ion", "crystal")
    with pytest.raises(Refused, match="a limit for film"):
        ResidualLimit("mine", "thiosulfate", ArealMass(crystal, "g/m²"), "crystal", OWN)


@pytest.mark.parametrize(
    ("name", "question", "amount", "species", "said"),
    [
        ("mine", "thiosulfate", "0 µg/cm²", "ion", "above zero"),
        ("mine", "thiosulfate", "-1 µg/cm²", "ion", "above zero"),
        ("  ", "thiosulfate", "1 µg/cm²", "ion", "has a name"),
        ("mine", "thiosulfate", "1 g", "ion", "no mass per area"),
        ("mine", "thiosulfate", "1 µg/cm²", "hypo", "not reckoned as “hypo”"),
        ("mine", "thiosulfate", "1 µg/cm²", None, "one of its species"),
        ("mine", "silver", "1 µg/cm²", "ion", "silver as itself"),
        ("meets ISO 18929", "thiosulfate", "1 µg/cm²", "ion", "nothing of conformity"),
        ("conforms to the standard", "silver", "1 µg/cm²", None, "nothing of conformity"),
    ],
)
def test_what_is_no_limit_is_refused(
    name: str, question: Question, amount: str, species: str | None, said: str
) -> None:
    with pytest.raises(Refused, match=said):
        read_limit(name, question, amount, species, OWN)


def test_silver_is_not_held_against_thiosulfate() -> None:
    with pytest.raises(Refused, match="is not thiosulfate"):
        compare(ArealMass(0.7, "µg/cm²"), None, LIMIT)
    with pytest.raises(Refused, match="is not silver"):
        compare(ArealMass(0.7, "µg/cm²"), "ion", SILVER)
    with pytest.raises(Refused, match="less than nothing"):
        compare(ArealMass(-0.1, "µg/cm²"), "ion", LIMIT)
