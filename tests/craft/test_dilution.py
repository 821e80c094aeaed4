from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from provenance.craft.dilution import (
    ColonMeans,
    criss_cross,
    mass_for_percent_mg,
    mixed_strength,
    parse_dilution,
    part_volumes_hundredth_ml,
    percent_weight_in_volume,
)
from provenance.errors import Refused
from provenance.model.quantities import Dilution
from provenance.model.quantity_text import format_dilution

PARTS = st.lists(st.integers(1, 1_000_000), min_size=2, max_size=4).map(tuple)


@given(PARTS)
def test_what_is_shown_reads_back(parts: tuple[int, ...]) -> None:
    text = format_dilution(Dilution(parts_hundredths=parts, typed=""))
    assert parse_dilution(text, colon_means=None) == Dilution(parts_hundredths=parts, typed=text)


@pytest.mark.parametrize(
    ("text", "colon_means", "parts"),
    [
        ("1+9", None, (100, 900)),
        ("1 + 1,5", None, (100, 150)),
        ("1+2+100", "total", (100, 200, 10_000)),
        ("½+1", None, (50, 100)),
        ("1:9", "parts", (100, 900)),
        ("1:9", "total", (100, 800)),
        ("1:2:100", "parts", (100, 200, 10_000)),
    ],
)
def test_parts_are_kept_with_what_was_typed(
    text: str, colon_means: ColonMeans | None, parts: tuple[int, ...]
) -> None:
    expected = Dilution(parts_hundredths=parts, typed=text)
    assert parse_dilution(text, colon_means=colon_means) == expected


@pytest.mark.parametrize(
    ("text", "colon_means", "reason"),
    [
        ("1:9", None, r"can be read as 1\+9 or as 1\+8"),
        ("1:1", None, r"can be read as 1\+1"),
        ("1:1", "total", "one part of a larger total"),
        ("1:2:100", "total", "one part of a larger total"),
        ("1:0", None, "each above zero"),
        ("1+0", None, "each above zero"),
        ("1+-9", None, "each above zero"),
        ("1+9:2", None, "is not a dilution"),
        ("10 %", None, "is not a dilution"),
        ("9", None, "is not a dilution"),
        ("1+", None, "is not a number"),
        ("1+1/3", None, "finer than a hundredth"),
        ("1+99999", None, "not a dilution"),
    ],
)
def test_unclear_dilutions_are_refused(
    text: str, colon_means: ColonMeans | None, reason: str
) -> None:
    with pytest.raises(Refused, match=reason) as refused:
        parse_dilution(text, colon_means=colon_means, field="dilution")
    assert refused.value.problems[0].field == "dilution"


@given(PARTS, st.integers(0, 100_000_000))
def test_nothing_is_lost_in_measuring_out(parts: tuple[int, ...], total: int) -> None:
    dilution = Dilution(parts_hundredths=parts, typed="")
    volumes = part_volumes_hundredth_ml(dilution, total)
    assert sum(volumes) == total
    for part, volume in zip(parts, volumes, strict=True):
        exact = Fraction(total * part, dilution.total_hundredths)
        assert abs(volume - exact) <= Fraction(len(parts) - 1, 2)


@given(st.fractions(0, 50), st.fractions(0, 50), st.fractions(0, 50))
def test_the_mixture_has_the_wanted_strength(one: Fraction, two: Fraction, three: Fraction) -> None:
    weak, wanted, strong = sorted((one, two, three))
    if weak < wanted < strong:
        parts_strong, parts_weak = criss_cross(strong, weak, wanted)
        assert mixed_strength(strong, parts_strong, weak, parts_weak) == wanted
    else:
        with pytest.raises(Refused, match="does not lie between"):
            criss_cross(strong, weak, wanted)


@given(st.integers(1, 10_000), st.integers(1, 1_000_000))
def test_weighing_out_a_percentage_gives_it_back(tenths: int, volume_hundredth_ml: int) -> None:
    percent = Fraction(tenths, 10)
    mass_mg = mass_for_percent_mg(percent, volume_hundredth_ml)
    half_a_milligram = Fraction(10, volume_hundredth_ml) / 2
    found = percent_weight_in_volume(mass_mg, volume_hundredth_ml)
    assert abs(found - percent) <= half_a_milligram
