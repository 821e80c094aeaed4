"""Curves from wedges on record, and whether two of them may be compared."""

from collections.abc import Sequence
from math import log10, sqrt
from statistics import fmean

from provenance.craft.caution import Caution
from provenance.craft.colour import density_of, toned_cautions
from provenance.craft.comparing import how_cautions
from provenance.craft.sensitometry.curve import Curve, fit_curve
from provenance.craft.sensitometry.matching import Target
from provenance.craft.sensitometry.steps import READING_ERROR, Step
from provenance.errors import Problem, Refused
from provenance.model.readings import Patch, Tone, Wedge
from provenance.model.sources import Sourced

SAME_SOURCE = Sourced("P", "papers compare through one tablet in one light")
MOVED_SOURCE = Sourced("P", "density rises with exposure")


def curve_of(wedge: Wedge) -> Curve:
    """The curve of a wedge; log H counts from one second of its light.

    Raises Refused as `fit_curve` does, and for a wedge without an exposure.
    """
    if wedge.exposure_ms == 0:
        raise Refused(
            Problem(
                what="the wedge has no exposure",
                field="exposure_ms",
                mend="give the time that the tablet was printed with",
            )
        )
    seconds = log10(wedge.exposure_ms / 1000)
    steps = [Step(seconds - step.tablet_md / 1000, _densities(step.tones)) for step in wedge.steps]
    return fit_curve(steps, _densities(wedge.unexposed), _densities(wedge.full))


def targets_of(patches: Sequence[Patch]) -> tuple[Target, ...]:
    """The tones of a reference print, surer the more often each was read."""
    return tuple(
        Target(
            patch.spot,
            fmean(_densities(patch.tones)),
            READING_ERROR / sqrt(len(patch.tones)),
        )
        for patch in patches
    )


def wedge_cautions(wedge: Wedge, curve: Curve) -> tuple[Caution, ...]:
    """What is doubtful about one wedge by itself."""
    tones = [tone for step in wedge.steps for tone in step.tones]
    tones += [*wedge.unexposed, *wedge.full]
    found = list(toned_cautions(*tones))
    if len({tone.measure for tone in tones}) > 1:
        text = "densities of a densitometer and of Lab are mixed in one wedge"
        found.append(Caution("mixed", text, SAME_SOURCE))
    if curve.moved > 3 * READING_ERROR:
        text = f"a reading is {curve.moved:.2f} off a curve that rises with exposure; read it again"
        found.append(Caution("falling", text, MOVED_SOURCE))
    return tuple(found)


def comparison_cautions(old: Wedge, new: Wedge) -> tuple[Caution, ...]:
    """In what two wedges were not made and read alike."""
    found = list(how_cautions(old.how, new.how))
    for what, one, other in (
        ("tablet", old.tablet, new.tablet),
        ("light", old.light, new.light),
    ):
        if one != other or not one:
            state = "not the same" if one != other else "not on record"
            found.append(Caution(what, f"the {what} of the two wedges is {state}", SAME_SOURCE))
    measures = {tone.measure for wedge in (old, new) for tone in wedge.unexposed}
    if len(measures) > 1:
        text = "one wedge was read in density and one in Lab; read both with one instrument"
        found.append(Caution("mixed", text, SAME_SOURCE))
    return tuple(found)


def _densities(tones: Sequence[Tone]) -> tuple[float, ...]:
    return tuple(density_of(tone) for tone in tones)
