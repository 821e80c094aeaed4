"""A plan put on the darkroom worksheet, in the words of the studio's template."""

from collections.abc import Iterator
from datetime import datetime
from pathlib import Path

from provenance.craft.sensitometry.charts import BAND, LETTERS
from provenance.craft.washing.chart import wash_chart
from provenance.craft.washing.fit import fit_washing
from provenance.documents.worksheet import (
    Crop,
    Figure,
    Line,
    Note,
    Part,
    Worksheet,
    draw_worksheet,
)
from provenance.documents.worksheet_words import (
    FILE,
    WorksheetWords,
    read_worksheet_words,
    shipped_worksheet_words,
)
from provenance.errors import Refused
from provenance.model.certificate import Page
from provenance.model.printing import Burn
from provenance.model.quantities import Point
from provenance.model.quantity_text import format_stops
from provenance.records.files import write_new
from provenance.studio.folder import StudioFolder
from provenance.studio.next_file import next_pdf
from provenance.studio.reprinting.pictures import plan_charts
from provenance.studio.reprinting.plan import ReprintPlan
from provenance.studio.reprinting.session import WATER_NAME, Difference, Mix


def write_worksheet(
    path: Path,
    plan: ReprintPlan,
    folder: StudioFolder,
    *,
    name: str,
    page: Page,
    language: str,
    drawn_at_utc: datetime,
) -> None:
    """Write the worksheet of `plan`, for the reference called `name`, to `path`.

    Raises Refused when what is needed in the dark does not fit on one side, and
    for a language that the template does not have.
    """
    text = folder.template(FILE).read_text(encoding="utf-8")
    sheet = worksheet_of(
        plan,
        read_worksheet_words(text, language),
        name=name,
        page=page,
        language=language,
        drawn_at_utc=drawn_at_utc,
    )
    write_new(path, draw_worksheet(sheet))


def next_worksheet_file(folder: StudioFolder, name: str, day: str) -> Path:
    """Where a worksheet drawn on `day` goes: a file of the studio folder that is not there yet.

    Raises Refused when there can be no folder for it.
    """
    plain = "-".join("".join(one if one.isalnum() else " " for one in name).split())
    return next_pdf(folder.path / "worksheets", f"{plain}-{day}")


def worksheet_of(
    plan: ReprintPlan,
    words: WorksheetWords | None = None,
    *,
    name: str,
    page: Page,
    drawn_at_utc: datetime,
    language: str = "en",
) -> Worksheet:
    """The plan as finished text; in the shipped words unless others are given."""
    words = words or shipped_worksheet_words(language)
    history, new = plan.reference.history, plan.exposure
    parts = (
        Part(words.areas, tuple(_areas(plan, words))),
        Part(words.trays, tuple(_trays(plan, words))),
        Part(words.targets, tuple(_aims(plan, words))),
    )
    return Worksheet(
        title=words.title.format(print=name, image=history.negative.body.title),
        about=words.about.format(
            negative=history.negative.body.code,
            paper=plan.paper.body.code,
            sheets=plan.wish.sheets,
        ),
        base=words.base.format(seconds=f"{new.seconds:.1f}") if new is not None else "",
        beside=tuple(one for one in _beside(plan, words) if one),
        parts=parts,
        before=(Part(words.to_mix, tuple(_mixes(plan, words))),),
        ladder=tuple(f"{one.total_s:.1f}" for one in plan.strip.patches) if plan.strip else (),
        crop=_crop(plan),
        crop_alternative=words.crop,
        figures=tuple(_figures(plan, words)),
        notes=tuple(one for one in _notes(plan, words) if one.lines),
        drawn_at_utc=drawn_at_utc,
        author=history.studio.body.artist,
        page=page,
        language=language,
    )


def _beside(plan: ReprintPlan, words: WorksheetWords) -> Iterator[str]:
    exposure, new = plan.reference.exposure, plan.exposure
    if new is not None:
        yield words.band.format(low=f"{new.low_s:.1f}", high=f"{new.high_s:.1f}")
    if len(plan.parts_s) > 1:
        for grade, seconds in plan.parts_s.items():
            yield words.part.format(seconds=f"{seconds:.1f}", grade=grade)
    elif plan.change.grade:
        yield words.grade.format(grade=plan.change.grade)
    aperture = plan.wish.aperture_tenth or exposure.aperture_tenth
    yield f"f/{aperture / 10:g}, {exposure.lens}".strip(", ") if aperture else exposure.lens
    enlarged = plan.wish.magnification_thousandth or exposure.magnification_thousandth
    if enlarged:
        yield words.magnification.format(times=f"{enlarged / 1000:.3f}")
    head = {"diffuse": words.diffuse, "condenser": words.condenser}.get(exposure.head, "")
    yield ", ".join(filter(None, (exposure.enlarger, head, exposure.carrier)))
    if exposure.emergence_ms:
        yield words.first_tone.format(seconds=f"{exposure.emergence_ms / 1000:g}")


def _lettered(burns: tuple[Burn, ...]) -> dict[str, tuple[str, Point]]:
    """A small letter for each area that says where it lies."""
    placed = {burn.area: burn.at for burn in reversed(burns) if burn.at is not None}
    areas = dict.fromkeys(burn.area for burn in burns if burn.area in placed)
    return {
        area: (letter, placed[area]) for letter, area in zip(LETTERS.lower(), areas, strict=False)
    }


