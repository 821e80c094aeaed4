"""`provenance calc silver`"""

from typing import TYPE_CHECKING

import click

from provenance.cli.calc.answer import Answer, figure
from provenance.cli.main import json_option

if TYPE_CHECKING:
    from provenance.craft.baths import Ledger
    from provenance.model.quantities import Size


@click.command("silver")
@click.argument("size")
@click.option(
    "--sheets", type=click.IntRange(1, 100_000), default=1, show_default=True, help="How many."
)
@click.option("--volume", default="1 L", show_default=True, help="Of the fixer they go through.")
@click.option("--coating", default="1.5", show_default=True, help="Silver coated, in g/m².")
@click.option(
    "--developed",
    type=click.IntRange(0, 99),
    default=50,
    show_default=True,
    help="Percent of the silver that the picture keeps.",
)
@json_option
def silver_command(
    size: str, sheets: int, volume: str, coating: str, developed: int, as_json: bool
) -> None:
    """The silver in sheets of SIZE (8x10 in), and what it asks of toners and fixers."""
    from provenance.craft.baths import Ledger, Use
    from provenance.craft.numbers import read_number
    from provenance.craft.silver import Coating
    from provenance.craft.units import parse_size, parse_volume_hundredth_ml

    sheet = parse_size(size, field="size")
    paper = Coating(round(read_number(coating, field="coating") * 1000), developed)
    ledger = Ledger(parse_volume_hundredth_ml(volume, field="volume"), (Use(sheet, sheets),), paper)
    answer = Answer(
        assumed=[str(paper), "nothing carried out with the sheets, nothing replenished"],
        heed=["estimates: a bath gives out before the equations say so"],
    )
    _tell_silver(answer, ledger, sheet)
    _tell_toning(answer, ledger)
    _tell_limits(answer, ledger, sheet)
    answer.tell(as_json=as_json)


def _tell_silver(answer: Answer, ledger: "Ledger", sheet: "Size") -> None:
    from provenance.model.quantity_text import format_size, format_volume

    silver = ledger.silver
    answer.data |= {
        "sheets": ledger.sheets,
        "area_m2": ledger.area_m2,
        "coated_mg": silver.coated_mg,
        "image_mg": silver.image_mg,
        "to_fixer_mg": silver.to_fixer_mg,
        "to_fixer_at_worst_mg": silver.to_fixer_at_worst_mg,
        "dissolved_mg_per_l": ledger.dissolved_mg_per_l,
        "dissolved_at_worst_mg_per_l": ledger.dissolved_at_worst_mg_per_l,
    }
    answer.rows += [
        ("sheets", f"{ledger.sheets} of {format_size(sheet)}, {figure(ledger.area_m2, 'm²')}"),
        ("image silver", figure(silver.image_mg, "mg")),
        (
            "to the fixer",
            f"{figure(silver.to_fixer_mg, 'mg')};"
            f" at worst {figure(silver.to_fixer_at_worst_mg, 'mg')}",
        ),
        (
            f"in {format_volume(ledger.volume_hundredth_ml)}",
            f"{figure(ledger.dissolved_mg_per_l / 1000, 'g/L')};"
            f" at worst {figure(ledger.dissolved_at_worst_mg_per_l / 1000, 'g/L')}",
        ),
    ]


def _tell_toning(answer: Answer, ledger: "Ledger") -> None:
    from provenance.craft.toning import REACTIONS, reagents_taken_mg

    answer.data["toning_mg"] = {}
    for reaction in REACTIONS:
        taken = reagents_taken_mg(ledger.silver.image_mg, reaction)
        answer.data["toning_mg"][reaction.name] = taken
        said = ", ".join(f"{figure(mg, 'mg')} {formula}" for formula, mg in taken.items())
        answer.rows.append((reaction.name, f"takes {said}"))


def _tell_limits(answer: Answer, ledger: "Ledger", sheet: "Size") -> None:
    from provenance.craft.baths import remaining
    from provenance.craft.fixing import LIMITS

    answer.data["limits"] = []
    for limit in LIMITS:
        left = remaining(ledger, limit, sheet)
        answer.data["limits"].append(
            {
                "limit": limit.name,
                "mg_per_l": limit.mg_per_l,
                "grade": limit.source.grade,
                "sheets_left": left.sheets,
                "sheets_left_at_worst": left.sheets_at_worst,
            }
        )
        answer.rows.append(
            (
                f"to {limit.mg_per_l / 1000:g} g/L",
                f"{left.sheets} more, at worst {left.sheets_at_worst}:"
                f" {limit.meaning}, {limit.source}",
            )
        )
