"""`provenance calc convert`"""

import click

from provenance.cli.calc.answer import Answer, figure
from provenance.cli.main import json_option


@click.command("convert")
@click.argument("quantity")
@click.argument("unit")
@click.option("--of", "of", help="What it is a quantity of: ion, crystal, or a substance.")
@click.option("--as", "as_", help="What it is to be reckoned as.")
@click.option("--assay", default="100", show_default=True, help="Percent, of what --of names.")
@click.option("--as-assay", default="100", show_default=True, help="Percent, of what --as names.")
@json_option
@click.pass_obj
def convert_command(
    studio: str | None,
    quantity: str,
    unit: str,
    of: str | None,
    as_: str | None,
    assay: str,
    as_assay: str,
    as_json: bool,
) -> None:
    """Give QUANTITY in another UNIT: "68 F" C, "1 mg/in²" "g/m²", "300 grains" g.

    Residual thiosulfate is reckoned --of and --as ion, sodium, ammonium or
    crystal; a weighed substance as another hydrate or assay of the same salt.
    """
    from provenance.craft.residual import (
        AREAL_UNITS,
        convert_areal_mass,
        read_areal_mass,
        read_areal_unit,
    )
    from provenance.craft.units import convert_quantity

    if (of is None) != (as_ is None):
        raise click.UsageError("give both --of and --as, or neither")
    areal = read_areal_mass(quantity, field="quantity")
    if areal is None:
        value = float(convert_quantity(quantity, unit, field="quantity"))
    else:
        wanted = read_areal_unit(unit)
        if wanted is None:
            raise click.UsageError(f"a mass per area is given in {', '.join(AREAL_UNITS)}")
        unit, value = wanted, convert_areal_mass(areal.value, areal.unit, wanted)
    answer = Answer(data={"unit": unit})
    if of is not None and as_ is not None:
        value *= _ratio(of, as_, assay, as_assay, studio, answer)
    answer.data["value"] = value
    answer.rows.append((quantity, figure(value, unit) + (f" as {as_}" if as_ else "")))
    answer.tell(as_json=as_json)


def _ratio(
    of: str, as_: str, assay: str, as_assay: str, studio: str | None, answer: Answer
) -> float:
    """How much of one species stands for one of the other, by weight."""
    from provenance.craft.residual import THIOSULFATES, thiosulfate_as
    from provenance.craft.solutions.purity import Ware, equivalent_mass_mg
    from provenance.craft.solutions.written import parse_percent
    from provenance.studio.chemicals import load_substances
    from provenance.studio.folder import choose_folder

    answer.data |= {"of": of, "as": as_}
    if of in THIOSULFATES and as_ in THIOSULFATES:
        answer.assumed.append("the same amount of thiosulfate, mole for mole")
        return thiosulfate_as(1, THIOSULFATES[of], THIOSULFATES[as_])
    substances = load_substances(choose_folder(studio))
    given, wanted = (
        Ware(substances.find(name, field=field).formula, parse_percent(percent, field=field))
        for name, percent, field in ((of, assay, "of"), (as_, as_assay, "as"))
    )
    answer.assumed += [
        f"{float(ware.assay_percent):g} % of what is weighed is {ware.formula}"
        for ware in (given, wanted)
    ]
    return equivalent_mass_mg(1, given, wanted)
