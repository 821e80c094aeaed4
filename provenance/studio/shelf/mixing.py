"""Mixing a bath: the volumes of a plan as it is typed, what to heed, then the tray on record."""

from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from math import gcd

from provenance.craft.dilution import part_volumes_hundredth_ml
from provenance.craft.hazards.contents import Content, contents_of
from provenance.craft.hazards.label import Label, label_of_mix
from provenance.craft.hazards.meetings import (
    Met,
    cautions_for,
    families_in,
    meetings_in_mix,
    meetings_in_process,
)
from provenance.craft.solutions.volumes import mix_volumes
from provenance.errors import Problem, Refused
from provenance.model.chemistry import Bath, Draw, Finish, Role, Stock
from provenance.model.formula import Formula
from provenance.model.process import ProcessSheet
from provenance.model.quantities import Dilution
from provenance.model.quantity_text import format_volume
from provenance.records.act import Act
from provenance.records.reader import Reader, Stored
from provenance.studio.chemicals import Chemicals
from provenance.studio.formulas import use_formula
from provenance.studio.shelf.bottles import bottle
from provenance.studio.shelf.heeding import neighbours_said_once, said_once
from provenance.studio.shelf.weighing import Weighing, weigh


@dataclass(frozen=True)
class Wish:
    """What is to stand in the tray: from bottles, or weighed out by a formula.

    `volume_hundredth_ml` is read as `finish` says: the finished volume, or the
    water that everything is added to.  Bottles are taken by `draws`, a volume
    each; or by `dilution`, whose last part is water; a single bottle, where
    neither is given, as its formula says, else undiluted.
    """

    role: Role
    volume_hundredth_ml: int
    finish: Finish = "made up to"
    stocks: tuple[int, ...] = ()
    dilution: Dilution | None = None
    draws: tuple[int, ...] = ()
    formula: Formula | None = None


@dataclass(frozen=True)
class Poured:
    """What is taken of one bottle."""

    stock: Stored[Stock]
    formula: Formula | None
    volume_hundredth_ml: int
    left_before_hundredth_ml: int

    @property
    def left_after_hundredth_ml(self) -> int:
        """What stays in the bottle; below nought when there is not enough."""
        return self.left_before_hundredth_ml - self.volume_hundredth_ml

    @property
    def name(self) -> str:
        """What is in the bottle, in words."""
        body = self.stock.body
        return body.made_from or (self.formula.name if self.formula else body.code)


@dataclass(frozen=True)
class MixPlan:
    """A bath as it would be mixed: volumes, what it would be, what to heed."""

    wish: Wish
    poured: tuple[Poured, ...]
    weighing: Weighing | None
    """What to weigh, where it is made by a formula and not from bottles."""
    water_hundredth_ml: int | None
    """None where it is weighed out and made up to its volume."""
    finished_hundredth_ml: int
    dilution: Dilution | None
    """The parts of the bottles and of the water: as they were wished, else in lowest terms."""
    contents: tuple[Content, ...]
    unknown: tuple[str, ...]
    """What goes in without a formula, so that its hazards are not known from it."""
    label: Label
    met: tuple[Met, ...]
    """What can happen when these are poured together."""
    neighbours: tuple[Met, ...]
    """What can happen between this tray and those beside it in the plan."""
    cautions: tuple[str, ...]
    problems: tuple[Problem, ...]
    """Why it cannot be mixed so: not enough in a bottle, or a bottle that was retired."""
    warnings: tuple[Problem, ...]
    """What is worth a thought and forbids nothing."""

    @property
    def made_from(self) -> str:
        """Of what, in words: what a statement would say unless told otherwise.

        Stocks A and B of one solution are called by what they make together.
        """
        if self.weighing is not None:
            return self.weighing.formula.name
        names = (one.name.partition(", stock ")[0] for one in self.poured)
        return " and ".join(dict.fromkeys(names))

    @property
    def heed(self) -> tuple[str, ...]:
        """Everything to heed, a line each, the gravest first."""
        weighed = self.weighing
        return (
            *said_once(self.met),
            *neighbours_said_once(self.neighbours),
            *(str(heat) for heat in (weighed.heats if weighed else ())),
            *(str(one) for one in self.warnings),
            *(f"what is in {name} is not on record" for name in self.unknown),
            *self.cautions,
        )


