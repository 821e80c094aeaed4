"""Write the label of a bottle or tray: what is in it, what it can do, whose word decides."""

from dataclasses import dataclass
from datetime import date, timedelta

from provenance.craft.fixing import WORKING_FIXER_DAYS
from provenance.craft.hazards.label import Label, label_of_mix
from provenance.craft.hazards.meetings import (
    BY_ROLE,
    cautions_for,
    families_in,
    keep_from,
    wastes_for,
)
from provenance.craft.hazards.tables import ANYTHING, Hazards
from provenance.craft.substances import Substances
from provenance.documents.label_layout import LabelWords
from provenance.documents.label_text import LabelText, Pair
from provenance.model.chemistry import Bath, Role, Stock
from provenance.model.dates import earliest, format_edtf
from provenance.model.formula import Formula
from provenance.model.quantity_text import format_dilution
from provenance.records.reader import Reader
from provenance.studio.bottle_contents import (
    Held,
    Portion,
    contents_text,
    held_by_bath,
    held_by_stock,
)


@dataclass(frozen=True)
class Titled:
    """What a label says besides its contents."""

    code: str
    name: str
    mixed_on: str = ""
    discard_after: str = ""
    role: Role | None = None
    """What the bath does, for what such a bath usually holds."""
    lines: tuple[Pair, ...] = ()


@dataclass(frozen=True)
class LabelWriter:
    """Writes labels with the tables and words of a studio."""

    substances: Substances
    hazards: Hazards
    words: LabelWords

    def of_formula(self, formula: Formula) -> LabelText:
        """A bottle of what a formula makes, its dates left to the pen."""
        lines = (*self._keeps(formula), *self._use(formula))
        titled = Titled(formula.code, formula.name, role=formula.role, lines=lines)
        return self._write(titled, Held((Portion(formula),)))

    def of_stock(self, reader: Reader, stock: Stock) -> LabelText:
        """A bottle on the shelf."""
        held = held_by_stock(reader, stock)
        formula = next(iter(held.formulas), None)
        discard = _date(stock.keeps_until or "")
        lines: tuple[Pair, ...] = ()
        if formula is not None:
            discard = discard or _after(stock.mixed_on, formula.keeps_days)
            lines = self._use(formula) if discard else (*self._keeps(formula), *self._use(formula))
        lot = ((self.words.lot, "; ".join(filter(None, (stock.lot, stock.note)))),)
        name = formula.name if formula else stock.made_from or stock.code
        titled = Titled(
            code=stock.code,
            name=name,
            mixed_on=_date(stock.mixed_on),
            discard_after=discard,
            role=formula.role if formula else None,
            lines=(*lines, *(pair for pair in lot if pair[1])),
        )
        return self._write(titled, held)

    def of_bath(self, reader: Reader, bath: Bath) -> LabelText:
        """A tray in use."""
        held = held_by_bath(reader, bath)
        days = [formula.tray_days for formula in held.formulas if formula.tray_days is not None]
        days += [WORKING_FIXER_DAYS] if bath.role == "fix" else []
        made = bath.made_from or " and ".join(one.name for one in held.formulas) or bath.role
        dilution = format_dilution(bath.dilution) if bath.dilution else ""
        titled = Titled(
            code=bath.code,
            name=made if not dilution or dilution in made else f"{made} {dilution}",
            mixed_on=_date(bath.made_on or ""),
            discard_after=self.words.one_use
            if bath.one_shot
            else _after(bath.made_on or "", min(days, default=None)),
            role=bath.role,
        )
        return self._write(titled, held)

    def _write(self, titled: Titled, held: Held) -> LabelText:
        words, hazards = self.words, self.hazards
        label = label_of_mix(held.contents, self.substances, hazards)
        families = families_in([one.substance for one in held.contents], hazards)
        if held.unknown and titled.role is not None:
            families |= frozenset(hazards.role.get(titled.role, ()))
        known = not (held.unknown or label.not_known)
        waste = " ".join(one.say for one in wastes_for(families, hazards))
        return LabelText(
            code=titled.code,
            name=titled.name,
            contents=contents_text(held, self.substances) or words.contents_not_known,
            basis=self._basis(label, held, titled.role),
            keep_from=(words.keep_from, self._keep_from(families)),
            protect=(words.protect, words.protect_say),
            mixed=(words.mixed, titled.mixed_on),
            discard=(words.discard, titled.discard_after),
            signal_word=label.signal_word,
            pictograms=tuple((code, words.pictogram[code]) for code in label.pictograms),
            hazards=tuple((code, hazards.statement[code].say) for code in label.codes),
            no_codes="" if label.codes else words.no_codes if known else words.codes_not_known,
            lines=(*(((words.waste, waste),) if waste else ()), *titled.lines),
        )

    def _basis(self, label: Label, held: Held, role: Role | None) -> str:
        words = self.words
        said = [words.estimated] if held.portions else []
        unknown = held.unknown if held.portions else ()
        lists = (
            (words.below, label.beneath),
            (words.some_suppliers, label.some_suppliers),
            (words.not_known, (*unknown, *map(self._name, label.not_known))),
        )
        said += [f"{name}: {' '.join(codes)}." for name, codes in lists if codes]
        if held.unknown and role is not None and self.hazards.role.get(role):
            said.append(f"{words.keep_from}: {BY_ROLE}.")
        return " ".join((*said, self.hazards.decides))

    def _name(self, substance_id: str) -> str:
        return self.substances.by_id(substance_id).name

    def _keep_from(self, families: frozenset[str]) -> str:
        never = [
            self.hazards.family[name].name
            for meeting in self.hazards.meeting
            if ANYTHING in meeting.other
            for name in meeting.one
            if name not in families
        ]
        cautions = (one.say for one in cautions_for(families, self.hazards) if not one.mixing)
        others = dict.fromkeys((*keep_from(families, self.hazards), *never))
        return " ".join((f"{', '.join(others)}.", *cautions))

    def _use(self, formula: Formula) -> tuple[Pair, ...]:
        dilution = format_dilution(formula.dilution) if formula.dilution else ""
        said = "; ".join(filter(None, (dilution, formula.note)))
        return ((self.words.use, said),) if said else ()

    def _keeps(self, formula: Formula) -> tuple[Pair, ...]:
        words = self.words
        said = [
            say.replace("{days}", _days(days))
            for say, days in (
                (words.keeps_bottle, formula.keeps_days),
                (words.keeps_tray, formula.tray_days),
            )
            if days is not None
        ]
        said += [words.one_use] if formula.one_shot else []
        return ((words.keeps, ", ".join(said)),) if said else ()


def _days(days: int) -> str:
    return f"{days} day{'' if days == 1 else 's'}"


def _date(text: str) -> str:
    """A plain day as it is written, anything less certain in words."""
    try:
        return str(date.fromisoformat(text))
    except ValueError:
        return format_edtf(text) if text else ""


def _after(mixed_on: str, days: int | None) -> str:
    """So many days after the first day that `mixed_on` may mean; empty when that is not known."""
    if not mixed_on or days is None or earliest(mixed_on) == date.min:
        return ""
    return str(earliest(mixed_on) + timedelta(days=days))
