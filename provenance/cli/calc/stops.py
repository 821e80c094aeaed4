"""`provenance calc stops`"""

import click

from provenance.cli.calc.answer import Answer, figure
from provenance.cli.main import json_option


@click.command("stops")
@click.argument("base")
@click.option("--by", multiple=True, metavar="STOPS", help="The base changed: +1/2, -1/3.")
@click.option("--burn", "burns", nargs=2, multiple=True, metavar="AREA STOPS", help="Add to it.")
@click.option("--dodge", "dodges", nargs=2, multiple=True, metavar="AREA STOPS", help="Hold back.")
@click.option("--strip", type=click.IntRange(2, 24), help="Patches of a test strip around BASE.")
@click.option("--step", default="1/3", show_default=True, help="Stops between the patches.")
@click.option("--dry-down", help="Percent to take off what looked right wet.")
@json_option
def stops_command(
    base: str,
    by: tuple[str, ...],
    burns: tuple[tuple[str, str], ...],
    dodges: tuple[tuple[str, str], ...],
    strip: int | None,
    step: str,
    dry_down: str | None,
    as_json: bool,
) -> None:
    """Seconds from stops: BASE (20 s) changed, burnt, dodged, or as a test strip."""
    from provenance.craft.exposure.cautions import time_cautions
    from provenance.craft.units import parse_duration_ms

    base_s = parse_duration_ms(base, field="base") / 1000
    answer = Answer(data={"base_ms": round(1000 * base_s)}, rows=[("base", figure(base_s, "s"))])
    answer.heed += [str(one) for one in time_cautions(base_s)]
    _tell_changes(answer, base_s, by)
    _tell_areas(answer, base_s, burns, dodges)
    if dry_down is not None:
        _tell_dry_down(answer, base_s, dry_down)
    if strip is not None:
        _tell_strip(answer, base_s, strip, step)
    answer.tell(as_json=as_json)


def _tell_changes(answer: Answer, base_s: float, by: tuple[str, ...]) -> None:
    from provenance.craft.exposure.stops import exposed_s
    from provenance.craft.units import parse_stops
    from provenance.model.quantity_text import format_stops

    answer.data["changes"] = []
    for text in by:
        milli_stop = parse_stops(text, field="by")
        seconds = exposed_s(base_s, milli_stop / 1000)
        answer.data["changes"].append({"milli_stop": milli_stop, "time_ms": round(1000 * seconds)})
        answer.rows.append((format_stops(milli_stop), figure(seconds, "s")))


def _tell_areas(
    answer: Answer,
    base_s: float,
    burns: tuple[tuple[str, str], ...],
    dodges: tuple[tuple[str, str], ...],
) -> None:
    from provenance.craft.exposure.areas import area_times
    from provenance.craft.units import parse_stops
    from provenance.errors import Problem, Refused
    from provenance.model.printing import Burn
    from provenance.model.quantity_text import format_stops

    entries = []
    for name, sign, given in (("burn", 1, burns), ("dodge", -1, dodges)):
        for area, text in given:
            milli_stop = parse_stops(text, field=name)
            if milli_stop <= 0:
                mend = "give it above zero; --burn adds, --dodge holds back"
                raise Refused(Problem(f"{text} is no {name} of “{area}”", field=name, mend=mend))
            entries.append(Burn(area=area, milli_stop=sign * milli_stop))
    answer.data["areas"] = []
    for one in area_times({"": base_s}, entries) if entries else ():
        answer.data["areas"].append(
            {
                "area": one.area,
                "changes_ms": [round(1000 * change.seconds) for change in one.changes],
                "total_ms": round(1000 * one.exposures_s[""]),
                "stops": one.stops,
            }
        )
        for change in one.changes:
            done = "burn" if change.seconds > 0 else "dodge"
            said = f"{done} {figure(abs(change.seconds), 's')}"
            answer.rows.append((one.area, f"{said} ({format_stops(round(1000 * change.stops))})"))
        if len(one.changes) > 1:
            total = figure(one.exposures_s[""], "s")
            answer.rows.append(
                (one.area, f"in all {total} ({format_stops(round(1000 * (one.stops or 0)))})")
            )


def _tell_dry_down(answer: Answer, base_s: float, percent: str) -> None:
    from provenance.craft.exposure.drydown import START, DryDown
    from provenance.craft.solutions.written import parse_percent
    from provenance.model.quantity_text import format_stops

    dried = DryDown(float(parse_percent(percent, field="dry-down")), START.source)
    seconds = dried.dried_down_s(base_s)
    answer.data |= {"dried_down_ms": round(1000 * seconds), "dry_down_stops": dried.stops}
    change = format_stops(round(1000 * dried.stops))
    answer.rows.append(("dried down", f"{figure(seconds, 's')} ({change})"))
    answer.assumed.append(f"{dried.percent:g} % less exposure: {dried.source}")


def _tell_strip(answer: Answer, base_s: float, patches: int, step: str) -> None:
    from provenance.craft.exposure.strips import strip_around
    from provenance.craft.units import parse_stops

    strip = strip_around(base_s, patches, parse_stops(step, field="step") / 1000)
    answer.data["strip"] = {
        "totals_ms": [round(1000 * patch.total_s) for patch in strip.patches],
        "cover_ms": [round(1000 * seconds) for seconds in strip.cover_s],
        "uncover_ms": [round(1000 * seconds) for seconds in strip.uncover_s],
    }
    told = {
        "patches": [patch.total_s for patch in strip.patches],
        "covering": strip.cover_s,
        "uncovering": strip.uncover_s,
    }
    for name, times in told.items():
        answer.rows.append((name, ", ".join(f"{seconds:.1f}" for seconds in times) + " s"))
    answer.assumed.append(
        "a timer that sets tenths of a second; covering begins with all open and covers the"
        " lightest patch first, uncovering begins with the darkest"
    )