def plan_mix(
    reader: Reader,
    chemicals: Chemicals,
    wish: Wish,
    *,
    today: date,
    process: ProcessSheet | None = None,
) -> MixPlan:
    """The volumes of a bath, and what it and its neighbours in `process` can do.

    Nothing is written.  A bottle that has not enough is told in `problems`, so
    that a form can show it while it is typed; Refused is raised where no volumes
    can be told at all.
    """
    if (wish.formula is None) == (not wish.stocks):
        raise Refused(
            Problem(
                what="a bath is made from bottles, or weighed out by a formula",
                field="stocks",
                mend="name one or more bottles, or a formula",
            )
        )
    if wish.formula is not None:
        return _weighed(chemicals, wish, wish.formula, process)
    return _from_bottles(reader, chemicals, wish, today, process)


def _weighed(
    chemicals: Chemicals, wish: Wish, formula: Formula, process: ProcessSheet | None
) -> MixPlan:
    weighing = weigh(formula, wish.volume_hundredth_ml, chemicals)
    contents = contents_of(formula)
    return MixPlan(
        wish=wish,
        poured=(),
        weighing=weighing,
        water_hundredth_ml=weighing.batch.water_hundredth_ml,
        finished_hundredth_ml=weighing.batch.finished_hundredth_ml,
        dilution=None,
        contents=contents,
        unknown=(),
        label=weighing.label,
        met=weighing.met,
        neighbours=_neighbours(chemicals, wish, contents, process),
        cautions=weighing.cautions,
        problems=(),
        warnings=(),
    )


def _from_bottles(
    reader: Reader,
    chemicals: Chemicals,
    wish: Wish,
    today: date,
    process: ProcessSheet | None,
) -> MixPlan:
    stocks = [reader.get(Stock, one) for one in wish.stocks]
    held = [bottle(reader, stock, today) for stock in stocks]
    liquids = _liquids(wish, held[0].formula if len(held) == 1 else None)
    volumes = mix_volumes(wish.finish, wish.volume_hundredth_ml, liquids)
    finished = volumes.finished_hundredth_ml
    poured = tuple(
        Poured(one.stock, one.formula, volume, one.left_hundredth_ml)
        for one, volume in zip(held, liquids, strict=True)
    )
    contents = tuple(
        content
        for one in poured
        if one.formula is not None
        for content in contents_of(one.formula, Fraction(one.volume_hundredth_ml, finished))
    )
    unknown = tuple(one.name for one in poured if one.formula is None)
    substances, hazards = chemicals.substances, chemicals.hazards
    ids = [content.substance for content in contents]
    families = set(families_in(ids, hazards))
    if unknown:
        families |= set(hazards.role.get(wish.role, ()))
    return MixPlan(
        wish=wish,
        poured=poured,
        weighing=None,
        water_hundredth_ml=volumes.water_hundredth_ml,
        finished_hundredth_ml=finished,
        dilution=wish.dilution or parts_of((*liquids, volumes.water_hundredth_ml)),
        contents=contents,
        unknown=unknown,
        label=label_of_mix(contents, substances, hazards),
        met=meetings_in_mix(ids, hazards),
        neighbours=_neighbours(chemicals, wish, () if unknown else contents, process),
        cautions=(
            *(one.say for one in cautions_for(families, hazards) if not one.mixing),
            hazards.decides,
        ),
        problems=tuple(problem for one in poured for problem in _why_not(one)),
        warnings=tuple(
            Problem(
                what=f"{one.stock.body.code} was good until {one.stock.body.keeps_until}",
                record=one.stock.body.code,
                field="stocks",
                mend="test it before use, or mix it anew",
            )
            for one in held
            if one.days_left is not None and one.days_left < 0
        ),
    )


