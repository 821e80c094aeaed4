"""Dilutions read, measured out and mixed to a strength."""

import unicodedata
from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from typing import Literal

from provenance.craft.numbers import plain, read_number
from provenance.errors import Problem, Refused
from provenance.model.quantities import Dilution
from provenance.model.quantity_text import format_dilution

ColonMeans = Literal["parts", "total"]
"""How a studio reads ``1:9``: as the parts 1+9, or as one part in a total of nine, 1+8."""

Strength = int | Fraction | Decimal
"""A percentage, exact."""


def parse_dilution(text: str, *, colon_means: ColonMeans | None, field: str = "") -> Dilution:
    """``1+9``, ``1+1.5``, ``1+2+100``; ``1:9`` only once the studio has chosen a reading.

    What was typed is kept beside the parts.  Raises Refused for a colon without
    a chosen reading (both are spelled out) and for anything else than parts.
    """
    written = plain(text)
    if "+" in written and ":" not in written:
        return _of_parts(written.split("+"), text, field)
    if ":" in written and "+" not in written:
        if colon_means is None:
            readings = " or as ".join(_reading_in_words(written, text, field))
            raise Refused(
                Problem(
                    what=f"“{text}” can be read as {readings}",
                    field=field,
                    mend="write it with a plus, or choose the studio's reading of a colon",
                )
            )
        return _COLON[colon_means](written, text, field)
    raise Refused(
        Problem(
            what=f"“{text}” is not a dilution",
            field=field,
            mend="write the parts with a plus, stock first: 1+9 (10 % of a stock is 10+90)",
        )
    )


def _colon_as_parts(written: str, text: str, field: str) -> Dilution:
    return _of_parts(written.split(":"), text, field)


def _colon_as_total(written: str, text: str, field: str) -> Dilution:
    """``1:9`` as one part in nine: the water is what is left of the total."""
    *stocks, total = (read_number(part, field=field) for part in written.split(":"))
    if len(stocks) != 1 or total <= stocks[0]:
        raise Refused(
            Problem(
                what=f"“{text}” does not read as one part of a larger total",
                field=field,
                mend="write the parts with a plus: 1+9",
            )
        )
    return _of_numbers([stocks[0], total - stocks[0]], text, field)


_COLON: dict[ColonMeans, Callable[[str, str, str], Dilution]] = {
    "parts": _colon_as_parts,
    "total": _colon_as_total,
}


def _reading_in_words(written: str, text: str, field: str) -> list[str]:
    """Each reading of a colon that makes sense, as parts."""
    readings = []
    for read in _COLON.values():
        try:
            readings.append(format_dilution(read(written, text, field)))
        except Refused:
            # One reading may be impossible: 1:1 as one part in a total of one.
            continue
    if not readings:
        _colon_as_parts(written, text, field)
    return readings


def _of_parts(parts: list[str], text: str, field: str) -> Dilution:
    return _of_numbers([read_number(part, field=field) for part in parts], text, field)


def _of_numbers(parts: list[Fraction], text: str, field: str) -> Dilution:
    hundredths = [part * 100 for part in parts]
    if any(part.denominator != 1 for part in hundredths):
        raise Refused(
            Problem(
                what=f"“{text}” has a part finer than a hundredth",
                field=field,
                mend="multiply all the parts until they are whole: 1+1/3 is 3+1",
            )
        )
    typed = unicodedata.normalize("NFC", text)
    try:
        return Dilution(parts_hundredths=tuple(int(part) for part in hundredths), typed=typed)
    except Refused as refusal:
        raise Refused(
            *(Problem(what=p.what, field=field, mend=p.mend) for p in refusal.problems)
        ) from refusal


def part_volumes_hundredth_ml(
    dilution: Dilution, total_volume_hundredth_ml: int
) -> tuple[int, ...]:
    """What to measure out for a total, in the order of the parts.

    Stocks are rounded half to even to 0.01 ml; the last part, water, takes the
    remainder, so the volumes add up to the total exactly.
    """
    stocks = tuple(
        round(Fraction(total_volume_hundredth_ml * part, dilution.total_hundredths))
        for part in dilution.parts_hundredths[:-1]
    )
    return (*stocks, total_volume_hundredth_ml - sum(stocks))


def criss_cross(strong: Strength, weak: Strength, wanted: Strength) -> tuple[int, int]:
    """Parts of the strong and of the weak solution that make the wanted strength.

    With strengths A > C > B it takes C−B parts of A and A−C parts of B, here in
    lowest whole numbers; water is a strength of nought.  Exact when strengths
    are by weight and parts by weight, or percent weight in volume and volumes
    that add.  Raises Refused when the wanted strength does not lie between.
    """
    a, b, c = Fraction(strong), Fraction(weak), Fraction(wanted)
    if not a > c > b >= 0:
        raise Refused(
            Problem(
                what=f"{wanted} % does not lie between {weak} % and {strong} %",
                mend="give the strong solution first, then the weak, then a strength between",
            )
        )
    parts = (c - b) / (a - c)
    return parts.numerator, parts.denominator


def mixed_strength(
    strong: Strength, parts_strong: int, weak: Strength, parts_weak: int
) -> Fraction:
    """The strength in percent that two solutions give together."""
    total = parts_strong + parts_weak
    return (Fraction(strong) * parts_strong + Fraction(weak) * parts_weak) / total


def percent_weight_in_volume(mass_mg: int, finished_volume_hundredth_ml: int) -> Fraction:
    """Grams in 100 ml of finished solution."""
    return Fraction(mass_mg * 10, finished_volume_hundredth_ml)


def mass_for_percent_mg(percent: Strength, finished_volume_hundredth_ml: int) -> int:
    """What to weigh out for a percentage of a finished volume, to the milligram."""
    return round(Fraction(percent) * finished_volume_hundredth_ml / 10)