def _areas(plan: ReprintPlan, words: WorksheetWords) -> Iterator[Line]:
    burns = plan.reference.exposure.burns
    notes = {burn.area: burn.note for burn in burns}
    letters = {area: letter for area, (letter, _at) in _lettered(burns).items()}
    timed = {area.area for area in plan.areas}

    def called(area: str) -> str:
        return f"{letters[area]}  {area}" if area in letters else area

    for area in plan.areas:
        for one in area.changes:
            pattern = words.burn if one.seconds > 0 else words.dodge
            deed = pattern.format(seconds=f"{abs(one.seconds):.1f}")
            if one.grade:
                deed = words.at_grade.format(deed=deed, grade=one.grade)
            stops = format_stops(round(1000 * one.stops))
            more = "; ".join(filter(None, (stops, notes.get(area.area, ""))))
            yield Line(called(area.area), deed, more)
    for burn in burns:
        if burn.area not in timed:
            yield Line(called(burn.area), format_stops(burn.milli_stop), burn.note)


def _trays(plan: ReprintPlan, words: WorksheetWords) -> Iterator[Line]:
    if plan.session is None:
        return
    for tray in plan.session.trays:
        changed = (_difference(one, words) for one in tray.differences)
        yield Line(tray.name, tray.aim, "; ".join(filter(None, (tray.contents, *changed))))


def _difference(one: Difference, words: WorksheetWords) -> str:
    return words.then_now.format(then=one.then, now=one.now) if one.then else words.not_then


def _mixes(plan: ReprintPlan, words: WorksheetWords) -> Iterator[Line]:
    for mix in plan.session.mixes if plan.session is not None else ():
        heed = mix.heed[0] if mix.heed else ""
        if mix.no_bottle:
            heed = words.no_bottle.format(what=mix.no_bottle)
        yield Line(mix.step, _mixed(mix, words), heed, box=False)


def _mixed(mix: Mix, words: WorksheetWords) -> str:
    taken = ", ".join(
        words.water.format(amount=amount)
        if what == WATER_NAME
        else words.of.format(amount=amount, what=what)
        if what
        else amount
        for amount, what in mix.taken
    )
    what = mix.what if mix.strength_known else words.no_strength.format(what=mix.what)
    return ": ".join(filter(None, (what, taken)))


def _aims(plan: ReprintPlan, words: WorksheetWords) -> Iterator[Line]:
    for letter, aim in zip(LETTERS, plan.aims, strict=False):
        one = aim.predicted
        told = (
            words.predicted.format(
                density=f"{one.density:.2f}", error=f"{BAND * one.error_of_prediction:.2f}"
            )
            if one is not None
            else ""
        )
        target = words.target.format(density=f"{aim.density:.2f}", tolerance=f"{aim.tolerance:.2f}")
        yield Line(f"{letter}  {aim.spot}", target, told)


def _crop(plan: ReprintPlan) -> Crop | None:
    reference = plan.reference
    frame, crop = reference.history.negative.body.format, reference.exposure.crop
    if frame is None:
        return None
    whole = (frame.height_tenth_mm, frame.width_tenth_mm)
    patches = reference.reading.body.patches if reference.reading is not None else ()
    spots = (
        (letter, one.at)
        for letter, one in zip(LETTERS, patches, strict=False)
        if one.at is not None
    )
    letters = tuple(
        (letter, at.across_permille / 1000, at.down_permille / 1000)
        for letter, at in (*_lettered(reference.exposure.burns).values(), *spots)
    )
    if crop is None:
        return Crop(whole, 0, 0, whole, letters)
    size = (crop.size.height_tenth_mm, crop.size.width_tenth_mm)
    return Crop(whole, crop.left_tenth_mm, crop.top_tenth_mm, size, letters)


def _figures(plan: ReprintPlan, words: WorksheetWords) -> Iterator[Figure]:
    told = (
        ((words.exposure, words.density), words.curves),
        ((words.target_axis, words.predicted_axis), words.tones),
    )
    for chart, (axes, caption) in zip(plan_charts(plan), told, strict=False):
        yield Figure(chart, axes, caption, caption)
    if plan.washing is None:
        return
    try:
        fit = fit_washing(plan.washing.readings)
    except Refused:
        return  # `provenance show` of the study says why it has no curve
    if not fit.bends:
        caption = words.washing.format(study=plan.washing.code)
        axes = (words.minutes, words.left)
        yield Figure(wash_chart(fit, plan.washing.readings), axes, caption, caption)


def _notes(plan: ReprintPlan, words: WorksheetWords) -> Iterator[Note]:
    yield Note(
        words.questions,
        tuple(
            words.say_question[one.id].format_map(one.words)
            if one.id in words.say_question
            else one.text
            for one in plan.questions
        ),
    )
    yield Note(
        words.missing,
        tuple(words.say_missing.get(one.id, str(one)) for one in plan.missing),
    )
    yield Note(
        words.cautions,
        tuple(words.say_caution.get(one.id, str(one)) for one in plan.cautions),
    )
    yield Note(
        words.next_best,
        tuple(
            words.runner_up.format(
                grade=one.name,
                rms=f"{one.rms_error:.3f}",
                spot=one.worst.target.spot,
                worst=f"{one.worst.error:+.2f}",
            )
            for one in plan.change.candidates[1:]
        ),
    )
    if plan.session is not None:
        yield Note(words.left_out, plan.session.left_out)
