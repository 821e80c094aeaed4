"""Formulas, stocks and baths of a day sheet, and their end."""

from dataclasses import replace
from functools import partial

from provenance.craft.dilution import parse_dilution
from provenance.craft.units import parse_volume_hundredth_ml
from provenance.errors import Problem, Refused
from provenance.model.chemistry import Bath, Draw, Stock
from provenance.model.formula import Formula
from provenance.model.quantities import Dilution
from provenance.records.reader import Stored
from provenance.studio.daysheet.context import Context, Item, Skipped
from provenance.studio.daysheet.forms import (
    BathForm,
    DaySheet,
    FormulaEntryForm,
    RetireForm,
    StockForm,
)
from provenance.studio.formulas import FormulaForm, formula_of, load_formula, use_formula
from provenance.studio.settings import Settings
from provenance.studio.shelf.mixing import parts_of
from provenance.studio.shelf.retiring import retire
from provenance.studio.shelf.trays import tray
from provenance.studio.shelf.weighing import good_until, too_much_text, weigh

A_LITRE_HUNDREDTH_ML = 100_000


def enter_shelved(context: Context, sheet: DaySheet) -> None:
    """Enter what was mixed: formulas, then the stocks by them, then the baths from those."""
    for place, formula in enumerate(sheet.formula):
        _formula(context, place, formula)
    for place, stock in enumerate(sheet.stock):
        _stock(context, place, stock)
    for place, bath in enumerate(sheet.bath):
        _bath(context, place, bath)


def _formula(context: Context, place: int, form: FormulaEntryForm) -> None:
    with context.item("formula", place, names=(form.code,)) as item:
        found = item.attempt(lambda: _own(item, form) if form.part else _template(item, form))
        item.check()
        if found is None:
            return  # `check` went no further
        item.attempt(lambda: use_formula(context.act, found))
        item.check()
        context.entered.append(f"formula {form.code}  {found.name}")
        _warn_of_too_much(item, found)


def _warn_of_too_much(item: Item, formula: Formula) -> None:
    """Warn of more than dissolves, with the figure and what it is worth."""
    chemicals = item.context.chemicals
    for one in weigh(formula, A_LITRE_HUNDREDTH_ML, chemicals).too_much:
        mend = "look at the amount: what does not dissolve lies at the bottom"
        problem = Problem(too_much_text(one), formula.code, "part", mend)
        item.context.warnings.append(item.placed(problem))


_OWN = ("name", "use", "finish", "source", "standing")


def _own(item: Item, form: FormulaEntryForm) -> Formula:
    """A formula with its parts; what it needs besides is told at once."""
    for name in _OWN:
        if getattr(form, name) is None:
            mend = "a formula of your own needs it"
            item.note(Refused(Problem(what="is missing", field=name, mend=mend)))
    if form.name is None or form.use is None or form.finish is None:
        raise Skipped
    if form.source is None or form.standing is None:
        raise Skipped
    return formula_of(
        FormulaForm(
            code=form.code,
            name=form.name,
            role=form.role,
            test=form.test,
            use=form.use,
            finish=form.finish,
            dilution=form.dilution,
            one_shot=form.one_shot,
            keeps_days=form.keeps_days,
            tray_days=form.tray_days,
            source=form.source,
            standing=form.standing,
            note=form.note,
            part=form.part,
        ),
        item.context.chemicals.substances,
        item.context.settings.colon_dilution,
    )


def _template(item: Item, form: FormulaEntryForm) -> Formula:
    """A template by its code; whatever else is written asks for parts."""
    for name in form.__struct_fields__:
        if name != "code" and getattr(form, name) not in (None, "", False, []):
            what = "stands beside the code of a template"
            mend = "leave it out, or write the formula with its parts: [[formula.part]]"
            item.note(Refused(Problem(what=what, field=name, mend=mend)))
    item.check()
    try:
        return load_formula(form.code, item.context.chemicals.substances, item.context.folder)
    except Refused as error:
        # what is wrong in the file of a template is told with its own lines
        raise Refused(*(replace(one, field="code") for one in error.problems)) from error


def _stock(context: Context, place: int, form: StockForm) -> None:
    with context.item("stock", place, names=(form.code,)) as item:
        mixed = item.day("mixed", form.mixed)
        keeps_until = item.date("keeps_until", form.keeps_until)
        volume = item.read("volume", parse_volume_hundredth_ml, form.volume)
        formula = item.formula(form.formula, "formula").body if form.formula else None
        item.check()
        if volume is None:
            return  # `check` went no further
        if formula is not None and keeps_until is None:
            keeps_until = good_until(formula, mixed)
        item.enter(
            Stock(
                code=form.code,
                formula=_id(context, formula),
                made_from=form.made_from or (formula.name if formula else ""),
                mixed_on=mixed,
                volume_hundredth_ml=volume,
                lot=form.lot,
                keeps_until=keeps_until,
                source=context.source,
                note=form.note,
            ),
            f"stock {form.code}  {form.volume}",
        )


