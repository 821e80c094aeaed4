"""Quantities as text, for the screen and the page.

No figure is shown that the stored whole number does not hold: a value is
rounded half to even to its own resolution, and zeros that say nothing are left
off.  Sizes keep the millimetre (``24.0 × 30.0 cm``), as labels on prints do.
"""

from fractions import Fraction
from typing import Literal

from provenance.model.quantities import Dilution, Size

Units = Literal["metric", "inch"]

# Unit, tenths of a millimetre in one, decimals that a tenth of a millimetre
# can support, decimals always shown.
_RULERS = {"metric": ("cm", 100, 2, 1), "inch": ("in", 254, 2, 0)}
_STOP_FRACTIONS = {
    round(Fraction(text) * 1000): text for text in ("1/2", "1/3", "2/3", "1/4", "3/4", "1/6", "5/6")
}


def _digits(value: Fraction, places: int, keep: int = 0) -> str:
    """`value` rounded half to even to `places`, trailing zeros cut down to `keep` places."""
    scaled = round(value * 10**places)
    whole, rest = divmod(abs(scaled), 10**places)
    decimals = f"{rest:0{places}d}".rstrip("0").ljust(keep, "0") if rest or keep else ""
    return ("−" if scaled < 0 else "") + (f"{whole}.{decimals}" if decimals else f"{whole}")


def format_length(length_tenth_mm: int, units: Units = "metric") -> str:
    """``27.9 cm`` to the tenth of a millimetre, or ``11 in`` to the hundredth of an inch."""
    unit, per_unit, places, keep = _RULERS[units]
    return f"{_digits(Fraction(length_tenth_mm, per_unit), places, keep)} {unit}"


def format_size(size: Size, units: Units = "metric") -> str:
    """``24.0 × 30.0 cm``: height first, both sides with the same number of decimals."""
    unit, per_unit, places, keep = _RULERS[units]
    sides = [Fraction(side, per_unit) for side in (size.height_tenth_mm, size.width_tenth_mm)]
    shared = max(len(_digits(side, places, keep).partition(".")[2]) for side in sides)
    return f"{' × '.join(_digits(side, places, shared) for side in sides)} {unit}"


def format_volume(volume_hundredth_ml: int) -> str:
    """``47.62 ml``; a litre or more in litres, ``1.5 L``."""
    if abs(volume_hundredth_ml) < 100_000:
        return f"{_digits(Fraction(volume_hundredth_ml, 100), 2)} ml"
    return f"{_digits(Fraction(volume_hundredth_ml, 100_000), 5)} L"


def format_mass(mass_mg: int) -> str:
    """``38 mg``; a gram or more in grams, ``9.978 g``; a kilogram or more in kilograms."""
    if abs(mass_mg) < 1_000:
        return f"{mass_mg} mg"
    if abs(mass_mg) < 1_000_000:
        return f"{_digits(Fraction(mass_mg, 1_000), 3)} g"
    return f"{_digits(Fraction(mass_mg, 1_000_000), 6)} kg"


def format_temperature(temperature_tenth_c: int, scale: Literal["C", "F"] = "C") -> str:
    """``20.5 °C`` to the tenth, or whole ``69 °F``.

    A tenth of a degree Celsius is 0.18 °F, so a tenth of a degree Fahrenheit
    is not known.
    """
    celsius = Fraction(temperature_tenth_c, 10)
    if scale == "C":
        return f"{_digits(celsius, 1)} °C"
    return f"{_digits(celsius * 9 / 5 + 32, 0)} °F"


def format_duration(duration_ms: int) -> str:
    """``2 min 30 s``, ``1 h 5 min``, ``10.5 s``."""
    minutes, ms = divmod(duration_ms, 60_000)
    hours, minutes = divmod(minutes, 60)
    parts = [f"{hours} h"] if hours else []
    parts += [f"{minutes} min"] if minutes else []
    if ms or not parts:
        parts.append(f"{_digits(Fraction(ms, 1000), 3)} s")
    return " ".join(parts)


def format_clock(duration_ms: int) -> str:
    """``2:30``, ``0:10.5``, ``1:02:30``: as a darkroom clock shows it."""
    minutes, ms = divmod(duration_ms, 60_000)
    hours, minutes = divmod(minutes, 60)
    whole, point, rest = _digits(Fraction(ms, 1000), 3).partition(".")
    seconds = f"{whole:0>2}{point}{rest}"
    return f"{hours}:{minutes:02d}:{seconds}" if hours else f"{minutes}:{seconds}"


def format_dilution(dilution: Dilution) -> str:
    """``1+9``, ``1+1.5``, ``1+2+100``: always parts, whatever was typed."""
    return "+".join(_digits(Fraction(part, 100), 2) for part in dilution.parts_hundredths)


def format_stops(exposure_milli_stop: int) -> str:
    """``+1/3 stop``, ``−1 1/2 stops``, ``+0.4 stop``; ``no change`` for nought.

    Thousandths of a stop that stand for a half, third, quarter or sixth are
    written as that fraction.
    """
    if exposure_milli_stop == 0:
        return "no change"
    sign = "−" if exposure_milli_stop < 0 else "+"
    whole, rest = divmod(abs(exposure_milli_stop), 1000)
    noun = "stop" if abs(exposure_milli_stop) <= 1000 else "stops"
    if rest in _STOP_FRACTIONS:
        return f"{sign}{f'{whole} ' if whole else ''}{_STOP_FRACTIONS[rest]} {noun}"
    return f"{sign}{_digits(Fraction(abs(exposure_milli_stop), 1000), 3)} {noun}"
