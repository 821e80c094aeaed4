"""Wedges on record become curves, and what does not compare is told."""

from math import log10

import msgspec
import pytest

from provenance.craft.sensitometry.paper_range import slower_by, speed_point
from provenance.craft.sensitometry.wedges import (
    comparison_cautions,
    curve_of,
    targets_of,
    wedge_cautions,
)
from provenance.errors import Refused
from provenance.model.readings import How, Lab, Patch, Tone, Wedge, WedgeStep
from tests.craft.sensitometry.papers import TABLET, Answer, paper

HOW = How(instrument="densitometer", geometry="45/0", backing="white", filter="visual")


def md(density: float) -> tuple[Tone, ...]:
    return (Tone(density_md=round(1000 * density)),)


def wedge(answer: Answer, exposure_ms: int = 10_000) -> Wedge:
    """A tablet printed on a paper whose curve counts from one second."""
    seconds = log10(exposure_ms / 1000)
    return Wedge(
        paper=1,
        done_on="2031-05-04",
        tablet="A",
        exposure_ms=exposure_ms,
        light="f/8, 60 cm",
        how=HOW,
        steps=tuple(
            WedgeStep(tablet_md=round(1000 * step), tones=md(answer(seconds - step)))
            for step in TABLET
        ),
        unexposed=md(0.05),
        full=md(2.05),
    )


def test_exposures_count_from_a_second_whatever_the_time_of_the_wedge() -> None:
    slow = paper(1.1, -0.3).density_at
    one, other = curve_of(wedge(slow, 10_000)), curve_of(wedge(slow, 20_000))
    assert speed_point(one) == pytest.approx(-0.3, abs=0.002)
    assert slower_by(one, other) == pytest.approx(0, abs=0.002)


def test_the_body_is_the_same_after_writing_and_reading() -> None:
    body = wedge(paper(1.1).density_at)
    assert msgspec.json.decode(msgspec.json.encode(body), type=Wedge) == body


def test_wedges_made_and_read_alike_compare() -> None:
    one, other = (wedge(paper(1.1, slower).density_at) for slower in (-0.3, -0.1))
    assert comparison_cautions(one, other) == ()
    assert wedge_cautions(one, curve_of(one)) == ()


def test_wedges_that_differ_are_told_in_what() -> None:
    one = wedge(paper(1.1).density_at)
    other = msgspec.structs.replace(
        one, tablet="B", light="", how=How(), unexposed=(Tone(lab=Lab(lightness_hundredth=9500)),)
    )
    told = {caution.id: caution.text for caution in comparison_cautions(one, other)}
    assert told.keys() == {"unlike", "tablet", "light", "mixed"}
    assert told["unlike"] == "the readings differ in instrument, geometry, backing, filter"
    assert told["tablet"] == "the tablet of the two wedges is not the same"
    nothing = msgspec.structs.replace(one, light="")
    assert [caution.text for caution in comparison_cautions(nothing, nothing)] == [
        "the light of the two wedges is not on record"
    ]


def test_a_doubtful_wedge_is_told() -> None:
    fine = wedge(paper(1.1).density_at)
    steps = list(fine.steps)
    steps[20] = WedgeStep(tablet_md=steps[20].tablet_md, tones=md(1.9))
    brown = (Tone(lab=Lab(lightness_hundredth=9500, b_hundredth=900)),)
    doubtful = msgspec.structs.replace(fine, steps=tuple(steps), unexposed=brown)
    told = wedge_cautions(doubtful, curve_of(doubtful))
    assert [caution.id for caution in told] == ["toned", "mixed", "falling"]


def test_tones_of_a_print_are_surer_the_more_often_they_were_read() -> None:
    four = tuple(Tone(density_md=md) for md in (640, 660, 650, 650))
    grey = (Tone(lab=Lab(lightness_hundredth=5000)),)
    mast, sky = targets_of([Patch(spot="mast", tones=four), Patch(spot="sky", tones=grey)])
    assert (mast.spot, mast.density, mast.error) == ("mast", pytest.approx(0.65), 0.005)
    assert (sky.density, sky.error) == (pytest.approx(0.7347, abs=5e-5), 0.01)


def test_a_wedge_without_a_time_is_refused() -> None:
    with pytest.raises(Refused, match="no exposure"):
        curve_of(msgspec.structs.replace(wedge(paper(1.1).density_at), exposure_ms=0))