def _liquids(wish: Wish, formula: Formula | None) -> tuple[int, ...]:
    """How much of each bottle."""
    dilution = wish.dilution or (formula.dilution if formula is not None else None)
    if wish.draws:
        if len(wish.draws) != len(wish.stocks):
            raise _uneven("volumes", len(wish.draws), len(wish.stocks))
        return wish.draws
    if dilution is None:
        if len(wish.stocks) > 1:
            raise _uneven("volumes", 0, len(wish.stocks))
        return (wish.volume_hundredth_ml,)
    *parts, water = dilution.parts_hundredths
    if len(parts) != len(wish.stocks):
        raise _uneven("parts besides the water", len(parts), len(wish.stocks))
    if wish.finish == "added to":
        return tuple(round(Fraction(wish.volume_hundredth_ml * part, water)) for part in parts)
    return part_volumes_hundredth_ml(dilution, wish.volume_hundredth_ml)[:-1]


def _uneven(what: str, given: int, bottles: int) -> Refused:
    return Refused(
        Problem(
            what=f"{given} {what} for {bottles} bottles",
            field="dilution",
            mend="give as many, in the order of the bottles; water comes last: 20+80+900",
        )
    )


def _why_not(one: Poured) -> list[Problem]:
    body = one.stock.body
    problems = []
    if one.left_after_hundredth_ml < 0:
        problems.append(
            Problem(
                what=f"{format_volume(one.volume_hundredth_ml)} is more than the"
                f" {format_volume(one.left_before_hundredth_ml)} that is left in {body.code}",
                record=body.code,
                field="volume",
                mend="mix less, or open another bottle",
            )
        )
    if body.retired_on is not None:
        problems.append(
            Problem(
                what=f"{body.code} was retired on {body.retired_on}",
                record=body.code,
                field="stocks",
                mend="name the bottle in use",
            )
        )
    return problems


def parts_of(volumes: tuple[int, ...]) -> Dilution | None:
    """Volumes as parts in lowest terms; None for what is undiluted, or too fine for parts."""
    if volumes[-1] == 0:
        return None
    common = gcd(*volumes)
    parts = tuple(volume // common * 100 for volume in volumes)
    try:
        return Dilution(parts_hundredths=parts, typed="")
    except Refused:
        return None


def _neighbours(
    chemicals: Chemicals,
    wish: Wish,
    contents: tuple[Content, ...],
    process: ProcessSheet | None,
) -> tuple[Met, ...]:
    if process is None:
        return ()
    own = {step.name for step in process.steps if step.role == wish.role}
    ids = [content.substance for content in contents]
    known = dict.fromkeys(own, ids) if ids else {}
    return tuple(
        met
        for met in meetings_in_process(process, chemicals.hazards, known)
        if {met.first, met.second} & own
    )


def mix_bath(
    act: Act,
    plan: MixPlan,
    *,
    code: str,
    made_on: str,
    made_from: str = "",
    one_shot: bool | None = None,
    film_used: bool | None = None,
    hardening: bool | None = None,
    limit: str = "",
    second_of: int | None = None,
) -> int:
    """Put a tray on record that was mixed so, drawing its bottles down; returns its id.

    Raises Refused with what is left when a bottle has not enough, and by the
    other rules of the register.
    """
    formula = plan.wish.formula
    return act.enter(
        Bath(
            code=code,
            role=plan.wish.role,
            made_from=made_from or plan.made_from,
            formula=use_formula(act, formula) if formula is not None else None,
            drawn=tuple(
                Draw(stock=one.stock.id, volume_hundredth_ml=one.volume_hundredth_ml)
                for one in plan.poured
            ),
            finish=plan.wish.finish,
            dilution=plan.dilution,
            volume_hundredth_ml=plan.finished_hundredth_ml,
            made_on=made_on,
            one_shot=_one_shot(plan) if one_shot is None else one_shot,
            film_used=film_used,
            hardening=hardening,
            limit=limit,
            second_of=second_of,
        )
    )


def _one_shot(plan: MixPlan) -> bool:
    """Whether what goes in says that it is for one use."""
    formulas = (plan.wish.formula, *(one.formula for one in plan.poured))
    return any(formula is not None and formula.one_shot for formula in formulas)
