"""What a paper's own readings tell of its washing, as an answer."""

from pathlib import Path

from provenance.cli.calc.answer import Answer, figure
from provenance.craft.limits import read_limit
from provenance.craft.washing.fit import WashFit, WhyOne, fit_washing
from provenance.craft.washing.picture import minutes, wash_curve
from provenance.craft.washing.prediction import wash_time
from provenance.craft.washing.written import read_readings
from provenance.errors import Problem, Refused
from provenance.model.sources import Sourced

_WHY_ONE: dict[WhyOne, str] = {
    "too few": "one part stands for both: two need six readings at five times or more",
    "no better": "one part is enough: a second would make the fit no better than chance does",
    "alike": "two parts would be much alike, and one does not fit: no time is told",
    "not fixed": "the readings bend, but do not tell two parts apart: no time is told",
}


def fitted(path: Path, limit: str | None, species: str) -> Answer:
    """The fit of the readings in `path`, and the time to `limit`.  Raises Refused."""
    readings = read_readings(_text(path), path.name)
    fit = fit_washing(readings)
    answer = Answer(
        data={
            "model": "fitted",
            "reckoned_as": species,
            "readings": len(readings),
            "scatter": fit.scatter,
            "why_one_part": fit.why_one,
            "trusted": not fit.bends,
        },
        assumed=[
            "sheets fixed, aided and washed as those that were read",
            f"all reckoned as {species}; what scatters is a share of what is left,"
            " 1 % at the least",
        ],
        heed=["an estimate: only a test of its own says how a print was washed"],
    )
    if fit.why_one is not None:
        answer.heed.insert(0, _WHY_ONE[fit.why_one])
    _tell_parts(answer, fit)
    line = None
    if limit is not None:
        line = read_limit("--limit", "thiosulfate", limit, species, _GIVEN).ng_per_cm2
        _tell_time(answer, fit, limit, line)
    answer.drawing = wash_curve(fit, readings, line)
    return answer


_GIVEN = Sourced("P", "the studio's own, as it was typed")


def _text(path: Path) -> str:
    try:
        return path.read_text(encoding="utf-8-sig")
    except (OSError, UnicodeDecodeError) as error:
        why = error.strerror if isinstance(error, OSError) else "it is not UTF-8 text"
        raise Refused(
            Problem(f"cannot be read: {why}", str(path), mend="see that it is a table in UTF-8")
        ) from error


def _tell_parts(answer: Answer, fit: WashFit) -> None:
    names = ("fast part", "slow part") if len(fit.parts) > 1 else ("one part",)
    answer.data["parts"] = []
    for name, part, (start, life) in zip(names, fit.parts, fit.known_within, strict=True):
        half_life_ms = round(part.half_life_ms)
        answer.data["parts"].append(
            {
                "start_ng_per_cm2": part.start_ng_per_cm2,
                "start_known_within": start,
                "half_life_ms": half_life_ms,
                "half_life_known_within": life,
            }
        )
        answer.rows.append(
            (
                name,
                f"{figure(part.start_ng_per_cm2 / 1000, 'µg/cm²')} (×÷ {start:.2f}),"
                f" halved in {minutes(half_life_ms)} (×÷ {life:.2f})",
            )
        )
    answer.rows.append(("scatter", f"{figure(fit.scatter * 100)} % of what is left"))


def _tell_time(answer: Answer, fit: WashFit, limit: str, ng_per_cm2: float) -> None:
    time = wash_time(fit, ng_per_cm2)
    answer.data |= {
        "limit_ng_per_cm2": ng_per_cm2,
        "likely_ms": time.likely_ms,
        "sure_ms": time.sure_ms,
    }
    likely = f"{minutes(time.likely_ms)}, half of the sheets"
    if time.already:
        likely += " or more; shorter washes were not tested"
    answer.rows.append((f"to {limit}", likely))
    if time.sure_ms is None:
        answer.rows.append(("", f"not sure within {minutes(fit.longest_ms)}, the longest tested"))
        answer.heed.insert(
            0, "test longer washes to know when nearly all sheets are under the limit"
        )
    else:
        answer.rows.append(("", f"{minutes(time.sure_ms)}, nearly all of them (95 %)"))
