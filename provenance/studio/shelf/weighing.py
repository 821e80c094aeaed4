"""Weighing out a formula, and what to heed while doing so; then the bottle on record."""

from dataclasses import dataclass
from datetime import timedelta

from provenance.craft.hazards.contents import contents_of
from provenance.craft.hazards.label import Label, label_of_mix
from provenance.craft.hazards.meetings import Met, cautions_for, families_in, meetings_in_mix
from provenance.craft.solutions.heat import (
    HEATS_KJ_PER_MOL,
    heat_of_dissolving_kj,
    temperature_rise_k,
)
from provenance.craft.solutions.heat import SOURCE as HEAT_SOURCE
from provenance.craft.solutions.scaling import Batch, scale
from provenance.craft.solutions.solubility import TooMuch, too_much
from provenance.craft.solutions.strength import strength_mg_per_l
from provenance.model.chemistry import Stock
from provenance.model.dates import earliest, latest
from provenance.model.evidence import Source
from provenance.model.formula import Formula
from provenance.model.sources import GRADES
from provenance.records.act import Act
from provenance.studio.chemicals import Chemicals
from provenance.studio.formulas import use_formula
from provenance.studio.shelf.heeding import said_once


@dataclass(frozen=True)
class Heat:
    """What dissolving a hydroxide gives off, and by how much that warms the water."""

    name: str
    kj: float
    least_k: float
    most_k: float

    def __str__(self) -> str:
        return (
            f"dissolving the {self.name} gives off {self.kj:.3g} kJ: about {self.least_k:.0f} to"
            f" {self.most_k:.0f} °C warmer if no heat is lost ({HEAT_SOURCE})"
        )


@dataclass(frozen=True)
class Weighing:
    """A formula for a volume: what to take, and what to heed."""

    formula: Formula
    batch: Batch
    too_much: tuple[TooMuch, ...]
    heats: tuple[Heat, ...]
    met: tuple[Met, ...]
    label: Label
    cautions: tuple[str, ...]
    """What its substances call for by themselves, and whose word is above this one's."""

    @property
    def heed(self) -> tuple[str, ...]:
        """Everything to heed, a line each, the gravest first."""
        return (
            *said_once(self.met),
            *(str(heat) for heat in self.heats),
            *(too_much_text(one) for one in self.too_much),
            *self.cautions,
        )


def weigh(formula: Formula, volume_hundredth_ml: int, chemicals: Chemicals) -> Weighing:
    """`formula` for a finished volume.

    Raises Refused for no volume or one too small, NotFound for a substance that
    is not in the table any more.
    """
    batch = scale(formula, volume_hundredth_ml)
    substances, hazards = chemicals.substances, chemicals.hazards
    excess: list[TooMuch] = []
    heats: list[Heat] = []
    for one in batch.measures:
        substance = substances.by_id(one.ingredient.substance, field="formula")
        if one.mass_mg is None:
            continue
        wanted = float(strength_mg_per_l(one.mass_mg, volume_hundredth_ml))
        if (over := too_much(substance, wanted)) is not None:
            excess.append(over)
        if one.ingredient.formula in HEATS_KJ_PER_MOL:
            pure_mg = round(one.mass_mg * one.ingredient.assay_hundredth_percent / 10_000)
            kj = heat_of_dissolving_kj(pure_mg, one.ingredient.formula)
            rise = temperature_rise_k(kj, one.mass_mg, volume_hundredth_ml)
            heats.append(Heat(substance.name, kj, *rise))
    ids = [one.substance for one in formula.ingredients]
    return Weighing(
        formula=formula,
        batch=batch,
        too_much=tuple(excess),
        heats=tuple(heats),
        met=meetings_in_mix(ids, hazards),
        label=label_of_mix(contents_of(formula), substances, hazards),
        cautions=(
            *(one.say for one in cautions_for(families_in(ids, hazards), hazards)),
            hazards.decides,
        ),
    )


def too_much_text(one: TooMuch) -> str:
    """More than dissolves, with the figure and what it is worth."""
    return (
        f"{one.wanted_g_per_l:.4g} g/L of {one.substance.name} is more than the"
        f" {one.limit.g_per_l} g/L that dissolve ({GRADES[one.limit.grade]})"
    )


def mix_stock(
    act: Act,
    weighing: Weighing,
    *,
    code: str,
    mixed_on: str,
    lot: str = "",
    keeps_until: str | None = None,
    source: Source = "notes",
    note: str = "",
) -> int:
    """Put a bottle on record that was weighed out so; returns its id.

    It keeps as long as its formula says, unless `keeps_until` is given.  Raises
    Refused by the rules of the register.
    """
    return act.enter(
        Stock(
            code=code,
            formula=use_formula(act, weighing.formula),
            made_from=weighing.formula.name,
            mixed_on=mixed_on,
            volume_hundredth_ml=weighing.batch.finished_hundredth_ml,
            lot=lot,
            keeps_until=keeps_until or good_until(weighing.formula, mixed_on),
            source=source,
            note=note,
        )
    )


def good_until(formula: Formula, mixed_on: str) -> str | None:
    """The last day that a bottle keeps; None where it was not mixed on a day that is known."""
    if formula.keeps_days is None or earliest(mixed_on) != latest(mixed_on):
        return None
    return (earliest(mixed_on) + timedelta(days=formula.keeps_days)).isoformat()
