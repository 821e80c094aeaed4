"""`provenance calc match`"""

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from provenance.cli.calc.answer import Answer, figure
from provenance.cli.main import json_option

if TYPE_CHECKING:
    from provenance.craft.sensitometry.choice import Candidate, Predicted
    from provenance.craft.sensitometry.curve import Curve
    from provenance.craft.sensitometry.matching import Target


@click.command("match")
@click.argument("reference", type=click.Path(path_type=Path))
@click.option(
    "--paper",
    "papers",
    nargs=2,
    multiple=True,
    required=True,
    metavar="NAME FILE",
    help="A grade or filter of the new paper, and its readings.",
)
@click.option(
    "--tone",
    "tones",
    nargs=2,
    multiple=True,
    required=True,
    metavar="SPOT DENSITY",
    help="A tone of the reference print.",
)
@click.option("--base", help="The exposure of the reference print, to have the new one.")
@click.option("--tablet", type=click.Choice(["21", "31"]), help="Steps, where they are numbered.")
@json_option
def match_command(
    reference: Path,
    papers: tuple[tuple[str, str], ...],
    tones: tuple[tuple[str, str], ...],
    base: str | None,
    tablet: str | None,
    as_json: bool,
) -> None:
    """Which paper or grade comes nearest to a print, and how much more exposure it needs.

    REFERENCE and each FILE hold readings (CSV) of one tablet in one light.
    """
    from provenance.cli.calc.wedge_file import (
        READINGS_ONLY,
        curve_in,
        drawn,
        read_wedge_file,
        tablet_assumed,
    )
    from provenance.craft.numbers import read_number
    from provenance.craft.sensitometry.choice import ranked
    from provenance.craft.sensitometry.matching import Target

    steps = int(tablet or 0)

    def curve(path: Path) -> "Curve":
        return curve_in(path, read_wedge_file(path, steps))

    old = curve(reference)
    curves = {name: curve(Path(file)) for name, file in papers}
    if len(curves) < len(papers):
        raise click.UsageError("give each --paper a name of its own")
    targets = [Target(spot, float(read_number(text, field="tone"))) for spot, text in tones]
    order = ranked(old, curves, targets)
    answer = Answer(
        assumed=[
            *tablet_assumed(steps),
            "one tablet and one light for all papers, read with one instrument",
            READINGS_ONLY,
        ]
    )
    answer.data["candidates"] = [_shape(candidate) for candidate in order]
    for candidate in order:
        answer.rows.append((candidate.name, _said(candidate)))
    for name in curves.keys() - {candidate.name for candidate in order}:
        answer.heed.append(f"{name} shares no tone with the print and was left out")
    best = order[0]
    if base is not None:
        _tell_time(answer, best, base)
    _tell_tones(answer, best, old, curves[best.name], targets)
    answer.heed += [str(caution) for caution in best.match.cautions]
    answer.drawing = drawn(old, curves[best.name])
    answer.tell(as_json=as_json)


def _said(candidate: "Candidate") -> str:
    worst = candidate.worst
    return (
        f"{candidate.match.delta_log_h:+.3f} ± {2 * candidate.match.error:.3f} log H; densities off"
        f" by {candidate.rms_error:.3f}, most at {worst.target.spot}, {worst.error:+.2f}"
    )


def _shape(candidate: "Candidate") -> dict[str, Any]:
    return {
        "paper": candidate.name,
        "delta_log_h": candidate.match.delta_log_h,
        "error_log_h": candidate.match.error,
        "anchors": list(candidate.match.anchors),
        "rms_density_error": candidate.rms_error,
        "tones": [
            {
                "spot": tone.target.spot,
                "density": tone.target.density,
                "predicted": tone.density,
                "reach": tone.reach,
            }
            for tone in candidate.tones
        ],
    }


def _tell_time(answer: Answer, best: "Candidate", base: str) -> None:
    from provenance.craft.exposure.reprint import Change, reprint
    from provenance.craft.units import parse_duration_ms

    change = Change(best.match.delta_log_h, best.match.error)
    new = reprint(parse_duration_ms(base, field="base") / 1000, change)
    answer.data |= {
        "time_ms": round(1000 * new.seconds),
        "low_ms": round(1000 * new.low_s),
        "high_ms": round(1000 * new.high_s),
    }
    band = f"{figure(new.low_s)} to {figure(new.high_s, 's')}"
    answer.rows.append((f"time on {best.name}", f"{figure(new.seconds, 's')}, {band}"))
    answer.heed += [str(caution) for caution in new.cautions]


def _tell_tones(
    answer: Answer, best: "Candidate", old: "Curve", new: "Curve", targets: "list[Target]"
) -> None:
    from provenance.craft.sensitometry.matching import shifts

    needs = {one.target: one for one in shifts(old, new, targets)}
    for tone in best.tones:
        said = f"{tone.target.density:.2f}, predicted {tone.density:.2f}"
        if tone.target in needs:
            need = needs[tone.target]
            said += f"; by itself {need.delta_log_h:+.3f} ± {2 * need.error:.3f} log H"
        answer.rows.append((tone.target.spot, said))
    answer.heed += [_reach(best, tone) for tone in best.unreachable]


def _reach(best: "Candidate", tone: "Predicted") -> str:
    where = f"{tone.target.spot} ({tone.target.density:.2f})"
    if tone.reach == "not measured":
        return f"{where} lies outside of what was read on {best.name} or on the reference"
    return f"{where} is {tone.reach} of {best.name}: this paper cannot give it"
