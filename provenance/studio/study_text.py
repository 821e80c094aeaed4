"""A study as a table and a curve, with what it can and cannot say, as lines of text."""

from provenance.craft.chart import Frame
from provenance.craft.conversion import Coverage, coverage
from provenance.craft.plot import Line, braille
from provenance.craft.washing.fit import fit_washing
from provenance.craft.washing.picture import minutes, wash_curve
from provenance.craft.wording import Wording
from provenance.errors import Refused
from provenance.model.body import Body
from provenance.model.study import ToningStudy, WashStudy

_COLUMNS, _ROWS = 60, 8


def study_lines(body: Body, wording: Wording) -> list[str]:
    """What a wash study or a toning study tells; nothing for other records."""
    if isinstance(body, ToningStudy):
        return _toning(coverage(body), wording)
    if isinstance(body, WashStudy):
        return _washing(body)
    return []


def _toning(found: Coverage, wording: Wording) -> list[str]:
    lines = ["density      left   between"]
    lines += [
        f"{one.before_md / 1000:7.2f}  {one.left_permille / 10:6.0f} %"
        f"   {one.least_permille / 10:.0f} to {one.most_permille / 10:.0f} %"
        for one in found.shares
    ]
    lines += [f"{light / 1000:7.2f}   too light to be judged" for light in found.too_light]
    if found.shares[0].before_md < found.shares[-1].before_md:
        lines += ["", "100 %", *_curve(found), _foot(found)]
    for heading, sayings in (("It shows", found.can_say), ("It cannot show", found.cannot_say)):
        lines += ["", heading, *(f"  {wording.term('coverage', one)}" for one in sayings)]
    return lines


def _curve(found: Coverage) -> list[str]:
    """The share left over the density, its band dotted, from nothing to all."""
    lines = [
        Line([(one.before_md, one.left_permille) for one in found.shares]),
        Line([(one.before_md, one.least_permille) for one in found.shares], every=3),
        Line([(one.before_md, one.most_permille) for one in found.shares], every=3),
    ]
    frame = Frame(found.shares[0].before_md, found.shares[-1].before_md, 0, 1000)
    return braille(lines, _COLUMNS, _ROWS, frame)


def _foot(found: Coverage) -> str:
    first, last = found.shares[0].before_md / 1000, found.shares[-1].before_md / 1000
    return f"0 %, density {first:.2f} to {last:.2f}; the share left, its band dotted"


def _washing(body: WashStudy) -> list[str]:
    lines = ["   washed     left, µg/cm²"]
    lines += [
        f"{minutes(one.washed_ms):>9}  {one.left_ng_per_cm2 / 1000:14.2f}" for one in body.readings
    ]
    try:
        fit = fit_washing(body.readings)
    except Refused as error:
        return [*lines, "", *(f"no curve: {problem}" for problem in error.problems)]
    told = [
        f"halved in {minutes(round(part.half_life_ms))} (×÷ {life:.2f})"
        for part, (_start, life) in zip(fit.parts, fit.known_within, strict=True)
    ]
    if fit.bends:
        told = ["the readings bend, but do not tell two parts apart: no time is told"]
    return [*lines, "", *told, *wash_curve(fit, body.readings)]
