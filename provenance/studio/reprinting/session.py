"""The trays of a reprint: what to mix of what is on the shelf, and what is not as it was."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from provenance.craft.dilution import parse_dilution, part_volumes_hundredth_ml
from provenance.craft.history import Fact, PrintHistory
from provenance.craft.solutions.needed import WATER, Need, chemistry_needed
from provenance.errors import Refused
from provenance.model.chemistry import Bath, Role
from provenance.model.formula import Formula
from provenance.model.printing import Step
from provenance.model.process import PlannedStep, ProcessSheet
from provenance.model.quantities import Dilution, Size
from provenance.model.quantity_text import (
    format_clock,
    format_dilution,
    format_mass,
    format_temperature,
    format_volume,
)
from provenance.records.reader import Reader
from provenance.studio.chemicals import Chemicals
from provenance.studio.shelf.bottles import Bottle, bottles
from provenance.studio.shelf.mixing import MixPlan, Wish, plan_mix

_DILUTION = re.compile(r"\d+(?:[.,]\d+)?(?:\+\d+(?:[.,]\d+)?)+")


@dataclass(frozen=True)
class Difference:
    """Something that is not as it was; both empty where nothing is on record of then."""

    then: str = ""
    now: str = ""

    def __str__(self) -> str:
        if not self.then:
            return "not on record for the reference"
        return f"{self.then} then, {self.now} now"


@dataclass(frozen=True)
class Tray:
    """One step as it is planned, and in what it is not as it was for the reference."""

    name: str
    contents: str
    aim: str
    differences: tuple[Difference, ...]


@dataclass(frozen=True)
class Mix:
    """One solution to mix."""

    step: str
    volume_hundredth_ml: int
    what: str
    """What it is, where the amounts do not say it; or why none can be told."""
    taken: tuple[tuple[str, str], ...]
    """An amount of each, and what of; water last, under that name."""
    assumption: str
    heed: tuple[str, ...] = ()
    no_bottle: str = ""
    """Of what no bottle is known to be on the shelf."""
    strength_known: bool = True

    @property
    def text(self) -> str:
        """What to take, in words."""
        taken = ", ".join(_amount_of(amount, what) for amount, what in self.taken)
        unknown = "" if self.strength_known else ", strength not on record"
        return ": ".join(filter(None, (f"{self.what}{unknown}", taken)))

    @property
    def told(self) -> tuple[str, ...]:
        """What to heed, and that no bottle is known."""
        if not self.no_bottle:
            return self.heed
        return (f"no bottle on the shelf is known to be {self.no_bottle}", *self.heed)


WATER_NAME = "water"


def _amount_of(amount: str, what: str) -> str:
    if not what:
        return amount
    return f"{amount} {what}" if what == WATER_NAME else f"{amount} of {what}"


@dataclass(frozen=True)
class Session:
    """Everything for the trays."""

    trays: tuple[Tray, ...]
    mixes: tuple[Mix, ...]
    left_out: tuple[str, ...]
    """Steps of the reference that the plan does not have."""


def plan_session(
    reader: Reader,
    chemicals: Chemicals,
    history: PrintHistory,
    process: ProcessSheet,
    *,
    sheet: Size,
    sheets: int,
    today: date,
) -> Session:
    """The trays for `sheets` of one size through `process`, beside what the reference had.

    Raises Refused for no sheets.
    """
    then = _pair(history, process)
    trays = tuple(
        _tray(history, step, then.get(step.name)) for step in process.steps if step.role is not None
    )
    held = bottles(reader, today)
    mixes = tuple(
        _mix(reader, chemicals, history, process, need, then.get(need.step), held, today)
        for need in chemistry_needed(process, sheet, sheets)
    )
    met = {step.id for step in then.values()}
    left_out = tuple(
        f"{step.body.name or step.body.role} {_time(history, step)}".strip()
        for step in history.steps
        if step.id not in met
    )
    return Session(trays, mixes, left_out)


def _pair(history: PrintHistory, process: ProcessSheet) -> dict[str, Fact[Step]]:
    """The step of the reference that each planned step stands for: by name, else by order."""
    found = {
        step.name: done
        for step in process.steps
        for done in history.steps
        if done.body.name == step.name and done.body.role == step.role
    }
    taken = {done.id for done in found.values()}
    for step in process.steps:
        if step.role is None or step.name in found:
            continue
        rest = (one for one in history.steps if one.id not in taken and one.body.role == step.role)
        done = next(rest, None)
        if done is not None:
            found[step.name] = done
            taken.add(done.id)
    return found


def _tray(history: PrintHistory, step: PlannedStep, then: Fact[Step] | None) -> Tray:
    bath = history.bath(then.body.bath) if then is not None else None
    dilution = _dilution(step, bath)
    agent = step.agent or (then.body.agent if then else "") or (bath.made_from if bath else "")
    shown = format_dilution(dilution) if dilution and not _DILUTION.search(agent) else ""
    warm = step.temperature_tenth_c
    return Tray(
        step.name,
        f"{agent} {shown}".strip(),
        " ".join(filter(None, (_aim(step), format_temperature(warm) if warm is not None else ""))),
        tuple(_differences(history, step, then, bath, dilution)),
    )


def _aim(step: PlannedStep) -> str:
    if step.aim is None:
        return ""
    ends = [one for one in (step.aim.least_ms, step.aim.longest_ms) if one is not None]
    said = format_clock(step.aim.time_ms)
    return f"{said} ({' to '.join(map(format_clock, ends))})" if len(ends) == 2 else said


def _dilution(step: PlannedStep, bath: Bath | None) -> Dilution | None:
    """As the plan says it, else as the bath of the reference was."""
    written = _DILUTION.search(step.agent)
    if written is not None:
        return parse_dilution(written[0], colon_means=None)
    return bath.dilution if bath is not None else None


def _differences(
    history: PrintHistory,
    step: PlannedStep,
    then: Fact[Step] | None,
    bath: Bath | None,
    dilution: Dilution | None,
) -> Iterator[Difference]:
    if then is None:
        yield Difference()
        return
    old = bath.dilution if bath is not None else _written(then.body.agent)
    if old is not None and dilution is not None and _share(old) != _share(dilution):
        yield Difference(format_dilution(old), format_dilution(dilution))
    time = then.body.told_ms(history.print.id)
    if step.aim is not None and time is not None and time != step.aim.time_ms:
        yield Difference(format_clock(time), format_clock(step.aim.time_ms))
    warm = then.body.temperature_tenth_c
    if None not in (warm, step.temperature_tenth_c) and warm != step.temperature_tenth_c:
        yield Difference(
            format_temperature(warm or 0), format_temperature(step.temperature_tenth_c or 0)
        )


def _written(agent: str) -> Dilution | None:
    found = _DILUTION.search(agent)
    return parse_dilution(found[0], colon_means=None) if found else None


def _share(dilution: Dilution) -> tuple[float, ...]:
    return tuple(part / dilution.total_hundredths for part in dilution.parts_hundredths)


def _time(history: PrintHistory, step: Fact[Step]) -> str:
    time = step.body.duration_for(history.print.id)
    return format_clock(time) if time is not None else ""


def _mix(
    reader: Reader,
    chemicals: Chemicals,
    history: PrintHistory,
    process: ProcessSheet,
    need: Need,
    then: Fact[Step] | None,
    held: list[Bottle],
    today: date,
) -> Mix:
    bath = history.bath(then.body.bath) if then is not None else None
    step = next(one for one in process.steps if one.name == need.step)
    dilution = _dilution(step, bath)
    wish = _wish(reader, need, bath, dilution, held)
    if wish is not None:
        try:
            plan = plan_mix(reader, chemicals, wish, today=today, process=process)
        except Refused as refused:
            said = "; ".join(problem.what for problem in refused.problems)
            return Mix(need.step, need.volume_hundredth_ml, said, (), need.assumption)
        heed = (*(problem.what for problem in plan.problems), *plan.heed)
        return Mix(need.step, need.volume_hundredth_ml, *_poured(plan), need.assumption, heed)
    used = then.body.agent if then is not None else ""
    agent = step.agent or used or (bath.made_from if bath else "") or need.role
    dilution = dilution or _written(agent)
    taken: tuple[tuple[str, str], ...]
    if dilution is None:
        said = agent
        taken = ((format_volume(need.volume_hundredth_ml), ""),)
    else:
        *parts, water = part_volumes_hundredth_ml(dilution, need.volume_hundredth_ml)
        shown = "" if _DILUTION.search(agent) else f" {format_dilution(dilution)}"
        said = f"{agent}{shown}"
        taken = (
            *((format_volume(one), "") for one in parts),
            (format_volume(water), WATER_NAME),
        )
    return Mix(
        need.step,
        need.volume_hundredth_ml,
        said,
        taken,
        need.assumption,
        no_bottle="" if need.role in WATER else agent,
        strength_known=dilution is not None,
    )


def _wish(
    reader: Reader, need: Need, bath: Bath | None, dilution: Dilution | None, held: list[Bottle]
) -> Wish | None:
    """The bath from bottles that are there, else by its formula; None when neither can be told."""
    volume = need.volume_hundredth_ml
    stocks = _bottles_for(reader, need.role, bath, held)
    if stocks:
        parts = dilution if dilution and len(dilution.parts_hundredths) == len(stocks) + 1 else None
        ids = tuple(one.stock.id for one in stocks)
        return Wish(need.role, volume, stocks=ids, dilution=parts)
    if bath is not None and bath.formula is not None:
        return Wish(need.role, volume, formula=reader.get(Formula, bath.formula).body)
    return None


def _bottles_for(reader: Reader, role: Role, bath: Bath | None, held: list[Bottle]) -> list[Bottle]:
    """Bottles of what the reference's bath was made of, or one that is for this role."""
    if bath is not None and bath.drawn:
        found = []
        for stock in bath.drawn_from:
            old = reader.find(stock)
            like = [one for one in held if old is not None and _alike(one, old.body)]
            if not like:
                return []
            found.append(max(like, key=lambda one: one.left_hundredth_ml))
        return found
    if bath is not None and bath.made_from:
        like = [one for one in held if one.name.casefold() == bath.made_from.casefold()]
        if like:
            return [max(like, key=lambda one: one.left_hundredth_ml)]
    like = [one for one in held if one.formula is not None and one.formula.role == role]
    whole = [one for one in like if one.formula is not None and one.formula.dilution is not None]
    return [max(whole, key=lambda one: one.left_hundredth_ml)] if whole else []


def _alike(one: Bottle, other: object) -> bool:
    body = one.stock.body
    formula, made_from = getattr(other, "formula", None), getattr(other, "made_from", "")
    if formula is not None:
        return bool(body.formula == formula)
    return bool(made_from and body.made_from.casefold() == made_from.casefold())


def _poured(plan: MixPlan) -> tuple[str, tuple[tuple[str, str], ...]]:
    """The formula where it is weighed out, and what is taken."""
    water = plan.water_hundredth_ml
    last = ((format_volume(water), WATER_NAME),) if water else ()
    if plan.weighing is None:
        poured = (
            (format_volume(one.volume_hundredth_ml), one.stock.body.code) for one in plan.poured
        )
        return "", (*poured, *last)
    weighed = (
        (
            _amount(one.mass_mg, one.volume_hundredth_ml),
            one.ingredient.substance.replace("_", " "),
        )
        for one in plan.weighing.batch.measures
    )
    return plan.weighing.formula.name, (*weighed, *last)


def _amount(mass_mg: int | None, volume_hundredth_ml: int | None) -> str:
    if mass_mg is not None:
        return format_mass(mass_mg)
    return format_volume(volume_hundredth_ml or 0)
