"""The exposure of a printing on a day sheet."""

import re
from fractions import Fraction

from provenance.craft.numbers import read_number
from provenance.craft.units import (
    parse_duration_ms,
    parse_length_tenth_mm,
    parse_size,
    parse_stops,
)
from provenance.errors import Problem, Refused
from provenance.model.printing import Burn, Crop, Exposure, GradeExposure
from provenance.studio.daysheet.context import Item
from provenance.studio.daysheet.forms import CropForm, ExposureForm
from provenance.studio.daysheet.pointed import read_point

_MOST_ENLARGED = 100_000


def read_exposure(item: Item, form: ExposureForm | None) -> Exposure | None:
    """The exposure as a value; what is wrong with it is noted, each at its line."""
    if form is None:
        return None
    parts: list[GradeExposure] = []
    for place, part in enumerate(form.parts):
        time = item.read(f"exposure.parts.{place}.time", parse_duration_ms, part.time)
        if time is not None:
            parts.append(GradeExposure(grade=part.grade, time_ms=time))
    burns: list[Burn] = []
    for place, burn in enumerate(form.burns):
        stops = item.read(f"exposure.burns.{place}.stops", parse_stops, burn.stops)
        at = item.read(f"exposure.burns.{place}.at", read_point, burn.at)
        if stops is not None:
            burns.append(
                Burn(area=burn.area, milli_stop=stops, grade=burn.grade, note=burn.note, at=at)
            )
    enlarged = item.read("exposure.magnification", magnification_thousandth, form.magnification)
    return Exposure(
        base_ms=item.read("exposure.base", parse_duration_ms, form.base),
        grade=form.grade,
        parts=tuple(parts),
        preflash_ms=item.read("exposure.preflash", parse_duration_ms, form.preflash),
        mask=form.mask,
        aperture_tenth=item.read("exposure.aperture", f_number_tenth, form.aperture),
        enlarger=form.enlarger,
        head=form.head,
        carrier=form.carrier,
        lens=form.lens,
        magnification_thousandth=enlarged,
        magnification_from=form.magnification_from if enlarged is not None else "",
        crop=_crop(item, form.crop),
        burns=tuple(burns),
        emergence_ms=item.read("exposure.emergence", parse_duration_ms, form.emergence),
    )


def _crop(item: Item, form: CropForm | None) -> Crop | None:
    if form is None:
        return None
    left = item.read("exposure.crop.left", from_edge_tenth_mm, form.left)
    top = item.read("exposure.crop.top", from_edge_tenth_mm, form.top)
    size = item.read("exposure.crop.size", parse_size, form.size)
    if left is None or top is None or size is None:
        return None
    return Crop(left_tenth_mm=left, top_tenth_mm=top, size=size)


def from_edge_tenth_mm(text: str, *, field: str = "") -> int:
    """How far from an edge of the negative, ``1.5 mm``; ``0`` is the edge.  Raises Refused."""
    if re.fullmatch(r"0+([.,]0+)?\s*[a-z]*", text.strip().lower()):
        return 0
    return parse_length_tenth_mm(text, field=field)


def magnification_thousandth(text: str, *, field: str = "") -> int:
    """A magnification in thousandths, as ``4.21`` or ``4.21x``.  Raises Refused."""
    plain = text.strip().lower().removesuffix("x").removesuffix("×")
    value = read_number(plain.strip(), field=field) * 1000
    if not 0 < value <= _MOST_ENLARGED:
        raise Refused(
            Problem(
                what=f"“{text}” is no magnification of an enlarger",
                field=field,
                mend="give how many times larger a length is on the paper, as 4.21",
            )
        )
    return round(value)


def f_number_tenth(text: str, *, field: str = "") -> int:
    """An f-number as it is engraved: ``f/5.6`` or ``5.6``, in tenths.  Raises Refused."""
    number: Fraction = read_number(text.lower().removeprefix("f/").strip(), field=field) * 10
    if not 5 <= number <= 1280 or number.denominator != 1:
        raise Refused(
            Problem(what=f"“{text}” is not an f-number", field=field, mend="write it as f/8")
        )
    return int(number)
