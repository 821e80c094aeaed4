"""Quantities as people type them, read into the whole numbers that are kept.

Every function takes `field`, the name under which a refusal is reported, and
raises Refused when the text is not understood, could mean two things, or gives
an absurd value.  Conversion is exact; only the last step rounds, half to even,
to the unit kept on disk.  The library of units is loaded at the first
conversion and not before.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import cache
from itertools import pairwise
from typing import Any, NoReturn

from provenance.craft.numbers import plain, read_number
from provenance.craft.unit_definitions import DEFINITIONS
from provenance.errors import Problem, Refused
from provenance.model.quantities import LONGEST_TENTH_MM, Size
from provenance.model.quantity_text import (
    format_duration,
    format_length,
    format_mass,
    format_temperature,
    format_volume,
)

_QUANTITY = re.compile(r"(?P<number>[-+0-9., /]*[0-9]) ?(?P<unit>[^0-9]*)")
_TOKEN = re.compile(r"(?P<number>[0-9][0-9., /]*?) ?(?P<unit>[a-z]+)\.? ?")
_CLOCK = re.compile(
    r"(?:(?P<h>[0-9]{1,4}):)?(?P<min>[0-9]{1,4}):(?P<s>[0-5][0-9](?:\.[0-9]{1,3})?)"
)
_TEMPERATURE = re.compile(
    r"(?P<number>.*?) ?(?:[°º] ?|deg ?|degrees ?)?(?P<scale>[cf])", re.IGNORECASE
)
_BY = re.compile(r" ?(?:x|×|by) ?", re.IGNORECASE)

HOTTEST_TENTH_C = 1000
LONGEST_DURATION_MS = 168 * 3_600_000
LARGEST_VOLUME_HUNDREDTH_ML = 100_000_000
LARGEST_MASS_MG = 100_000_000
LARGEST_MILLI_STOP = 10_000


@dataclass(frozen=True)
class _Kind:
    """What a quantity is called, its largest value, and how it is kept and shown."""

    noun: str
    unit: str
    kept_per_unit: int
    largest: int
    shown: Callable[[int], str]
    example: str
    two_readings: dict[str, tuple[str, str]]


_OUNCE = ("US fl oz", "imperial fl oz")
_PINT, _QUART, _GALLON = (
    (f"US {measure}", f"imperial {measure}") for measure in ("pint", "quart", "gallon")
)
_LENGTH = _Kind("length", "mm", 10, LONGEST_TENTH_MM, format_length, "27.9 cm or 11 in", {})
_VOLUME = _Kind(
    "volume",
    "ml",
    100,
    LARGEST_VOLUME_HUNDREDTH_ML,
    format_volume,
    "500 ml or 32 US fl oz",
    {
        **dict.fromkeys(("oz", "ounce", "ounces", "fl_oz", "floz", "fluid_ounce"), _OUNCE),
        **dict.fromkeys(("fluid_ounces",), _OUNCE),
        **dict.fromkeys(("pint", "pints", "pt"), _PINT),
        **dict.fromkeys(("quart", "quarts", "qt"), _QUART),
        **dict.fromkeys(("gallon", "gallons", "gal"), _GALLON),
    },
)
_MASS = _Kind(
    "mass", "mg", 1, LARGEST_MASS_MG, format_mass, "7.5 g or 300 grains", {"gr": ("grain", "gram")}
)
_TIME = _Kind(
    "duration", "ms", 1, LONGEST_DURATION_MS, format_duration, "2 min 30 s, 2:30 or 45 s", {}
)


def parse_length_tenth_mm(text: str, *, field: str = "") -> int:
    """``11 in``, ``9 1/2 in``, ``27.9 cm`` in tenths of a millimetre; at most 10 m."""
    return _bounded(_measured(text, text, _LENGTH, field), text, _LENGTH, field)


def parse_size(text: str, *, field: str = "") -> Size:
    """``11x14 in``, ``30.5 × 40.6 cm``: height first, the unit once at the end or on both."""
    sides = _BY.split(plain(text))
    if len(sides) != 2 or not all(sides):
        _refuse(f"“{text}” is not a height by a width", "write it as 24 × 30 cm", field)
    height, width = (_split(side, text, _LENGTH, field) for side in sides)
    if not width[1]:
        what = f"“{text}” does not give the unit at its end"
        _refuse(what, "write the unit once at the end or on both: 24 × 30 cm, 11 x 14 in", field)
    lengths = [
        _converted(number, unit or width[1], text, _LENGTH, field)
        for number, unit in (height, width)
    ]
    height_tenth_mm, width_tenth_mm = (_bounded(side, text, _LENGTH, field) for side in lengths)
    return Size(height_tenth_mm=height_tenth_mm, width_tenth_mm=width_tenth_mm)


def parse_volume_hundredth_ml(text: str, *, field: str = "") -> int:
    """``500 ml``, ``1 L``, ``32 US fl oz`` in hundredths of a millilitre; at most 1000 L.

    A bare fluid ounce, pint, quart or gallon is refused with both readings.
    """
    return _bounded(_measured(text, text, _VOLUME, field), text, _VOLUME, field)


def parse_mass_mg(text: str, *, field: str = "") -> int:
    """``7.5 g``, ``300 grains``, ``2 oz`` (avoirdupois) in milligrams; at most 100 kg."""
    return _bounded(_measured(text, text, _MASS, field), text, _MASS, field)


def parse_duration_ms(text: str, *, field: str = "") -> int:
    """``2 min 30 s``, ``2:30``, ``1:02:30``, ``1 h`` in milliseconds; at most a week.

    A clock of two figures is minutes and seconds.  A bare number is refused.
    """
    written = plain(text).lower()
    if clock := _CLOCK.fullmatch(written):
        if clock["h"] and int(clock["min"]) > 59:
            _refuse(
                f"“{text}” has more than 59 minutes in its hour",
                f"write it as {_TIME.example}",
                field,
            )
        minutes = int(clock["h"] or 0) * 60 + int(clock["min"])
        return _bounded((minutes * 60 + Fraction(clock["s"])) * 1000, text, _TIME, field)
    if written.replace(".", "").isdecimal():
        what = f"“{text}” has no unit: {written} s or {written} min"
        _refuse(what, f"write the unit, as {_TIME.example}", field)
    tokens = list(_TOKEN.finditer(written))
    if not tokens or "".join(token[0] for token in tokens) != written:
        _refuse(f"“{text}” is not a duration", f"write it as {_TIME.example}", field)
    units = [_unit_ms(token["unit"], text, field) for token in tokens]
    if any(later >= earlier for earlier, later in pairwise(units)):
        what = f"“{text}” does not go from the longer unit to the shorter"
        _refuse(what, f"write it as {_TIME.example}", field)
    total = sum(
        read_number(token["number"], field=field) * unit
        for token, unit in zip(tokens, units, strict=True)
    )
    return _bounded(Fraction(total), text, _TIME, field)


def parse_temperature_tenth_c(text: str, *, field: str = "") -> int:
    """``20 C``, ``68 F``, ``20.5 °C`` in tenths of a degree Celsius; above 0 and up to 100 °C."""
    match = _TEMPERATURE.fullmatch(plain(text))
    if match is None:
        what = f"“{text}” is not a temperature in °C or °F"
        _refuse(what, "write the scale: 68 °F is 20 °C", field)
    degrees = read_number(match["number"], field=field)
    celsius = degrees if match["scale"].upper() == "C" else (degrees - 32) * 5 / 9
    tenths = round(celsius * 10)
    if not 0 < tenths <= HOTTEST_TENTH_C:
        what = f"“{text}” is {format_temperature(tenths)}, which no bath has"
        _refuse(what, "give a temperature above 0 and up to 100 °C", field)
    return tenths


def parse_stops(text: str, *, field: str = "") -> int:
    """``+1/2``, ``-1/3``, ``0.25``, ``1 1/3 stops`` in thousandths of a stop; within 10 stops.

    A third is kept as 333 thousandths: the exposure it gives is 0.02 % short,
    less than any timer resolves.
    """
    number = re.sub(r" ?stops?$", "", plain(text))
    thousandths = round(read_number(number, field=field) * 1000)
    if abs(thousandths) > LARGEST_MILLI_STOP:
        what = f"“{text}” is more than a thousandfold change of exposure"
        _refuse(what, "give at most 10 stops either way", field)
    return thousandths


def convert_quantity(text: str, to: str, *, field: str = "") -> Fraction:
    """A length, mass, volume, duration or temperature in the unit `to`, exactly.

    Raises Refused when either unit could mean two things or is not known, and
    when the two do not measure the same thing.
    """
    celsius_or_f = _TEMPERATURE.fullmatch(plain(f"1 {to}"))
    if celsius_or_f and (match := _TEMPERATURE.fullmatch(plain(text))):
        degrees = read_number(match["number"], field=field)
        celsius = degrees if match["scale"].upper() == "C" else (degrees - 32) * 5 / 9
        return celsius if celsius_or_f["scale"].upper() == "C" else celsius * 9 / 5 + 32
    unit = _unit_name(plain(to))
    for kind in (_LENGTH, _MASS, _VOLUME, _TIME):
        number, given = _split(text, text, kind, field)
        if not (_known(given, kind) and _known(unit, kind)):
            continue
        if unit in kind.two_readings:
            readings = " or ".join(kind.two_readings[unit])
            _refuse(f"“{to}” can be {readings}", "write which of the two is meant", field)
        kept = _converted(number, given, text, kind, field)
        return kept / kind.kept_per_unit / _factor(unit, kind.unit)
    raise Refused(
        Problem(
            what=f"“{text}” cannot be given in “{to}”",
            field=field,
            mend="give a length, mass, volume, duration or temperature, and a unit of the same",
        )
    )


def _known(unit: str, kind: _Kind) -> bool:
    if unit in kind.two_readings:
        return True
    try:
        _factor(unit, kind.unit)
    except _unknown_units():
        return False
    return True


def _measured(text: str, whole: str, kind: _Kind, field: str) -> Fraction:
    number, unit = _split(text, whole, kind, field)
    return _converted(number, unit, whole, kind, field)


def _split(text: str, whole: str, kind: _Kind, field: str) -> tuple[Fraction, str]:
    """The number and the unit's name; the name is empty when none is written."""
    match = _QUANTITY.fullmatch(plain(text))
    if match is None:
        _refuse(f"“{whole}” is not a {kind.noun}", f"write it as {kind.example}", field)
    return read_number(match["number"], field=field), _unit_name(match["unit"])


