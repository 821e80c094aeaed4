"""Strengths as people write them: ``100 g/L``, ``10 %``, ``0.1 mol/L``."""

import re
from fractions import Fraction

from provenance.craft.numbers import plain, read_number
from provenance.craft.solutions.strength import percent_as_mg_per_l
from provenance.errors import Problem, Refused

_STRENGTH = re.compile(r"(?P<number>[-+0-9., /]*[0-9]) ?(?P<unit>[^0-9 ].*)")
_MG_PER_L = {"g/l": Fraction(1000), "mg/l": Fraction(1), "g/100 ml": percent_as_mg_per_l(1)}
_MOLAR = ("mol/l", "m")
STRONGEST_MG_PER_L = 3_000_000
"""Beyond what any substance of the shelf dissolves to."""


def parse_strength_mg_per_l(text: str, *, field: str = "") -> Fraction:
    """``100 g/L`` or ``10 %`` (grams in 100 ml of finished solution) in milligrams per litre.

    Raises Refused for anything else, and for what is not above zero or absurd.
    """
    number, unit = _split(text, field)
    per_unit = percent_as_mg_per_l(1) if unit.startswith("%") else _MG_PER_L.get(unit)
    if per_unit is None or (unit.startswith("%") and unit not in ("%", "% w/v")):
        raise _unreadable(text, field)
    strength = number * per_unit
    if not 0 < strength <= STRONGEST_MG_PER_L:
        raise Refused(
            Problem(
                what=f"“{text}” is no strength of a solution",
                field=field,
                mend="give one above zero; nothing here dissolves beyond 3 kg in a litre",
            )
        )
    return strength


def parse_molarity(text: str, *, field: str = "") -> Fraction | None:
    """``0.1 mol/L`` in moles per litre; None when the text is not a molarity.  Raises Refused."""
    number, unit = _split(text, field)
    if unit not in _MOLAR:
        return None
    if not 0 < number <= 30:
        raise Refused(
            Problem(
                what=f"“{text}” is no molarity of a solution",
                field=field,
                mend="give one above zero and up to 30 mol/L",
            )
        )
    return number


def parse_percent(text: str, *, field: str = "") -> Fraction:
    """``85``, ``85 %`` as a percentage.  Raises Refused outside 0 to 100."""
    percent = read_number(plain(text).removesuffix("%").strip(), field=field)
    if not 0 <= percent <= 100:
        raise Refused(Problem(what=f"“{text}” is not from 0 to 100 %", field=field))
    return percent


def _split(text: str, field: str) -> tuple[Fraction, str]:
    match = _STRENGTH.fullmatch(plain(text))
    if match is None:
        raise _unreadable(text, field)
    return read_number(match["number"], field=field), match["unit"].strip().lower()


def _unreadable(text: str, field: str) -> Refused:
    return Refused(
        Problem(
            what=f"“{text}” is not a strength",
            field=field,
            mend="write it as 100 g/L, 10 % (grams in 100 ml) or 0.1 mol/L",
        )
    )
