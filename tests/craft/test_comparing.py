"""A new print against the reference: which spot is off, and which readings do not compare."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from provenance.craft.colour import density_of_lightness
from provenance.craft.comparing import Tolerances, match_prints
from provenance.errors import Refused
from provenance.model.readings import How, Lab, Patch, Reading, Tone

HOW = How(instrument="densitometer", geometry="45/0", backing="white", filter="visual")


def read(**spots: int) -> list[Patch]:
    """Spots with one density each, in mD."""
    return [Patch(spot=name, tones=(Tone(density_md=md),)) for name, md in spots.items()]


def read_lab(lightness: int, b: int) -> list[Patch]:
    lab = Lab(lightness_hundredth=lightness, b_hundredth=b)
    return [Patch(spot="sky", tones=(Tone(lab=lab),))]


@given(st.dictionaries(st.text(min_size=1, max_size=5), st.integers(0, 2200), min_size=1))
def test_a_print_matches_itself(spots: dict[str, int]) -> None:
    patches = [Patch(spot=name, tones=(Tone(density_md=md),)) for name, md in spots.items()]
    match = match_prints(patches, patches, (HOW, HOW))
    assert match.matches
    assert match.cautions == ()
    assert [spot.delta_density for spot in match.spots] == [0] * len(spots)


def test_a_match_that_fails_says_where() -> None:
    match = match_prints(
        read(sky=250, hull=1500, water=700), read(sky=268, hull=1555, water=690), (HOW, HOW)
    )
    assert [(spot.spot, spot.matches) for spot in match.spots] == [
        ("sky", True),
        ("hull", False),
        ("water", True),
    ]
    assert match.spots[1].delta_density == pytest.approx(0.055)
    assert not match.matches


def test_the_limit_itself_is_within() -> None:
    assert match_prints(read(sky=250), read(sky=270), (HOW, HOW)).matches
    assert not match_prints(read(sky=250), read(sky=271), (HOW, HOW)).matches


def test_tolerances_widen_with_darkness() -> None:
    tolerance = Tolerances()
    at = [tolerance.density_at(density_of_lightness(of)) for of in (90, 50, 35, 20, 5)]
    assert at == pytest.approx([0.02, 0.02, 0.035, 0.05, 0.05])


def test_the_same_density_in_another_colour_does_not_match() -> None:
    match = match_prints(read_lab(5000, 0), read_lab(5000, 200), (HOW, HOW))
    (spot,) = match.spots
    assert spot.delta_density == pytest.approx(0)
    assert spot.delta_e00 == pytest.approx(1.9, abs=0.05)
    assert not match.matches


def test_a_spot_that_was_not_read_again_is_no_match() -> None:
    match = match_prints(read(sky=250, hull=1500), read(sky=250), (HOW, HOW))
    assert match.missing == ("hull",)
    assert not match.matches


def test_a_densitometer_and_lab_are_not_compared() -> None:
    match = match_prints(read_lab(5000, 0), read(sky=735), (HOW, HOW))
    assert [caution.id for caution in match.cautions] == ["mixed"]
    assert match.spots[0].delta_e00 is None
    assert not match.matches


def test_several_readings_of_a_spot_count_as_their_mean() -> None:
    twice = [Patch(spot="sky", tones=(Tone(density_md=260), Tone(density_md=280)))]
    assert match_prints(read(sky=270), twice, (HOW, HOW)).spots[0].delta_density == pytest.approx(0)


def test_readings_taken_otherwise_are_told() -> None:
    wet = How(instrument="densitometer", geometry="45/0", filter="visual", state="wet")
    told = match_prints(read(sky=250), read(sky=250), (HOW, wet)).cautions
    assert [caution.text for caution in told] == ["the readings differ in backing, state"]
    (unknown,) = match_prints(read(sky=250), read(sky=250), (How(), How())).cautions
    assert unknown.text == "the readings do not say instrument, geometry, backing, filter"


def test_no_spot_in_common_is_refused() -> None:
    with pytest.raises(Refused, match="no spot was read on both"):
        match_prints(read(sky=250), read(hull=250), (HOW, HOW))


def test_a_spot_is_read_and_read_under_one_name() -> None:
    with pytest.raises(Refused, match="has no reading"):
        Patch(spot="sky", tones=())
    with pytest.raises(Refused, match="“sky” is there twice"):
        Reading(print=1, done_on="2031-05-04", how=HOW, patches=(*read(sky=1), *read(sky=2)))
