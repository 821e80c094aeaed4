"""A record's fields as a person reads them: units spelled out, empty fields left out."""

from collections.abc import Callable, Iterator
from functools import cache
from typing import Any, get_type_hints

import msgspec

from provenance.model.body import Body, Ref
from provenance.model.certificate import IssuedClaim
from provenance.model.printing import Exposure
from provenance.model.quantities import Dilution, Point, Size
from provenance.model.quantity_text import (
    Units,
    format_dilution,
    format_duration,
    format_mass,
    format_size,
    format_stops,
    format_temperature,
    format_volume,
)
from provenance.model.run import Override
from provenance.studio.exposure_fields import exposure_fields, point_text
from provenance.studio.overrides import override_text

_SUFFIXES: dict[str, Callable[[int], str]] = {
    "_ms": format_duration,
    "_tenth_c": format_temperature,
    "_hundredth_ml": format_volume,
    "_mg": format_mass,
    "milli_stop": format_stops,
    "_md": lambda value: f"{value / 1000:.2f}",
    "_ng_per_cm2": lambda value: f"{value / 1000:g} µg/cm²",
    "aperture_tenth": lambda value: f"f/{value / 10:g}",
}


def plain_fields(
    body: Body, units: Units = "metric", *, called: Callable[[int], str] = "#{}".format
) -> list[tuple[str, str]]:
    """(name, text) of every field that holds something, in the order of the form.

    `called` gives the name of another record that a field refers to.
    """
    found: list[tuple[str, str]] = []
    for field in body.__struct_fields__:
        value = getattr(body, field)
        if field in body.LINKS and value is not None:
            ids = value if isinstance(value, tuple) else (value,)
            text = ", ".join(called(one) for one in ids)
            found += [(field.replace("_", " "), text)] if text else []
        else:
            found += _said(field, value, units, called)
    return found


def _said(
    field: str, value: Any, units: Units, called: Callable[[int], str]
) -> Iterator[tuple[str, str]]:
    if value is None or value == "" or value == () or value == {}:
        return
    if isinstance(value, Exposure):
        yield from exposure_fields(value, units)
        return
    name = field
    for suffix, say in _SUFFIXES.items():
        if field.endswith(suffix) and isinstance(value, int):
            name = field.removesuffix(suffix) or "stops"
            yield name.strip("_").replace("_", " "), say(value)
            return
    yield name.replace("_", " "), _text(value, units, called)


@cache
def _refs(kind: type[msgspec.Struct]) -> frozenset[str]:
    """The fields of a part that hold the id of another record."""
    hints = get_type_hints(kind, include_extras=True)
    return frozenset(name for name, hint in hints.items() if hint == Ref)


def _text(value: Any, units: Units, called: Callable[[int], str]) -> str:
    match value:
        case bool():
            return "yes" if value else "no"
        case Size():
            return format_size(value, units)
        case Dilution():
            return format_dilution(value)
        case Point():
            return point_text(value)
        case Override():
            return override_text(value)
        case IssuedClaim():
            return f"{value.sentence} ({value.standing})"
        case msgspec.Struct():
            parts = [
                f"{name} {text}"
                for field in value.__struct_fields__
                for name, text in (
                    [(field, called(getattr(value, field)))]
                    if field in _refs(type(value))
                    else _said(field, getattr(value, field), units, called)
                )
            ]
            return ", ".join(parts)
        case tuple() if all(isinstance(one, int) for one in value):
            return ", ".join(f"#{one}" for one in value)
        case tuple():
            return "; ".join(_text(one, units, called) for one in value)
        case _:
            return str(value)
