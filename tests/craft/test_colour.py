"""Lightness and density are one for neutrals, and toned readings are told apart."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from provenance.craft.colour import (
    chroma,
    delta_e00,
    density_of,
    density_of_lightness,
    lightness_of_density,
    luminance_percent,
    toned_cautions,
)
from provenance.errors import Refused
from provenance.model.readings import Lab, Tone

lightnesses = st.floats(0.1, 100)
colours = st.tuples(lightnesses, st.floats(-40, 40), st.floats(-40, 40))


@given(lightnesses)
def test_there_and_back(of: float) -> None:
    assert lightness_of_density(density_of_lightness(of)) == pytest.approx(of)


@given(lightnesses, lightnesses)
def test_a_darker_neutral_is_denser(one: float, other: float) -> None:
    if one + 1e-6 < other:
        assert density_of_lightness(one) > density_of_lightness(other)


def test_the_two_laws_meet_at_lightness_eight() -> None:
    assert luminance_percent(8) == pytest.approx(luminance_percent(8 + 1e-9))


@given(colours, colours)
def test_a_difference_has_no_direction(
    one: tuple[float, float, float], other: tuple[float, float, float]
) -> None:
    assert delta_e00(one, one) == pytest.approx(0, abs=1e-9)
    assert delta_e00(one, other) == pytest.approx(delta_e00(other, one), abs=1e-9)


@pytest.mark.parametrize("of", [-1, 106, float("nan")])
def test_no_such_lightness(of: float) -> None:
    with pytest.raises(Refused, match="no L\\*"):
        luminance_percent(of)


def test_a_black_without_reflection_has_no_density() -> None:
    with pytest.raises(Refused, match="has no density"):
        density_of_lightness(0)


def test_a_reading_gives_its_density_whatever_the_instrument() -> None:
    assert density_of(Tone(density_md=735)) == 0.735
    assert density_of(Tone(lab=Lab(lightness_hundredth=5000))) == pytest.approx(0.7347, abs=5e-5)


@pytest.mark.parametrize("both", [{}, {"density_md": 1, "lab": Lab(lightness_hundredth=1)}])
def test_a_reading_is_one_or_the_other(both: dict[str, object]) -> None:
    with pytest.raises(Refused, match="either a density or a Lab"):
        Tone(**both)  # type: ignore[arg-type]


def test_a_toned_reading_is_not_taken_for_neutral() -> None:
    brown = Lab(lightness_hundredth=4000, a_hundredth=900, b_hundredth=1200)
    assert chroma(brown) == pytest.approx(15)
    (caution,) = toned_cautions(Tone(lab=brown), Tone(density_md=500))
    assert "chroma of 15.0" in caution.text
    assert caution.source.grade == "P"
    warm = Lab(lightness_hundredth=9000, a_hundredth=0, b_hundredth=300)
    assert toned_cautions(Tone(lab=warm), Tone(density_md=500)) == ()
