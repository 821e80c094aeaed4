"""A formula weighed out, as an answer."""

from typing import Any

from provenance.cli.calc.answer import Answer
from provenance.cli.calc.hazard_lines import heed_mix
from provenance.craft.hazards.contents import contents_of
from provenance.model.quantity_text import format_mass, format_volume
from provenance.model.sources import GRADES
from provenance.studio.chemicals import load_chemicals
from provenance.studio.folder import choose_folder
from provenance.studio.formulas import load_formula
from provenance.studio.shelf.weighing import too_much_text, weigh


def weigh_out(code: str, volume: int, studio: str | None) -> Answer:
    """The formula `code` for a finished volume, with what to heed."""

    folder = choose_folder(studio)
    chemicals = load_chemicals(folder)
    formula = load_formula(code, chemicals.substances, folder)
    weighing = weigh(formula, volume, chemicals)
    answer = Answer(rows=[("formula", formula.name)])
    parts: list[dict[str, Any]] = []
    for one in weighing.batch.measures:
        substance = chemicals.substances.by_id(one.ingredient.substance)
        amount = (
            format_mass(one.mass_mg)
            if one.mass_mg is not None
            else format_volume(one.volume_hundredth_ml or 0)
        )
        percent = one.ingredient.assay_hundredth_percent / 100
        assay = f", {percent:g} %" if percent < 100 else ""
        answer.rows.append((amount, f"{substance.name}{assay}"))
        parts.append(
            {
                "substance": substance.id,
                "formula": one.ingredient.formula,
                "assay_percent": percent,
                "mass_mg": one.mass_mg,
                "volume_hundredth_ml": one.volume_hundredth_ml,
            }
        )
    answer.heed += [too_much_text(one) for one in weighing.too_much]
    answer.heed += [str(heat) for heat in weighing.heats]
    water = (
        f"to make {format_volume(volume)}"
        if weighing.batch.water_hundredth_ml is None
        else format_volume(weighing.batch.water_hundredth_ml)
    )
    answer.rows.append(("water", water))
    answer.rows.append(("from", f"{formula.source}: {GRADES[formula.grade]}"))
    answer.data = {
        "formula": formula.code,
        "finish": formula.finish,
        "finished_hundredth_ml": volume,
        "parts": parts,
        "source": formula.source,
        "grade": formula.grade,
    }
    answer.data["label"] = heed_mix(
        answer, contents_of(formula), chemicals.substances, chemicals.hazards
    )
    return answer