def _unit_name(written: str) -> str:
    marks = {'"': "in", "″": "in", "”": "in", "'": "ft", "′": "ft"}
    name = marks.get(written, written).lower().replace(".", "").replace(" ", "_").strip("_")
    return re.sub(r"^(?:imp|uk)_", "imperial_", re.sub(r"^u_s_", "us_", name))


def _converted(number: Fraction, unit: str, whole: str, kind: _Kind, field: str) -> Fraction:
    """`number` of `unit` in the whole units that are kept, not yet rounded."""
    if not unit:
        _refuse(f"“{whole}” has no unit", f"write it as {kind.example}", field)
    if unit in kind.two_readings:
        readings = [
            (name, round(number * _factor(_unit_name(name), kind.unit) * kind.kept_per_unit))
            for name in kind.two_readings[unit]
        ]
        said = " or ".join(f"{kind.shown(value)} ({name})" for name, value in readings)
        _refuse(f"“{whole}” can be read as {said}", "write which of the two is meant", field)
    try:
        return number * _factor(unit, kind.unit) * kind.kept_per_unit
    except _unknown_units() as error:
        raise Refused(
            Problem(
                what=f"“{whole}” is not a {kind.noun} in a unit known here",
                field=field,
                mend=f"write it as {kind.example}",
            )
        ) from error


