"""In which order a formula is mixed, a line each."""

from dataclasses import dataclass

from provenance.craft.solutions.scaling import Measure
from provenance.craft.substances import Substances
from provenance.model.quantity_text import format_mass, format_volume
from provenance.studio.shelf.weighing import Weighing

START_SHARE = 4
"""A solution is begun in all but a quarter of its volume: common practice (P)."""


@dataclass(frozen=True)
class Added:
    """One thing that goes in: how much, what, and what has to be known about it."""

    amount: str
    what: str


def order_of_mixing(weighing: Weighing, substances: Substances) -> tuple[Added, ...]:
    """Water first, then the ingredients in the order of the formula, then water to the volume."""
    batch = weighing.batch
    finished = format_volume(batch.finished_hundredth_ml)
    cold = "cold water" if weighing.heats else "water"
    parts = tuple(_added(one, substances) for one in batch.measures)
    if batch.water_hundredth_ml is not None:
        return (Added(format_volume(batch.water_hundredth_ml), cold), *parts)
    start = batch.finished_hundredth_ml - batch.finished_hundredth_ml // START_SHARE
    liquids = sum(one.volume_hundredth_ml or 0 for one in batch.measures)
    start = min(start, max(0, batch.finished_hundredth_ml - liquids))
    first = (Added(f"about {format_volume(round(start, -3))}", cold),) if start else ()
    return (*first, *parts, Added("", f"water to make {finished}"))


def _added(one: Measure, substances: Substances) -> Added:
    substance = substances.by_id(one.ingredient.substance)
    percent = one.ingredient.assay_hundredth_percent / 100
    amount = (
        format_mass(one.mass_mg)
        if one.mass_mg is not None
        else format_volume(one.volume_hundredth_ml or 0)
    )
    note = one.ingredient.note
    assay = f"{percent:g} %" if percent < 100 and f"{percent:g} %" not in note else ""
    said = [substance.name, assay, note]
    return Added(amount, ", ".join(text for text in said if text))
