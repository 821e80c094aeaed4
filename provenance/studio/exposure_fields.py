"""An exposure plan as a person reads it: a name and a text for everything it holds."""

from collections.abc import Iterator

from provenance.model.printing import Burn, Crop, Exposure
from provenance.model.quantities import Point
from provenance.model.quantity_text import (
    Units,
    format_duration,
    format_length,
    format_size,
    format_stops,
)


def exposure_fields(exposure: Exposure, units: Units = "metric") -> Iterator[tuple[str, str]]:
    """What is on record of `exposure`, from the light to the tray."""
    if exposure.base_ms is not None:
        yield "base", format_duration(exposure.base_ms)
    if exposure.grade:
        yield "grade", exposure.grade
    for part in exposure.parts:
        yield f"at {part.grade}", format_duration(part.time_ms)
    if exposure.preflash_ms is not None:
        yield "pre-flash", format_duration(exposure.preflash_ms)
    for burn in exposure.burns:
        yield ("burn" if burn.milli_stop > 0 else "dodge"), burn_text(burn)
    if exposure.mask:
        yield "mask", exposure.mask
    if exposure.aperture_tenth is not None:
        yield "aperture", f"f/{exposure.aperture_tenth / 10:g}"
    for name in ("lens", "enlarger", "head", "carrier"):
        if text := getattr(exposure, name):
            yield name, text
    if exposure.magnification_thousandth is not None:
        said = (f"{exposure.magnification_thousandth / 1000:g}", exposure.magnification_from)
        yield "magnification", ", ".join(filter(None, said))
    if exposure.crop is not None:
        yield "crop", crop_text(exposure.crop, units)
    if exposure.emergence_ms is not None:
        yield "first tone after", format_duration(exposure.emergence_ms)


def burn_text(burn: Burn) -> str:
    """``sky: +1/3 stop at grade 1; card from above; 30 % across, 12 % down``."""
    grade = f" at grade {burn.grade}" if burn.grade else ""
    more = (burn.note, point_text(burn.at) if burn.at is not None else "")
    return "; ".join(filter(None, (f"{burn.area}: {format_stops(burn.milli_stop)}{grade}", *more)))


def crop_text(crop: Crop, units: Units = "metric") -> str:
    """``5.7 × 7.1 cm of the negative, 0.2 cm from its left edge and 0.1 cm from its top``."""
    left, top = (format_length(one, units) for one in (crop.left_tenth_mm, crop.top_tenth_mm))
    return f"{format_size(crop.size, units)} of the negative, {left} from the left, {top} down"


def point_text(at: Point) -> str:
    """``30 % across, 12 % down``."""
    return f"{at.across_permille / 10:g} % across, {at.down_permille / 10:g} % down"