def _unit_ms(unit: str, whole: str, field: str) -> Fraction:
    return _converted(Fraction(1), _unit_name(unit), whole, _TIME, field)


def _bounded(value: Fraction, text: str, kind: _Kind, field: str) -> int:
    kept = round(value)
    if kept < 1:
        what = f"“{text}” is less than the smallest {kind.noun} kept, {kind.shown(1)}"
        _refuse(what, f"give a {kind.noun} above zero", field)
    if kept > kind.largest:
        what = f"“{text}” is more than {kind.shown(kind.largest)}, too much for a darkroom"
        _refuse(what, f"check the figure and the unit; write it as {kind.example}", field)
    return kept


def _refuse(what: str, mend: str, field: str) -> NoReturn:
    raise Refused(Problem(what=what, field=field, mend=mend))


@cache
def _registry() -> Any:
    from pint import UnitRegistry  # a fifth of a second, so only when it is used

    return UnitRegistry(DEFINITIONS.splitlines(), non_int_type=Decimal, on_redefinition="raise")


def _unknown_units() -> tuple[type[Exception], ...]:
    from pint.errors import DimensionalityError, UndefinedUnitError

    return DimensionalityError, UndefinedUnitError


@cache
def _factor(unit: str, to: str) -> Fraction:
    """How many `to` make one `unit`, exactly."""
    undefined = _unknown_units()[1]
    # the library takes minutes over a long name, and reads "nan" as a number
    if not re.fullmatch(r"[a-z_]{1,40}", unit):
        raise undefined(unit)
    try:
        return Fraction(_registry().convert(Decimal(1), unit, to))
    except ValueError as error:
        raise undefined(unit) from error
