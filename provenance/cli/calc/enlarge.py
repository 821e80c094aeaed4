"""`provenance calc enlarge`"""

from typing import TYPE_CHECKING

import click

from provenance.cli.calc.answer import Answer, figure
from provenance.cli.main import json_option

if TYPE_CHECKING:
    from provenance.craft.exposure.cautions import Light
    from provenance.craft.exposure.reprint import Magnification


@click.command("enlarge")
@click.argument("base")
@click.option("--from", "from_m", help="The magnification then: 4.")
@click.option("--to", "to_m", help="The magnification now: 5.")
@click.option("--error", default="0", show_default=True, help="Percent each is known to.")
@click.option("--aperture", nargs=2, metavar="THEN NOW", help="As engraved: 8 11.")
@click.option("--slower", default="0", show_default=True, help="Log H the paper needs more.")
@click.option("--slower-error", default="0", show_default=True, help="Its standard error.")
@click.option("--head", type=click.Choice(["diffuse", "condenser"]), help="The enlarger's head.")
@click.option("--negative", help="Its size, for the magnifications that a print asks for.")
@click.option("--print", "picture", help="The size of the picture on paper.")
@click.option("--focal", help="Focal length (80 mm), for the distances at the new size.")
@json_option
def enlarge_command(
    base: str,
    from_m: str | None,
    to_m: str | None,
    error: str,
    aperture: tuple[str, str] | None,
    slower: str,
    slower_error: str,
    head: "Light | None",
    negative: str | None,
    picture: str | None,
    focal: str | None,
    as_json: bool,
) -> None:
    """The time that BASE (20 s) becomes at another size, aperture or on another paper."""
    from provenance.craft.exposure.reprint import Change, reprint
    from provenance.craft.numbers import read_number
    from provenance.craft.units import parse_duration_ms
    from provenance.model.quantity_text import format_stops

    if (from_m is None) != (to_m is None) or (negative is None) != (picture is None):
        raise click.UsageError("give --from and --to together, and --negative and --print")
    if focal is not None and to_m is None:
        raise click.UsageError("--focal needs --to")
    then, now = (_magnification(text or "1", error) for text in (from_m, to_m))
    f_then, f_now = (float(read_number(one, field="aperture")) for one in aperture or ("8", "8"))
    change = Change(
        float(read_number(slower, field="slower")),
        abs(float(read_number(slower_error, field="slower-error"))),
        then,
        now,
        f_then,
        f_now,
        head or "",
    )
    new = reprint(parse_duration_ms(base, field="base") / 1000, change)
    answer = Answer(
        data={
            "time_ms": round(1000 * new.seconds),
            "low_ms": round(1000 * new.low_s),
            "high_ms": round(1000 * new.high_s),
            "stops": new.stops,
            "paper_stops": new.paper_stops,
            "magnification_stops": new.magnification_stops,
            "aperture_stops": new.aperture_stops,
        },
        rows=[("time", figure(new.seconds, "s"))],
        heed=[str(one) for one in new.cautions],
    )
    if new.high_s > new.low_s:
        answer.rows.append(("band", f"{figure(new.low_s)} to {figure(new.high_s, 's')}"))
        answer.assumed.append("a band of two standard errors of what was given")
    for name, stops in (
        ("paper", new.paper_stops),
        ("magnification", new.magnification_stops),
        ("aperture", new.aperture_stops),
        ("in all", new.stops),
    ):
        answer.rows.append((name, format_stops(round(1000 * stops))))
    answer.assumed.append("openings as exact powers of two, ((m2+1)/(m1+1))² for the size")
    if negative is not None and picture is not None:
        _tell_framing(answer, negative, picture)
    if focal is not None:
        _tell_distances(answer, focal, now.value)
    answer.tell(as_json=as_json)


def _magnification(text: str, error: str) -> "Magnification":
    from provenance.craft.exposure.reprint import Magnification
    from provenance.craft.numbers import read_number

    percent = abs(float(read_number(error, field="error")))
    return Magnification(float(read_number(text, field="magnification")), percent / 100)


def _tell_framing(answer: Answer, negative: str, picture: str) -> None:
    from provenance.craft.exposure.magnification import framing
    from provenance.craft.units import parse_size

    found = framing(parse_size(negative, field="negative"), parse_size(picture, field="print"))
    answer.data |= {"whole": found.whole, "filled": found.filled}
    answer.rows += [("whole frame", figure(found.whole)), ("filled", figure(found.filled))]
    answer.heed.append("a measured magnification is better than one from nominal sizes")


def _tell_distances(answer: Answer, focal: str, magnification: float) -> None:
    from provenance.craft.exposure.magnification import conjugates
    from provenance.craft.units import parse_length_tenth_mm
    from provenance.model.quantity_text import format_length

    away = conjugates(parse_length_tenth_mm(focal, field="focal"), magnification)
    to_paper, to_negative = round(away.to_paper), round(away.to_negative)
    answer.data |= {"to_paper_tenth_mm": to_paper, "to_negative_tenth_mm": to_negative}
    answer.rows += [
        ("lens to paper", format_length(to_paper)),
        ("lens to negative", format_length(to_negative)),
    ]
    answer.assumed.append("a thin lens")