def _id(context: Context, formula: Formula | None) -> int | None:
    held = context.act.by_code(Formula, formula.code) if formula is not None else None
    return held.id if held is not None else None


def _bath(context: Context, place: int, form: BathForm) -> None:
    with context.item("bath", place, names=(form.code,)) as item:
        dilution = _dilution(item, form.dilution, context.settings)
        volume = item.read("volume", parse_volume_hundredth_ml, form.volume)
        made = item.day("made", form.made)
        poured = {
            code: item.read(f"draw.{code}", parse_volume_hundredth_ml, text)
            for code, text in form.draw.items()
        }
        for code in form.draw:
            item.look_for(Stock, code, f"draw.{code}")
        formula = item.formula(form.formula, "formula").body if form.formula else None
        second_of = item.known(Bath, form.second_of, "second_of").id if form.second_of else None
        item.check()
        stocks = [item.known(Stock, code, f"draw.{code}") for code in form.draw]
        drawn = tuple(
            Draw(stock=stock.id, volume_hundredth_ml=poured[code] or 0)
            for code, stock in zip(form.draw, stocks, strict=True)
        )
        liquids = [draw.volume_hundredth_ml for draw in drawn]
        if volume is not None and form.finish == "added to":
            volume += sum(liquids)
        if drawn and volume is not None and dilution is None:
            dilution = parts_of((*liquids, volume - sum(liquids)))
        item.enter(
            Bath(
                code=form.code,
                role=form.role,
                made_from=form.made_from or _words(stocks, formula),
                formula=_id(context, formula),
                drawn=drawn,
                finish=form.finish,
                dilution=dilution,
                volume_hundredth_ml=volume,
                made_on=made,
                one_shot=form.one_shot
                if form.one_shot is not None
                else formula is not None and formula.one_shot,
                film_used=form.film_used,
                hardening=form.hardening,
                limit=form.limit,
                second_of=second_of,
            ),
            f"bath {form.code}  {form.role}",
        )


def _words(stocks: list[Stored[Stock]], formula: Formula | None) -> str:
    if formula is not None and not stocks:
        return formula.name
    return " and ".join(stock.body.made_from or stock.body.code for stock in stocks)


def _dilution(item: Item, text: str | None, settings: Settings) -> Dilution | None:
    colon = settings.colon_dilution
    try:
        return parse_dilution(text, colon_means=colon, field="dilution") if text else None
    except Refused as error:
        chosen = colon is not None or ":" not in (text or "")
        mend = (
            'write it with a plus, or choose the reading in settings.toml: colon_dilution = "parts"'
            ' takes 1:9 for 1+9, "total" for 1+8'
        )
        item.note(
            error if chosen else Refused(*(replace(one, mend=mend) for one in error.problems))
        )
        return None


def enter_retired(context: Context, sheet: DaySheet) -> None:
    """Retire trays and bottles; comes after the work of the day."""
    for place, form in enumerate(sheet.retire):
        _retire(context, place, form)


def _retire(context: Context, place: int, form: RetireForm) -> None:
    with context.item("retire", place) as item:
        if form.baths is None and form.stocks is None:
            raise Refused(
                Problem(what="names nothing", field="baths", mend="name baths, stocks, or both")
            )
        end = {"on": item.day("on", form.on), "why": form.why, "disposed": form.disposed}
        baths = [item.known(Bath, code, "baths") for code in form.baths or ()]
        stocks = [item.known(Stock, code, "stocks") for code in form.stocks or ()]
        item.check()
        ended: list[Stored[Bath] | Stored[Stock]] = [*baths, *stocks]
        for held in ended:
            item.attempt(partial(retire, context.act, held, **end))
        item.check()
        named = [*(form.baths or ()), *(form.stocks or ())]
        context.entered.append(f"retired {', '.join(named)}")


def warn_of_spent(context: Context) -> None:
    """Warn of each fixing bath that the sheet took past the silver limit chosen for it."""
    today = context.act.moment.local_date()
    for bath, place in context.used.items():
        seen = tray(context.act, context.act.get(Bath, bath), context.settings, today)
        if seen.limit is None or (seen.silver_share or 0) <= 1:
            continue
        with context.item(*place) as item:
            context.warnings.append(
                item.placed(
                    Problem(
                        what=f"bath {seen.bath.body.code} is estimated to hold {seen.silver_text},"
                        f" past the {seen.limit.mg_per_l / 1000:g} g/L for {seen.limit.meaning}",
                        field="bath",
                        mend="see `provenance recall` for the sheets; mix a fresh one",
                    )
                )
            )
