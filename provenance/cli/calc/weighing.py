"""A formula weighed out, as an answer."""

from typing import Any

from provenance.cli.calc.answer import Answer, figure
from provenance.cli.calc.hazard_lines import heed_mix
from provenance.craft.hazards.contents import contents_of
from provenance.craft.solutions.heat import (
    HEATS_KJ_PER_MOL,
    heat_of_dissolving_kj,
    temperature_rise_k,
)
from provenance.craft.solutions.purity import Ware
from provenance.craft.solutions.scaling import scale
from provenance.craft.solutions.solubility import too_much
from provenance.craft.solutions.strength import strength_mg_per_l
from provenance.model.quantity_text import format_mass, format_volume
from provenance.model.sources import GRADES
from provenance.studio.chemicals import load_hazards, load_substances
from provenance.studio.folder import choose_folder
from provenance.studio.formulas import load_formula


def weigh_out(code: str, volume: int, studio: str | None) -> Answer:
    """The formula `code` for a finished volume, with what to heed."""

    folder = choose_folder(studio)
    substances = load_substances(folder)
    hazards = load_hazards(substances, folder)
    formula = load_formula(code, substances, folder)
    batch = scale(formula, volume)
    answer = Answer(rows=[("formula", formula.name)])
    parts: list[dict[str, Any]] = []
    for one in batch.measures:
        substance = substances.by_id(one.ingredient.substance)
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
        if one.mass_mg is None:
            continue
        excess = too_much(substance, float(strength_mg_per_l(one.mass_mg, volume)))
        if excess:
            answer.heed.append(
                f"{figure(excess.wanted_g_per_l, 'g/L')} of {substance.name} is more than the"
                f" {excess.limit.g_per_l} g/L that dissolve ({GRADES[excess.limit.grade]})"
            )
        if substance.formula in HEATS_KJ_PER_MOL:
            pure_mg = round(one.mass_mg * percent / 100)
            heat = heat_of_dissolving_kj(pure_mg, Ware(substance.formula).formula)
            least, most = temperature_rise_k(heat, one.mass_mg, volume)
            answer.heed.append(
                f"dissolving gives off {figure(heat, 'kJ')}: about {least:.0f} to {most:.0f} °C"
                " warmer if no heat is lost"
            )
    water = (
        f"to make {format_volume(volume)}"
        if batch.water_hundredth_ml is None
        else format_volume(batch.water_hundredth_ml)
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
    answer.data["label"] = heed_mix(answer, contents_of(formula), substances, hazards)
    return answer
