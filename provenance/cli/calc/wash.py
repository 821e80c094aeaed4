"""`provenance calc wash`"""

from pathlib import Path

import click

from provenance.cli.main import json_option


@click.command("wash")
@click.option("--changes", type=click.IntRange(0, 1000), help="How often the water is changed.")
@click.option("--time", "time", help="Instead, with --flow: how long the water runs.")
@click.option("--flow", help="How much water runs through in a minute.")
@click.option("--to", "share", help="What share is to be left: 0.001, 1/1000.")
@click.option("--fill", default="1 L", show_default=True, help="Of each change, or of the vessel.")
@click.option("--carried", help="How much clings to the sheets; else reckoned from their area.")
@click.option("--size", help="Of a sheet, height first: 8x10 in.")
@click.option(
    "--sheets", type=click.IntRange(1, 1000), default=1, show_default=True, help="How many."
)
@click.option("--strength", help="Of what clings to them, to have what is left: 60 g/L.")
@click.option(
    "--readings", type=click.Path(path_type=Path), help="A table of washed,left to fit (CSV)."
)
@click.option("--limit", help="With --readings, the studio's limit: 0.7 µg/cm².")
@click.option(
    "--as",
    "species",
    type=click.Choice(["ion", "sodium", "ammonium", "crystal"]),
    default="ion",
    show_default=True,
    help="What the readings and the limit are reckoned as.",
)
@json_option
def wash_command(
    changes: int | None,
    time: str | None,
    flow: str | None,
    share: str | None,
    fill: str,
    carried: str | None,
    size: str | None,
    sheets: int,
    strength: str | None,
    readings: Path | None,
    limit: str | None,
    species: str,
    as_json: bool,
) -> None:
    """What changes of water or running water leave, or what a paper's own tests tell.

    Mixing alone gives the least that can be left. How long a fibre-based paper
    takes is read from the studio's own --readings, or not at all.
    """
    from provenance.cli.calc.wash_readings import fitted
    from provenance.cli.calc.wash_water import Load, changed, running
    from provenance.craft.washing.readings import no_calibration

    if readings is not None:
        answer = fitted(readings, limit, species)
    elif limit is not None:
        raise no_calibration()
    elif flow is not None and (time or share) and changes is None:
        answer = running(flow, fill, time, share)
    elif flow is None and time is None and (changes is not None or share) and (carried or size):
        answer = changed(Load(carried, size, sheets, strength), fill, changes, share)
    else:
        raise click.UsageError(
            "give --changes or --to with --size or --carried; --flow with --time or --to;"
            " or --readings"
        )
    answer.tell(as_json=as_json)
