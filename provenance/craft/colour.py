"""Lightness, density and colour difference.

The formulas between L* and density hold for neutrals.  A visual density is
reckoned in the light of a lamp, Lab in daylight, so on a sepia-like tone the
density made of Lab reads about 0.02 lower than a densitometer's.
"""

from math import hypot, log10

from provenance.craft.caution import Caution
from provenance.errors import Problem, Refused
from provenance.model.readings import Lab, Tone
from provenance.model.sources import Sourced

_LINEAR_BELOW = 8.0
_KAPPA = 24389 / 27
"""CIE 15: below L* 8 the lightness is proportional to the luminance."""

TONED_FROM = 5.0
"""The chroma from which a tone is no longer taken for neutral."""
TONED_SOURCE = Sourced("P", "no published Lab for toned prints; the studio's own proof is the aim")


def luminance_percent(lightness: float) -> float:
    """Y of a neutral with this L*, in percent of a perfect white."""
    if not 0 <= lightness <= 105:
        raise Refused(
            Problem(
                what=f"there is no L* of {lightness:g}",
                field="lightness",
                mend="give the lightness from 0 to 100",
            )
        )
    if lightness > _LINEAR_BELOW:
        return float(100 * ((lightness + 16) / 116) ** 3)
    return 100 * lightness / _KAPPA


def lightness(luminance: float) -> float:
    """L* of a neutral with this Y in percent."""
    share = luminance / 100
    if share * _KAPPA > _LINEAR_BELOW:
        return float(116 * share ** (1 / 3) - 16)
    return share * _KAPPA


def density_of_lightness(neutral_lightness: float) -> float:
    """The density of a neutral with this L*.  Raises Refused for L* 0, which has none."""
    luminance = luminance_percent(neutral_lightness)
    if luminance == 0:
        raise Refused(
            Problem(
                what="L* 0 reflects nothing and has no density",
                field="lightness",
                mend="give the lightness with two decimals",
            )
        )
    return -log10(luminance / 100)


def lightness_of_density(density: float) -> float:
    """L* of a neutral with this density."""
    return lightness(100 * 10**-density)


def density_of(tone: Tone) -> float:
    """The density of a reading: as it was read, or for a neutral from its lightness."""
    if tone.lab is not None:
        return density_of_lightness(tone.lab.lightness_hundredth / 100)
    return (tone.density_md or 0) / 1000


Coordinates = tuple[float, float, float]
"""L*, a*, b*."""


def delta_e00(one: Coordinates, other: Coordinates) -> float:
    """The colour difference CIEDE2000 between two Lab colours of the same white."""
    from coloraide import Color  # a tenth of a second, so only when it is used

    # Unless it is told the space, the library first converts to another white.
    return float(Color("lab", one).delta_e(Color("lab", other), method="2000", space="lab"))


def chroma(of: Lab) -> float:
    """How far a colour is from neutral."""
    return hypot(of.a_hundredth, of.b_hundredth) / 100


def toned_cautions(*tones: Tone) -> tuple[Caution, ...]:
    """Whether any density would be made of a colour that is not neutral."""
    most = max((chroma(tone.lab) for tone in tones if tone.lab is not None), default=0.0)
    if most < TONED_FROM:
        return ()
    text = f"with a chroma of {most:.1f} the tone is not neutral; its density is about 0.02 low"
    return (Caution("toned", text, TONED_SOURCE),)
