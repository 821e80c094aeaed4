"""The plan of a reprint: exposure with its band, grade, areas, strip, trays, targets."""

from dataclasses import dataclass
from datetime import date
from math import ceil

from msgspec.structs import replace

from provenance.craft.caution import Caution
from provenance.craft.comparing import Tolerances
from provenance.craft.exposure.areas import AreaTimes, area_times
from provenance.craft.exposure.reprint import Change, Magnification, NewExposure, reprint
from provenance.craft.exposure.strips import TestStrip, strip_around
from provenance.craft.sensitometry.choice import Predicted
from provenance.errors import Problem, Refused
from provenance.model.paper import Paper
from provenance.model.printing import Burn
from provenance.model.process import ProcessSheet
from provenance.model.study import WashStudy
from provenance.records.reader import Reader, Stored
from provenance.studio.chemicals import load_chemicals
from provenance.studio.folder import StudioFolder
from provenance.studio.processes import load_process
from provenance.studio.reprinting.papers import PaperChange, Question, paper_change
from provenance.studio.reprinting.reference import (
    MEASURED_ERROR,
    Missing,
    Reference,
    reference_of,
    wedges_on,
)
from provenance.studio.reprinting.session import Session, plan_session
from provenance.studio.settings import read_settings

STRIP_PATCHES = 5
_SIXTHS, _WIDEST_STEP = 6, 1.0


@dataclass(frozen=True)
class Wish:
    """What is to be printed on, and how."""

    paper: str
    magnification_thousandth: int | None = None
    """None for the reference's own."""
    grade: str | None = None
    sheets: int = 1
    aperture_tenth: int | None = None
    process: str | None = None


@dataclass(frozen=True)
class Aim:
    """The density that a spot is to have, and how far it may be off."""

    spot: str
    density: float
    tolerance: float
    predicted: Predicted | None


@dataclass(frozen=True)
class ReprintPlan:
    """Everything that is known before the light goes out."""

    reference: Reference
    paper: Stored[Paper]
    wish: Wish
    missing: tuple[Missing, ...]
    change: PaperChange
    exposure: NewExposure | None
    """Of the whole sheet, all parts together; None without a base on record."""
    parts_s: dict[str, float]
    """Seconds by grade."""
    areas: tuple[AreaTimes, ...]
    strip: TestStrip | None
    session: Session | None
    aims: tuple[Aim, ...]
    questions: tuple[Question, ...]
    cautions: tuple[Caution, ...]
    washing: WashStudy | None = None
    """How the new paper washes, where the studio has studied it; the latest study."""


def plan_reprint(
    reader: Reader, folder: StudioFolder, record: int, wish: Wish, *, today: date
) -> ReprintPlan:
    """How to print the reference `record` again as `wish` says.

    Raises NotFound for a paper or process that is not there, and Refused for a
    grade without a wedge, no sheets, or figures that are not above zero.
    """
    if wish.sheets < 1:
        raise Refused(Problem("no sheets are to be printed", field="sheets", mend="give 1 or more"))
    reference = reference_of(reader, record)
    paper = reader.by_code(Paper, wish.paper)
    if paper is None:
        raise Refused(
            Problem(
                what=f"there is no paper {wish.paper}",
                field="paper",
                mend="enter it by a day sheet; `provenance list papers` shows those on record",
            )
        )
    change = paper_change(reference, paper, wedges_on(reader, paper.id), wish.grade)
    old_s = {grade: ms / 1000 for grade, ms in reference.exposure.base_exposures_ms.items()}
    exposure = reprint(sum(old_s.values()), _change(reference, wish, change)) if old_s else None
    factor = 2**exposure.stops if exposure is not None else 1.0
    names = {grade: grade for grade in old_s}
    if len(old_s) == 1:
        names = dict.fromkeys(old_s, change.grade)
    parts = {names[grade]: seconds * factor for grade, seconds in old_s.items()}
    burns = tuple(_renamed(burn, names) for burn in reference.exposure.burns)
    strip, unset = _strip(exposure)
    process = _process(reader, folder, reference, wish)
    sheet = paper.body.sheet or reference.history.print.body.sheet
    return ReprintPlan(
        reference,
        paper,
        wish,
        reference.missing,
        change,
        exposure,
        parts,
        area_times(parts, burns) if parts and burns else (),
        strip,
        plan_session(
            reader,
            load_chemicals(folder),
            reference.history,
            process,
            sheet=sheet,
            sheets=wish.sheets,
            today=today,
        )
        if process is not None
        else None,
        _aims(change, read_settings(folder).tolerances),
        (*change.questions, *_questions(reference, change, unset)),
        (*change.cautions, *(exposure.cautions if exposure else ())),
        next((one.body for one in reversed(reader.linked(paper.id, WashStudy, "paper"))), None),
    )


