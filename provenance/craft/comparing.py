"""A new print against the reference, spot by spot, and whether the two were read alike."""

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import fmean

from provenance.craft.caution import Caution
from provenance.craft.colour import (
    Coordinates,
    delta_e00,
    density_of,
    lightness_of_density,
    toned_cautions,
)
from provenance.errors import Problem, Refused
from provenance.model.readings import How, Patch, Tone
from provenance.model.sources import Sourced

MIXED_SOURCE = Sourced("C", "visual density and Lab are reckoned in different light")
ALIKE_SOURCE = Sourced("P", "readings compare when they are taken alike")
TOLERANCE_SOURCE = Sourced("P", "densities that are about one ΔE00 of a neutral")


@dataclass(frozen=True)
class Tolerances:
    """How far a spot may be off.  Between the two lightnesses the density goes in proportion."""

    light_from: float = 50.0
    light_density: float = 0.02
    dark_to: float = 20.0
    dark_density: float = 0.05
    delta_e00: float = 1.0
    source: Sourced = TOLERANCE_SOURCE

    def density_at(self, density: float) -> float:
        """The tolerance for a spot of this density."""
        lightness = lightness_of_density(density)
        share = (self.light_from - lightness) / (self.light_from - self.dark_to)
        share = min(1.0, max(0.0, share))
        return self.light_density + share * (self.dark_density - self.light_density)


@dataclass(frozen=True)
class SpotMatch:
    """One spot: how far the new print is from the reference, and how far it may be.

    `delta_e00` is None unless both were read in Lab; colour made of a density
    would say the same twice.
    """

    spot: str
    reference: float
    delta_density: float
    delta_e00: float | None
    tolerance: Tolerances
    comparable: bool
    """Whether both were read as densities, or both as Lab."""

    @property
    def matches(self) -> bool:
        """Whether every difference is within its tolerance; the limit itself is within.

        Never so for readings that do not compare.
        """
        if not self.comparable:
            return False
        density_off = abs(self.delta_density) - self.tolerance.density_at(self.reference)
        colour_off = (self.delta_e00 or 0.0) - self.tolerance.delta_e00
        return max(density_off, colour_off) <= 1e-9


@dataclass(frozen=True)
class PrintMatch:
    """All spots, with what was not read on either print."""

    spots: tuple[SpotMatch, ...]
    missing: tuple[str, ...]
    cautions: tuple[Caution, ...]

    @property
    def matches(self) -> bool:
        """Whether every spot of the reference was read again and matches."""
        return not self.missing and all(spot.matches for spot in self.spots)


def match_prints(
    reference: Sequence[Patch],
    new: Sequence[Patch],
    hows: tuple[How, How],
    tolerance: Tolerances | None = None,
) -> PrintMatch:
    """Compare readings by the names of their spots, in the order of the reference.

    Raises Refused when no spot was read on both.
    """
    read = {patch.spot: patch.tones for patch in new}
    spots = tuple(
        _one_spot(patch, read[patch.spot], tolerance or Tolerances())
        for patch in reference
        if patch.spot in read
    )
    if not spots:
        raise Refused(
            Problem(
                what="no spot was read on both prints",
                field="patches",
                mend="read the new print at the spots of the reference, under the same names",
            )
        )
    tones = [tone for patch in (*reference, *new) for tone in patch.tones]
    return PrintMatch(
        spots,
        tuple(patch.spot for patch in reference if patch.spot not in read),
        (*mixing_cautions(spots), *how_cautions(*hows), *toned_cautions(*tones)),
    )


def mixing_cautions(spots: Sequence[SpotMatch]) -> tuple[Caution, ...]:
    """Whether densities that were read stand against densities that were made of Lab."""
    mixed = [spot.spot for spot in spots if not spot.comparable]
    if not mixed:
        return ()
    text = f"a densitometer and Lab are mixed at {', '.join(mixed)}; read both with one instrument"
    return (Caution("mixed", text, MIXED_SOURCE),)


def how_cautions(one: How, other: How) -> tuple[Caution, ...]:
    """In what the two sets of readings were not taken alike, or are not known to have been."""
    differ = [name for name in How.__struct_fields__ if getattr(one, name) != getattr(other, name)]
    unknown = [
        name
        for name in How.__struct_fields__
        if name not in differ and getattr(one, name) in ("", "not known")
    ]
    told = (("unlike", "differ in", differ), ("unknown", "do not say", unknown))
    return tuple(
        Caution(id_, f"the readings {verb} {', '.join(names)}", ALIKE_SOURCE)
        for id_, verb, names in told
        if names
    )


def _one_spot(patch: Patch, again: Sequence[Tone], tolerance: Tolerances) -> SpotMatch:
    reference = _mean_density(patch.tones)
    before, after = _mean_lab(patch.tones), _mean_lab(again)
    difference = delta_e00(before, after) if before and after else None
    comparable = len({tone.measure for tone in (*patch.tones, *again)}) == 1
    delta = _mean_density(again) - reference
    return SpotMatch(patch.spot, reference, delta, difference, tolerance, comparable)


def _mean_density(tones: Sequence[Tone]) -> float:
    return fmean(density_of(tone) for tone in tones)


def _mean_lab(tones: Sequence[Tone]) -> Coordinates | None:
    labs = [tone.lab for tone in tones if tone.lab is not None]
    if len(labs) < len(tones):
        return None
    return (
        fmean(lab.lightness_hundredth for lab in labs) / 100,
        fmean(lab.a_hundredth for lab in labs) / 100,
        fmean(lab.b_hundredth for lab in labs) / 100,
    )
