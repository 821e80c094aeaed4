"""What is left in a print per area, in the units laboratories report.

Residual thiosulfate and silver are masses spread over a sheet.  A figure means
little without its unit and without the species it is reckoned as, so both are
always named.
"""

import re
from dataclasses import dataclass
from typing import Literal, get_args

from provenance.craft.atomic import molar_mass
from provenance.craft.numbers import plain, read_number
from provenance.model.proof import ThiosulfateAs
from provenance.model.quantities import Size

ArealUnit = Literal["g/m²", "µg/cm²", "mg/in²", "mg/ft²"]

_SQUARE_INCH_M2 = 0.0254**2
_G_PER_M2: dict[ArealUnit, float] = {
    "g/m²": 1.0,
    "µg/cm²": 0.01,
    "mg/in²": 1e-3 / _SQUARE_INCH_M2,
    "mg/ft²": 1e-3 / (144 * _SQUARE_INCH_M2),
}
_FORMULAS: dict[ThiosulfateAs, str] = {
    "ion": "S2O3",
    "sodium": "Na2S2O3",
    "ammonium": "(NH4)2S2O3",
    "crystal": "Na2S2O3·5H2O",
}

AREAL_UNITS: dict[str, ArealUnit] = {unit: unit for unit in _G_PER_M2}
THIOSULFATES: dict[str, ThiosulfateAs] = {species: species for species in get_args(ThiosulfateAs)}


@dataclass(frozen=True)
class ArealMass:
    """A mass per area as it was written."""

    value: float
    unit: ArealUnit


def read_areal_unit(text: str) -> ArealUnit | None:
    """``µg/cm²``, also written ug/cm2; None when it is no unit of mass per area."""
    written = plain(text).replace("\u03bc", "\u00b5").replace("ug/", "\u00b5g/")
    return AREAL_UNITS.get(re.sub(r"(?<=[mnt])2$", "²", written))


def read_areal_mass(text: str, *, field: str = "") -> ArealMass | None:
    """``0.8 µg/cm²``; None when it is no mass per area.

    Raises Refused when what stands before the unit is no number.
    """
    number, _, unit_text = plain(text).partition(" ")
    unit = read_areal_unit(unit_text)
    return None if unit is None else ArealMass(float(read_number(number, field=field)), unit)


def area_m2(size: Size) -> float:
    """The area of one face, in square metres."""
    return size.height_tenth_mm * size.width_tenth_mm / 1e8


def convert_areal_mass(value: float, unit: ArealUnit, to: ArealUnit) -> float:
    """A mass per area in another unit."""
    return value * _G_PER_M2[unit] / _G_PER_M2[to]


def areal_mass_g_per_m2(mass_mg: float, size: Size) -> float:
    """A mass on one face of a sheet, in grams per square metre."""
    return mass_mg / 1000 / area_m2(size)


def thiosulfate_as(mass: float, given: ThiosulfateAs, wanted: ThiosulfateAs) -> float:
    """The same amount of thiosulfate as the mass of another species, in the unit of `mass`."""
    return mass * molar_mass(_FORMULAS[wanted]) / molar_mass(_FORMULAS[given])
