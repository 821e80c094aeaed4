"""`provenance calc molarity`"""

import click

from provenance.cli.calc.answer import Answer, figure
from provenance.cli.main import json_option


@click.command("molarity")
@click.argument("substance")
@click.argument("strength")
@click.option("--assay", help="How much of what is weighed is the substance, in percent.")
@click.option("--volume", default="1 L", show_default=True, help="How much is to be mixed.")
@json_option
@click.pass_obj
def molarity_command(
    studio: str | None, substance: str, strength: str, assay: str | None, volume: str, as_json: bool
) -> None:
    """Moles in a litre of SUBSTANCE at STRENGTH (100 g/L), or what to weigh for 0.1 mol/L."""
    from fractions import Fraction

    from provenance.craft.solutions.molar import mass_for_mol_per_l_mg, mol_per_l
    from provenance.craft.solutions.purity import Ware
    from provenance.craft.solutions.solubility import too_much
    from provenance.craft.solutions.strength import strength_mg_per_l
    from provenance.craft.solutions.written import (
        parse_molarity,
        parse_percent,
        parse_strength_mg_per_l,
    )
    from provenance.craft.units import parse_volume_hundredth_ml
    from provenance.model.quantity_text import format_mass, format_volume
    from provenance.model.sources import GRADES
    from provenance.studio.chemicals import load_substances
    from provenance.studio.folder import choose_folder

    found = load_substances(choose_folder(studio)).find(substance, field="substance")
    molar_mass = found.molar_mass_g_per_mol
    percent = Fraction(100) if assay is None else parse_percent(assay, field="assay")
    ware = Ware(found.formula, percent)
    total = parse_volume_hundredth_ml(volume, field="volume")
    molarity = parse_molarity(strength, field="strength")
    if molarity is None:
        mg_per_l = float(parse_strength_mg_per_l(strength, field="strength"))
        mass_mg = round(mg_per_l * total / 100_000)
    else:
        mass_mg = mass_for_mol_per_l_mg(float(molarity), total, ware)
        mg_per_l = float(strength_mg_per_l(mass_mg, total))
    moles = mol_per_l(mg_per_l, ware)
    answer = Answer(
        data={
            "substance": found.id,
            "formula": found.formula,
            "molar_mass_g_per_mol": molar_mass,
            "assay_percent": float(percent),
            "mol_per_l": moles,
            "g_per_l": mg_per_l / 1000,
            "mass_mg": mass_mg,
            "volume_hundredth_ml": total,
        },
        rows=[
            ("substance", f"{found.name}, {found.formula}, {molar_mass:.3f} g/mol"),
            ("molarity", figure(moles, "mol/L")),
            ("strength", figure(mg_per_l / 1000, "g/L")),
            ("weigh", f"{format_mass(mass_mg)} for {format_volume(total)} of finished solution"),
        ],
        assumed=[f"{float(percent):g} % of what is weighed is {found.formula}"],
    )
    if assay is None and found.usual_assay is not None:
        answer.heed.append(
            f"it is usually sold at {float(found.usual_assay.percent):g} %"
            f" ({GRADES[found.usual_assay.grade]}): look at the label and give --assay"
        )
    excess = too_much(found, mg_per_l)
    if excess:
        answer.heed.append(
            f"more than the {excess.limit.g_per_l} g/L that dissolve at 20 °C"
            f" ({GRADES[excess.limit.grade]})"
        )
    answer.tell(as_json=as_json)
