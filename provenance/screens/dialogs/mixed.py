"""A mix that was worked out, as lines: amounts, both readings of its volume, what to heed."""

from collections.abc import Iterable

from provenance.craft.solutions.two_stocks import Blend
from provenance.craft.substances import Substances
from provenance.model.quantity_text import format_dilution, format_mass, format_volume
from provenance.model.sources import GRADES
from provenance.screens.widgets.working import Cells, Said, Shown
from provenance.studio.chemicals import Chemicals
from provenance.studio.shelf.both_ways import both_ways
from provenance.studio.shelf.heeding import label_text
from provenance.studio.shelf.mixing import MixPlan
from provenance.studio.shelf.order import order_of_mixing
from provenance.studio.shelf.weighing import Weighing


def plan_shown(plan: MixPlan, chemicals: Chemicals) -> Iterable[Shown]:
    """A bath: what is poured or weighed, what it becomes, and what it can do."""
    if plan.weighing is not None:
        yield from weighing_shown(plan.weighing, chemicals)
    else:
        yield Cells(tuple(_poured(plan)), right=(1, 3))
        yield from _readings(plan, chemicals.substances)
    label = label_text(plan.label, chemicals.hazards)
    yield from heed_shown((label, *plan.heed))


def heed_shown(lines: Iterable[str]) -> Iterable[Shown]:
    """What to heed; dangers are strong, and the last, whose word is above this one's, is quiet."""
    *said, decides = (line for line in lines if line)
    for line in said:
        yield Said(line, strong=line.startswith(("danger", "Danger")) or ": danger: " in line)
    yield Said(decides, quiet=True)


def weighing_shown(weighing: Weighing, chemicals: Chemicals) -> Iterable[Shown]:
    """What goes in, in the order in which it does."""
    order = order_of_mixing(weighing, chemicals.substances)
    rows = ((f"{place}", one.amount, one.what) for place, one in enumerate(order, 1))
    yield Cells(tuple(rows), right=(0, 1))
    formula = weighing.formula
    yield Said(f"{formula.name}: {formula.source} ({GRADES[formula.grade]})", quiet=True)
    if formula.note:
        yield Said(formula.note, quiet=True)


def _poured(plan: MixPlan) -> Iterable[tuple[str, ...]]:
    for one in plan.poured:
        left = one.left_after_hundredth_ml
        after = f"leaves {format_volume(left)}" if left >= 0 else f"lacks {format_volume(-left)}"
        yield one.stock.body.code, format_volume(one.volume_hundredth_ml), one.name, after
    water = plan.water_hundredth_ml or 0
    yield "water", format_volume(water) if water else "none", "", ""
    parts = f"as {format_dilution(plan.dilution)}" if plan.dilution is not None else ""
    yield "in all", format_volume(plan.finished_hundredth_ml), parts, ""


def _readings(plan: MixPlan, substances: Substances) -> Iterable[Shown]:
    """Several stocks made up to the volume and added to it: the strengths differ, the ratio not."""
    blends = both_ways(plan)
    if not blends:
        return
    volume = format_volume(plan.wish.volume_hundredth_ml)
    heads = [one.volumes.finish for one in blends]
    rows = [(f"mol/L, for {volume}", "grams", "moles", *heads, "ratio")]
    first = blends[0]
    for place, pour in enumerate(first.pours):
        percent = float(pour.ware.assay_percent)
        name = substances.by_id(pour.substance).name.partition(" (")[0]
        rows.append(
            (
                f"{name} {percent:g} %" if percent < 100 else name,
                format_mass(round(pour.mass_mg)),
                f"{pour.moles:.4g}",
                *(f"{one.mol_per_l(one.pours[place]):.4f}" for one in blends),
                f"{first.mole_ratio[place]:.2f}",
            )
        )
    rows.append(("in all", "", "", *map(_in_all, blends), ""))
    yield Cells(tuple(rows), right=tuple(range(1, len(rows[0]))), head=True)


def _in_all(one: Blend) -> str:
    return format_volume(one.volumes.finished_hundredth_ml)
