"""Stocks poured together, as an answer."""

from fractions import Fraction

import click

from provenance.cli.calc.answer import Answer, figure
from provenance.cli.calc.hazard_lines import heed_mix
from provenance.craft.hazards.contents import contents_of_blend
from provenance.craft.solutions.purity import Ware
from provenance.craft.solutions.solubility import too_much
from provenance.craft.solutions.two_stocks import Pour, blend
from provenance.craft.solutions.volumes import ADDITIVE, FINISHES
from provenance.craft.solutions.written import parse_percent, parse_strength_mg_per_l
from provenance.craft.substances import Substances
from provenance.craft.units import parse_volume_hundredth_ml
from provenance.model.quantity_text import format_volume
from provenance.model.sources import GRADES
from provenance.studio.chemicals import load_hazards, load_substances
from provenance.studio.folder import choose_folder
from provenance.studio.shelf.weighing import too_much_text


def pour_together(
    stocks: tuple[tuple[str, str, str], ...],
    assays: dict[str, str],
    volume: int,
    studio: str | None,
) -> Answer:
    """Stocks made up to a volume and added to it, with what to heed."""

    folder = choose_folder(studio)
    substances = load_substances(folder)
    pours = _pours(stocks, assays, substances)
    answer = Answer(assumed=[ADDITIVE], data={"readings": []})
    for pour in pours:
        percent = pour.ware.assay_percent
        answer.assumed.append(f"{float(percent):g} % of what was weighed is {pour.ware.formula}")
        usual = substances.by_id(pour.substance).usual_assay
        if usual is not None and percent == 100:
            answer.heed.append(
                f"{pour.ware.formula} is usually sold at {float(usual.percent):g} %"
                f" ({GRADES[usual.grade]}): look at the label and give --assay"
            )
        excess = too_much(substances.by_id(pour.substance), float(pour.stock_mg_per_l))
        if excess is not None:
            answer.heed.append(f"the stock: {too_much_text(excess)}")
    for finish in FINISHES:
        made = blend(pours, finish, volume)
        answer.rows.append(
            (
                f"{finish} {format_volume(volume)}",
                f"{format_volume(made.volumes.water_hundredth_ml)} water,"
                f" {format_volume(made.volumes.finished_hundredth_ml)} in all",
            )
        )
        strengths = []
        for pour, ratio in zip(made.pours, made.mole_ratio, strict=True):
            figures = {
                "substance": pour.substance,
                "grams": float(pour.mass_mg) / 1000,
                "moles": pour.moles,
                "g_per_l": made.g_per_l(pour),
                "mol_per_l": made.mol_per_l(pour),
                "moles_to_one_of_the_first": ratio,
            }
            strengths.append(figures)
            answer.rows.append(
                (
                    f"  {pour.substance}",
                    f"{figure(float(pour.mass_mg) / 1000, 'g')}, {figure(pour.moles, 'mol')};"
                    f" {figure(made.mol_per_l(pour), 'mol/L')}; ratio {figure(ratio)}",
                )
            )
        answer.data["readings"].append(
            {
                "finish": finish,
                "water_hundredth_ml": made.volumes.water_hundredth_ml,
                "finished_hundredth_ml": made.volumes.finished_hundredth_ml,
                "stocks": strengths,
            }
        )
    stronger = blend(pours, "made up to", volume)
    hazards = load_hazards(substances, folder)
    answer.data["label"] = heed_mix(answer, contents_of_blend(stronger), substances, hazards)
    return answer


def _pours(
    stocks: tuple[tuple[str, str, str], ...], assays: dict[str, str], substances: Substances
) -> tuple[Pour, ...]:

    known = {
        substances.find(name, field="assay").id: parse_percent(percent, field="assay")
        for name, percent in assays.items()
    }
    pours = []
    for name, strength, poured in stocks:
        substance = substances.find(name, field="stock")
        # a mixture has no molar mass and says so
        _ = substance.molar_mass_g_per_mol
        pours.append(
            Pour(
                substance=substance.id,
                ware=Ware(substance.formula, known.pop(substance.id, Fraction(100))),
                stock_mg_per_l=parse_strength_mg_per_l(strength, field="stock"),
                volume_hundredth_ml=parse_volume_hundredth_ml(poured, field="stock"),
            )
        )
    if known:
        raise click.UsageError(f"--assay names {', '.join(known)}, which is none of the stocks")
    return tuple(pours)