def _change(reference: Reference, wish: Wish, change: PaperChange) -> Change:
    old_m = reference.magnification
    wished = wish.magnification_thousandth
    new_m = Magnification(wished / 1000, MEASURED_ERROR) if wished else old_m
    same = Magnification(1.0)
    old_f = (reference.exposure.aperture_tenth or 80) / 10
    new_f = wish.aperture_tenth / 10 if wish.aperture_tenth else old_f
    if reference.exposure.aperture_tenth is None:
        new_f = old_f
    known = old_m is not None and new_m is not None
    return Change(
        change.delta_log_h,
        change.error_log_h,
        old_m if known and old_m else same,
        new_m if known and new_m else same,
        old_f,
        new_f,
        reference.exposure.head,
    )


def _renamed(burn: Burn, names: dict[str, str]) -> Burn:
    return replace(burn, grade=names.get(burn.grade, burn.grade))


def _strip(exposure: NewExposure | None) -> tuple[TestStrip | None, str]:
    """A strip that reaches over the band, in sixths of a stop; why not, where there is none."""
    if exposure is None:
        return None, ""
    steps = max(1, ceil(_SIXTHS * 2 * exposure.band_stops / (STRIP_PATCHES - 1)))
    try:
        return strip_around(exposure.seconds, STRIP_PATCHES, min(steps / _SIXTHS, _WIDEST_STEP)), ""
    except Refused as refused:
        problem = refused.problems[0]
        return None, f"no strip: {problem.what}; {problem.mend}"


def _process(
    reader: Reader, folder: StudioFolder, reference: Reference, wish: Wish
) -> ProcessSheet | None:
    if wish.process is not None:
        return load_process(folder, wish.process)
    used = reference.history.printing.body.process
    return reader.get(ProcessSheet, used).body if used is not None else None


def _aims(change: PaperChange, tolerances: Tolerances) -> tuple[Aim, ...]:
    best = change.candidates[0] if change.candidates else None
    predicted = {one.target.spot: one for one in best.tones} if best else {}
    return tuple(
        Aim(one.spot, one.density, tolerances.density_at(one.density), predicted.get(one.spot))
        for one in change.targets
    )


def _questions(reference: Reference, change: PaperChange, unset: str) -> list[Question]:
    found = [Question("strip", unset, {"why": unset})] if unset else []
    exposure = reference.exposure
    if exposure.preflash_ms:
        seconds = f"{exposure.preflash_ms / 1000:g}"
        text = f"the reference was pre-flashed {seconds} s: test the flash anew on this paper"
        found.append(Question("flash", text, {"seconds": seconds}))
    if exposure.mask:
        text = f"a mask lay on the negative ({exposure.mask}): is it still there?"
        found.append(Question("mask", text, {"mask": exposure.mask}))
    if change.grade != exposure.grade and any(burn.grade for burn in exposure.burns):
        text = "burns name grades of the old paper: choose those of the new one"
        found.append(Question("grades", text))
    best = change.candidates[0] if change.candidates else None
    for tone in best.unreachable if best else ():
        spot, density = tone.target.spot, f"{tone.target.density:.2f}"
        words = {"spot": spot, "density": density}
        found.append(Question(str(tone.reach), f"{spot} ({density}) is {tone.reach}", words))
    return found
