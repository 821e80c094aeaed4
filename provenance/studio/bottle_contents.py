"""What a bottle or a tray holds, worked out from its record."""

from dataclasses import dataclass
from fractions import Fraction

from provenance.craft.hazards.contents import Content, contents_of
from provenance.craft.solutions.scaling import litres_from_a_litre
from provenance.craft.substances import Substances
from provenance.model.chemistry import Bath, Stock
from provenance.model.formula import Formula
from provenance.model.quantity_text import format_mass, format_volume
from provenance.records.reader import Reader


@dataclass(frozen=True)
class Portion:
    """So much of a solution that was made by a formula."""

    formula: Formula
    share: Fraction = Fraction(1)


@dataclass(frozen=True)
class Held:
    """What is in a bottle or tray: portions, and what is not on record of it."""

    portions: tuple[Portion, ...]
    unknown: tuple[str, ...] = ()
    """Names of what is in it, and of which no formula is on record."""

    @property
    def contents(self) -> tuple[Content, ...]:
        """Every substance, as hazards are judged by it."""
        return tuple(
            content
            for portion in self.portions
            for content in contents_of(portion.formula, portion.share)
        )

    @property
    def formulas(self) -> tuple[Formula, ...]:
        """The formulas that went into it."""
        return tuple(portion.formula for portion in self.portions)


def held_by_stock(reader: Reader, stock: Stock) -> Held:
    """A bottle holds what its formula says, undiluted."""
    if stock.formula is None:
        return Held((), (stock.made_from or stock.code,))
    return Held((Portion(reader.get(Formula, stock.formula).body),))


def held_by_bath(reader: Reader, bath: Bath) -> Held:
    """A bath holds what was drawn from bottles for it, or else what its formula says.

    A stock of which neither draw nor dilution is on record is taken as undiluted.
    """
    if bath.drawn and bath.volume_hundredth_ml:
        portions, unknown = list[Portion](), list[str]()
        for draw in bath.drawn:
            held = held_by_stock(reader, reader.get(Stock, draw.stock).body)
            share = Fraction(draw.volume_hundredth_ml, bath.volume_hundredth_ml)
            portions += [Portion(one.formula, one.share * share) for one in held.portions]
            unknown += held.unknown
        return Held(tuple(portions), tuple(unknown))
    if bath.formula is None:
        return Held((), (bath.made_from or bath.code,))
    formula = reader.get(Formula, bath.formula).body
    dilution = bath.dilution or (formula.dilution if formula.use == "stock" else None)
    if dilution is None:
        return Held((Portion(formula),))
    share = Fraction(dilution.parts_hundredths[0], dilution.total_hundredths)
    others = len(dilution.parts_hundredths) > 2
    return Held((Portion(formula, share),), ("the other stock of the dilution",) if others else ())


def contents_text(held: Held, substances: Substances) -> str:
    """``potassium hydroxide 85 %, 100 g/L; …``: what is weighed or poured for a litre of it.

    Empty when none of it is on record.
    """
    amounts: dict[tuple[str, bool], Fraction] = {}
    for portion in held.portions:
        share = portion.share / litres_from_a_litre(portion.formula)
        for one in portion.formula.ingredients:
            percent = one.assay_hundredth_percent / 100
            assay = f" {percent:g} %," if percent < 100 else ""
            weighed = one.mg_per_l is not None
            key = f"{substances.by_id(one.substance).name}{assay}", weighed
            amount = (one.mg_per_l or one.hundredth_ml_per_l or 0) * share
            amounts[key] = amounts.get(key, Fraction(0)) + amount
    said = [
        f"{name} {(format_mass if weighed else format_volume)(_three_figures(amount))}/L"
        for (name, weighed), amount in amounts.items()
    ]
    return "; ".join([*said, *held.unknown]) if said else ""


def _three_figures(amount: Fraction) -> int:
    whole = round(amount)
    return round(whole, min(0, 3 - len(str(whole))))
