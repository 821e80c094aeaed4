"""Wedges of papers and readings of prints on a day sheet."""

from collections.abc import Callable
from fractions import Fraction

from provenance.craft.numbers import read_number
from provenance.craft.sensitometry.table import read_wedge_table
from provenance.craft.units import parse_duration_ms
from provenance.errors import Problem, Refused
from provenance.model.paper import Paper
from provenance.model.readings import How, Lab, Patch, Reading, Tone, Wedge, WedgeStep
from provenance.studio.daysheet.context import Context, Item, Skipped
from provenance.studio.daysheet.forms import (
    DaySheet,
    HowForm,
    MatchForm,
    ReadingForm,
    WedgeForm,
)
from provenance.studio.daysheet.pointed import read_point
from provenance.studio.reprinting.matching import compare_prints, decide

_DENSEST = 6


def enter_wedges(context: Context, sheet: DaySheet) -> None:
    """Enter the wedges of the sheet; their papers are on record by then."""
    for place, wedge in enumerate(sheet.wedge):
        _wedge(context, place, wedge)


def enter_readings(context: Context, sheet: DaySheet) -> None:
    """Enter what was read on prints, after they were numbered."""
    for place, reading in enumerate(sheet.reading):
        _reading(context, place, reading)


def _wedge(context: Context, place: int, form: WedgeForm) -> None:
    with context.item("wedge", place) as item:
        on = item.day("on", form.on)
        exposure = item.read("exposure", parse_duration_ms, form.exposure)
        paper = item.known(Paper, form.paper, "paper")
        table = item.attempt(lambda: read_wedge_table(form.readings, form.steps), "readings")
        item.check()
        if table is None or exposure is None:
            raise Skipped
        if table.heading == "log_h":
            raise Refused(
                Problem(
                    what="exposures in log H do not tell the tablet",
                    field="readings",
                    mend="head the first column `tablet`, with the densities of its steps",
                )
            )
        item.enter(
            Wedge(
                paper=paper.id,
                done_on=on,
                grade=form.grade,
                tablet=form.tablet,
                exposure_ms=exposure,
                light=form.light,
                developer=form.developer,
                how=_how(form),
                steps=tuple(
                    WedgeStep(tablet_md=round(-1000 * step.log_h), tones=_tones(step.densities))
                    for step in table.steps
                ),
                unexposed=_tones(table.unexposed),
                full=_tones(table.full),
                source=context.source,
                note=form.note,
            ),
            f"wedge on {form.paper} {form.grade}".rstrip() + f"  {len(table.steps)} steps",
        )


def _reading(context: Context, place: int, form: ReadingForm) -> None:
    with context.item("reading", place) as item:
        on = item.day("on", form.on)
        tones: dict[str, list[Tone]] = {}
        for field, written, read in (
            ("density", form.density, density_tone),
            ("lab", form.lab, lab_tone),
        ):
            for spot, text in written.items():
                for one in _listed(item, f"{field}.{spot}", read, text):
                    tones.setdefault(spot, []).append(one)
        points = {spot: item.read(f"at.{spot}", read_point, text) for spot, text in form.at.items()}
        for spot in points.keys() - tones.keys():
            item.note(
                Refused(
                    Problem(f"“{spot}” has no reading", field=f"at.{spot}", mend="read it, or mend")
                )
            )
        held = item.print(form.print, "print")
        item.check()
        patches = tuple(
            Patch(spot=spot, tones=tuple(read), at=points.get(spot)) for spot, read in tones.items()
        )
        body = Reading(
            print=held.id,
            done_on=on,
            how=_how(form),
            patches=patches,
            source=context.source,
            note=form.note,
        )
        item.enter(body, f"readings of {form.print}  {', '.join(tones)}")


def enter_matches(context: Context, sheet: DaySheet) -> None:
    """Enter what was decided of prints that were held against others; both were read by then."""
    for place, match in enumerate(sheet.match):
        _match(context, place, match)


def _match(context: Context, place: int, form: MatchForm) -> None:
    with context.item("match", place) as item:
        on = item.day("on", form.on)
        new, reference = item.print(form.print, "print"), item.print(form.reference, "reference")
        item.check()
        matched = compare_prints(context.act, new.id, reference.id, context.settings.tolerances)
        decide(
            context.act,
            matched,
            accepted=form.accepted,
            by=form.by,
            on=on,
            why=form.why,
            source=context.source,
        )
        said = "matches" if matched.found.matches else "differs from"
        where = f" at {', '.join(matched.differs_at)}" if matched.differs_at else ""
        decided = "accepted" if form.accepted else "not accepted"
        context.entered.append(f"{form.print} {said} {form.reference}{where}; {decided}")


def _listed(item: Item, field: str, read: Callable[..., Tone], text: str) -> list[Tone]:
    """Several readings of one spot are parted by semicolons."""
    found = (item.read(field, read, one) for one in text.split(";") if one.strip())
    return [one for one in found if one is not None]


def density_tone(text: str, *, field: str = "") -> Tone:
    """A density as an instrument shows it.  Raises Refused."""
    value = read_number(text.strip(), field=field)
    if not Fraction(-1, 2) <= value <= _DENSEST:
        raise Refused(
            Problem(
                what=f"“{text.strip()}” is no density of a print",
                field=field,
                mend="give the density with two decimals, as 0.65",
            )
        )
    return Tone(density_md=round(1000 * value))


def lab_tone(text: str, *, field: str = "") -> Tone:
    """L*, a* and b* for D50, parted by blanks.  Raises Refused."""
    figures = text.split()
    if len(figures) != 3:
        raise Refused(
            Problem(
                what=f"“{text.strip()}” is not a Lab colour",
                field=field,
                mend="give L*, a* and b*, parted by blanks: 64.2 0.8 3.1",
            )
        )
    lightness, a, b = (round(100 * read_number(one, field=field)) for one in figures)
    if not (0 <= lightness <= 10_000 and abs(a) <= 15_000 and abs(b) <= 15_000):
        raise Refused(
            Problem(
                what=f"“{text.strip()}” lies outside of Lab",
                field=field,
                mend="L* is 0 to 100, a* and b* -150 to 150",
            )
        )
    return Tone(lab=Lab(lightness_hundredth=lightness, a_hundredth=a, b_hundredth=b))


def _tones(densities: tuple[float, ...]) -> tuple[Tone, ...]:
    return tuple(Tone(density_md=round(1000 * one)) for one in densities)


def _how(form: HowForm) -> How:
    return How(
        instrument=form.instrument,
        geometry=form.geometry,
        backing=form.backing,
        filter=form.filter,
        state=form.state,
    )
