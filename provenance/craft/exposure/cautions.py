"""Where the arithmetic of exposure stops being true: cautions as values, with their worth."""

from typing import Literal

from provenance.craft.caution import Caution
from provenance.craft.exposure.checks import above_zero
from provenance.craft.exposure.lens import LensStop
from provenance.model.sources import Sourced

Light = Literal["diffuse", "condenser", ""]
"""The head of the enlarger; empty when it is not on record."""

TESTED_S = (8.0, 10.0)
TESTED_SOURCE = Sourced("S2", "makers test paper near 8 to 10 s")
FOUR_FOLD = 4.0
FOUR_FOLD_SOURCE = Sourced("P", "over a four-fold change reciprocity can no longer be left out")
CONDENSER_SOURCE = Sourced("P", "the law for magnification is one of diffuse light")


def light_cautions(light: Light, from_m: float, to_m: float) -> tuple[Caution, ...]:
    """Whether the law for magnification may be trusted under this head."""
    if from_m == to_m or light == "diffuse":
        return ()
    head = "condenser light" if light else "a head that is not on record"
    text = f"under {head} the time for another magnification is a first estimate; make a strip"
    return (Caution("condenser", text, CONDENSER_SOURCE),)


def time_cautions(new_s: float, old_s: float | None = None) -> tuple[Caution, ...]:
    """Whether paper still answers to the product of light and time.

    With an old time, a change of more than four-fold is told; and always a time
    more than four-fold off those at which makers test.
    """
    above_zero(new_s, "an exposure")
    found = []
    if old_s is not None:
        ratio = max(new_s, old_s) / min(new_s, above_zero(old_s, "an exposure"))
        if ratio > FOUR_FOLD:
            text = f"the time changes {ratio:.3g}-fold; change the aperture too, or make a strip"
            found.append(Caution("four-fold", text, FOUR_FOLD_SOURCE))
    least, most = TESTED_S[0] / FOUR_FOLD, TESTED_S[1] * FOUR_FOLD
    if not least <= new_s <= most:
        side = "shorter" if new_s < least else "longer"
        text = f"{new_s:.3g} s is far {side} than the times at which paper is tested"
        found.append(Caution(side, text, TESTED_SOURCE))
    return tuple(found)


def lens_cautions(*stops: LensStop) -> tuple[Caution, ...]:
    """F-numbers that may stand for more than one opening, or for none of a scale."""
    source = Sourced("C", "openings of a scale are powers of two")
    found = []
    for stop in stops:
        if stop.others:
            readings = " or ".join(f"{one:.4g}" for one in (stop.exact, *stop.others))
            text = f"f/{stop.marked:g} is {readings}, by the scale of the lens; the first is taken"
            found.append(Caution("two scales", text, source))
        elif not stop.on_scale:
            text = f"f/{stop.marked:g} is on no scale of stops and is taken as it is written"
            found.append(Caution("no scale", text, source))
    return tuple(found)
