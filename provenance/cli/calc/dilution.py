"""`provenance calc dilution`"""

from typing import Literal

import click

from provenance.cli.calc.answer import Answer, figure
from provenance.cli.main import json_option


@click.command("dilution")
@click.argument("dilution", required=False)
@click.option("--total", default="1 L", show_default=True, help="How much is wanted in all.")
@click.option("--stock", "stock_strength", help="Strength of the stock: 200 g/L, 10 %.")
@click.option(
    "--colon", type=click.Choice(["parts", "total"]), help="How 1:9 is read; else the studio's way."
)
@click.option("--strong", help="Instead of DILUTION: percent of the strong solution.")
@click.option("--wanted", help="Percent that is wanted of it.")
@click.option("--weak", default="0", show_default=True, help="Percent of the weak one; water is 0.")
@json_option
@click.pass_obj
def dilution_command(
    studio: str | None,
    dilution: str | None,
    total: str,
    stock_strength: str | None,
    colon: Literal["parts", "total"] | None,
    strong: str | None,
    wanted: str | None,
    weak: str,
    as_json: bool,
) -> None:
    """Measure out DILUTION (1+9), or mix two strengths: --strong 28 --wanted 1."""
    from provenance.craft.units import parse_volume_hundredth_ml

    volume = parse_volume_hundredth_ml(total, field="total")
    if dilution is not None and strong is None and wanted is None:
        answer = _measured_out(dilution, volume, stock_strength, colon, studio)
    elif dilution is None and strong is not None and wanted is not None and not stock_strength:
        answer = _criss_cross(strong, weak, wanted, volume)
    else:
        raise click.UsageError("give a DILUTION, or --strong and --wanted")
    answer.tell(as_json=as_json)


def _measured_out(
    text: str,
    volume: int,
    stock_strength: str | None,
    colon: Literal["parts", "total"] | None,
    studio: str | None,
) -> Answer:
    from provenance.craft.dilution import parse_dilution, part_volumes_hundredth_ml
    from provenance.craft.solutions.strength import diluted_mg_per_l
    from provenance.craft.solutions.written import parse_strength_mg_per_l
    from provenance.model.quantity_text import format_dilution, format_volume
    from provenance.studio.folder import choose_folder
    from provenance.studio.settings import read_settings

    if colon is None and ":" in text:
        colon = read_settings(choose_folder(studio)).colon_dilution
    read = parse_dilution(text, colon_means=colon, field="dilution")
    *stocks, water = part_volumes_hundredth_ml(read, volume)
    names = ["stock"] if len(stocks) == 1 else [f"stock {n}" for n in range(1, len(stocks) + 1)]
    answer = Answer(
        data={
            "dilution": format_dilution(read),
            "typed": read.typed,
            "stocks_hundredth_ml": stocks,
            "water_hundredth_ml": water,
            "total_hundredth_ml": volume,
        },
        rows=[
            ("dilution", format_dilution(read)),
            *((name, format_volume(part)) for name, part in zip(names, stocks, strict=True)),
            ("water", format_volume(water)),
            ("in all", format_volume(volume)),
        ],
    )
    if stock_strength:
        strength = diluted_mg_per_l(parse_strength_mg_per_l(stock_strength, field="stock"), read)
        answer.data["strength_g_per_l"] = float(strength) / 1000
        answer.rows.append(("strength", figure(float(strength) / 1000, "g/L")))
    return answer


def _criss_cross(strong: str, weak: str, wanted: str, volume: int) -> Answer:
    from provenance.craft.dilution import criss_cross
    from provenance.craft.solutions.written import parse_percent
    from provenance.model.quantity_text import format_volume

    percents = [
        parse_percent(text, field=field)
        for text, field in ((strong, "strong"), (weak, "weak"), (wanted, "wanted"))
    ]
    of_strong, of_weak = criss_cross(*percents)
    take = round(volume * of_strong / (of_strong + of_weak))
    return Answer(
        data={
            "parts_strong": of_strong,
            "parts_weak": of_weak,
            "strong_hundredth_ml": take,
            "weak_hundredth_ml": volume - take,
        },
        rows=[
            ("parts", f"{of_strong} of the strong, {of_weak} of the weak"),
            ("strong", format_volume(take)),
            ("weak", format_volume(volume - take)),
        ],
        assumed=["percent weight in volume, and volumes that add up"],
    )
