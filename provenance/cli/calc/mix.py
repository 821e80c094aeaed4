"""`provenance calc mix`"""

import click

from provenance.cli.main import json_option


@click.command("mix")
@click.argument("formula", required=False)
@click.option("--volume", default="1 L", show_default=True, help="How much, or how much water.")
@click.option(
    "--stock",
    "stocks",
    nargs=3,
    multiple=True,
    metavar="SUBSTANCE STRENGTH VOLUME",
    help='Instead of FORMULA, once for each stock: thiourea "100 g/L" "20 ml".',
)
@click.option(
    "--assay",
    "assays",
    nargs=2,
    multiple=True,
    metavar="SUBSTANCE PERCENT",
    help="How much of what was weighed is the substance; else all of it.",
)
@json_option
@click.pass_obj
def mix_command(
    studio: str | None,
    formula: str | None,
    volume: str,
    stocks: tuple[tuple[str, str, str], ...],
    assays: tuple[tuple[str, str], ...],
    as_json: bool,
) -> None:
    """Weigh out FORMULA for a volume, or pour stocks together.

    Stocks are reckoned both ways: made up to the volume, and added to it.
    """
    from provenance.cli.calc.pouring import pour_together
    from provenance.cli.calc.weighing import weigh_out
    from provenance.craft.units import parse_volume_hundredth_ml

    wanted = parse_volume_hundredth_ml(volume, field="volume")
    if formula is not None and not stocks and not assays:
        answer = weigh_out(formula, wanted, studio)
    elif stocks and formula is None:
        answer = pour_together(stocks, dict(assays), wanted, studio)
    else:
        raise click.UsageError("give a FORMULA, or --stock for each stock")
    answer.tell(as_json=as_json)
