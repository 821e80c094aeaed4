"""A print's life, top to bottom: each entry with the day, the words and its standing."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from provenance.craft.history import Fact, PrintHistory, work_order
from provenance.craft.overriding import begun_by
from provenance.craft.standing import (
    paper_standing,
    printing_standing,
    standing_of,
    step_standing,
    test_standing,
)
from provenance.model.chemistry import TONING, Role
from provenance.model.dates import earliest, format_edtf
from provenance.model.evidence import Standing
from provenance.model.printing import Exposure, Step
from provenance.model.prints import Print
from provenance.model.proof import Test
from provenance.model.quantity_text import (
    Units,
    format_clock,
    format_dilution,
    format_size,
    format_stops,
    format_temperature,
)
from provenance.studio.overrides import override_text


@dataclass(frozen=True)
class LifeLine:
    """One line of a print's life."""

    day: str
    """EDTF; empty for what has no date of its own."""
    what: str
    standing: Standing | None
    records: tuple[int, ...]


def life(history: PrintHistory, units: Units = "metric") -> list[LifeLine]:
    """Everything on record about a print, in the order in which it happened."""
    lines = [*_begun(history, units), *_worked(history), *_finished(history)]
    # what has no day of its own comes last
    return sorted(lines, key=lambda one: earliest(one.day) if one.day else date.max)


def _begun(history: PrintHistory, units: Units) -> Iterator[LifeLine]:
    printing = history.printing.body
    known = printing_standing(history.printing)
    body = history.print.body
    yield LifeLine(
        printing.done_on,
        f"{_sizes(body, units)}, back {body.mark}",
        known,
        (history.print.id,),
    )
    if history.paper is not None:
        paper = history.paper.body
        words = [
            paper.code,
            paper.base,
            paper.weight,
            paper.surface,
        ]
        batch = f", batch {paper.batch}" if paper.batch else ""
        yield LifeLine(
            printing.done_on,
            f"paper {' '.join(filter(None, words))}{batch}",
            paper_standing(history.paper, history.printing),
            (history.paper.id,),
        )
    exposed = _exposed(printing.exposure) if printing.exposure else "exposed; no plan on record"
    yield LifeLine(printing.done_on, exposed, known, (history.printing.id,))


def _sizes(body: Print, units: Units) -> str:
    """Sheet and image; the unit is said once where it is the same."""
    sheet, image = format_size(body.sheet, units), format_size(body.image, units)
    figures, _, unit = sheet.rpartition(" ")
    return f"sheet {figures if image.endswith(f' {unit}') else sheet}, image {image}"


def _exposed(exposure: Exposure) -> str:
    words = ["exposed"]
    if exposure.base_ms is not None:
        words.append(f"{exposure.base_ms / 1000:g} s")
    if exposure.aperture_tenth is not None:
        words.append(f"f/{exposure.aperture_tenth / 10:g}")
    if exposure.grade:
        words.append(f"grade {exposure.grade}")
    plan = " ".join(words)
    parts = [f"at {part.grade} {part.time_ms / 1000:g} s" for part in exposure.parts]
    burns = [f"{burn.area} {format_stops(burn.milli_stop)}" for burn in exposure.burns]
    flash = [f"pre-flash {exposure.preflash_ms / 1000:g} s"] if exposure.preflash_ms else []
    mask = [f"mask: {exposure.mask}"] if exposure.mask else []
    return "; ".join([plan, *parts, *flash, *mask, *burns])


def _worked(history: PrintHistory) -> Iterator[LifeLine]:
    work: list[Fact[Step] | Fact[Test]] = [*history.steps, *history.contradicted, *history.tests]
    told = _overridden(history)
    run: list[Fact[Step]] = []
    for fact in sorted(work, key=work_order):
        if isinstance(fact.body, Step):
            step = Fact(fact.id, fact.version, fact.body, fact.entered_on)
            apart = step.id in told or _discounted(history, [*run[:1], step])
            if run and (apart or not _together(run, step)):
                yield _stage(history, run)
                run = []
            yield from told.pop(step.id, ())
            run.append(step)
            continue
        if run:
            yield _stage(history, run)
            run = []
        yield _test(fact, fact.body)
    if run:
        yield _stage(history, run)
    for lines in told.values():
        yield from lines


def _overridden(history: PrintHistory) -> dict[int, list[LifeLine]]:
    """What was overridden, by the step that was begun then; by the entry where it is gone."""
    told: dict[int, list[LifeLine]] = {}
    everything = (*history.steps, *history.contradicted)
    for over in history.overrides:
        begun = begun_by(everything, over)
        told.setdefault(begun.id if begun is not None else over.entry, []).append(
            LifeLine(
                str(over.on),
                override_text(over.body, over.explained_on),
                standing_of("run", str(over.on), over.on),
                (over.run,),
            )
        )
    return told


def _discounted(history: PrintHistory, steps: list[Fact[Step]]) -> bool:
    """Whether some of `steps` count and others do not."""
    against = {step.id for step in history.contradicted}
    return len({step.id in against for step in steps}) > 1


_STAGES: tuple[frozenset[Role], ...] = (
    frozenset({"presoak", "develop"}),
    frozenset({"stop", "rinse", "fix"}),
    frozenset({"washing aid", "wash"}),
    TONING,
    frozenset({"stabilise"}),
)
"""Baths that one line of a life tells together."""


def _together(run: list[Fact[Step]], step: Fact[Step]) -> bool:
    """Whether a step is told in one line with those before it."""
    # a rinse belongs to whatever it stands among
    role = next((one.body.role for one in run if one.body.role != "rinse"), run[0].body.role)
    stage = next(stage for stage in _STAGES if role in stage)
    return (
        (step.body.role in stage or step.body.role == "rinse")
        and step.body.done_on == run[0].body.done_on
        and step_standing(step) == step_standing(run[0])
    )


def _stage(history: PrintHistory, run: list[Fact[Step]]) -> LifeLine:
    """The steps of one stage, with the records of all of them."""
    against = run[0] in history.contradicted
    return LifeLine(
        run[0].body.done_on,
        ", ".join(_step(history, step.body) for step in run)
        + ("; entered afterwards, not counted: at the trays it was missed" if against else ""),
        step_standing(run[0]),
        tuple(step.id for step in run),
    )


def _step(history: PrintHistory, body: Step) -> str:
    bath = history.bath(body.bath)
    duration = body.told_ms(history.print.id)
    words = [
        body.name or body.role,
        format_dilution(bath.dilution) if bath is not None and bath.dilution else "",
        format_clock(duration) if duration is not None else "time not noted",
        f"at {format_temperature(body.temperature_tenth_c)}"
        if body.temperature_tenth_c is not None
        else "",
    ]
    return " ".join(filter(None, words))


def _test(fact: Fact[Step] | Fact[Test], body: Test) -> LifeLine:
    said = body.reading or body.verdict
    if body.measured_ng_per_cm2 is not None:
        said = f"{body.measured_ng_per_cm2 / 1000:g} µg/cm²"
    at = f" at {format_clock(body.read_ms)}" if body.read_ms is not None else ""
    test = Fact(fact.id, fact.version, body, fact.entered_on)
    return LifeLine(
        body.done_on,
        f"residual {body.question}, {body.method}, {body.specimen}: {said}{at}, {body.verdict}",
        test_standing(test),
        (fact.id,),
    )


def _finished(history: PrintHistory) -> Iterator[LifeLine]:
    body = history.print.body
    if body.signature is not None and history.signature_entered_on is not None:
        signature = body.signature
        how = "signed" if signature.counts else f"{signature.means}, not the artist's signature"
        where = " ".join(filter(None, (signature.where, signature.medium)))
        yield LifeLine(
            signature.on,
            f"numbered {body.designation}, {how}" + (f", {where}" if where else ""),
            standing_of(signature.source, signature.on, history.signature_entered_on),
            (history.print.id,),
        )
    elif body.designation is not None:
        yield LifeLine("", f"numbered {body.designation}, not signed", None, (history.print.id,))
    for scan in history.scans:
        yield LifeLine(
            str(scan.entered_on),
            f"scan {scan.body.width_px} × {scan.body.height_px}, {scan.body.bits} bit",
            Standing.LOGGED,
            (scan.id,),
        )
    for held in history.matches:
        report = held.report.body
        where = f" at {', '.join(report.differs_at)}" if report.differs_at else ""
        said = f"matches {held.reference}" if not where else f"differs from {held.reference}{where}"
        decided = "accepted" if report.accepted else "not accepted"
        yield LifeLine(
            report.on,
            f"{said}; {decided} ({report.by})",
            standing_of(report.source, report.on, held.report.entered_on),
            (held.report.id, report.reading, report.reference_reading),
        )
    for certificate in history.certificates:
        yield LifeLine(
            str(certificate.entered_on),
            f"certificate {certificate.body.number}, {certificate.body.state}",
            Standing.LOGGED,
            (certificate.id,),
        )
    if history.replaced is not None:
        gone = history.replaced.body
        what = f"in the place of {gone.mark or gone.designation}, which was {gone.existence}"
        yield LifeLine(gone.gone_on or "", what, None, (history.replaced.id, history.print.id))
    if body.approved is not None:
        whom = "the artist" if body.approved.by == "artist" else body.approved.role or "another"
        yield LifeLine(body.approved.on, f"approved by {whom}", None, (history.print.id,))
    for event in history.custody:
        if event.body.event == body.existence:
            continue  # said below, with the reason
        yield LifeLine(
            event.body.on,
            event.body.event,
            standing_of(event.body.source, event.body.on, event.entered_on),
            (event.id,),
        )
    if body.existence != "exists":
        when = f" {format_edtf(body.gone_on)}" if body.gone_on else ""
        yield LifeLine(
            body.gone_on or "",
            f"{body.existence}{when}: {body.gone_why}"
            + (f"; {body.gone_evidence}" if body.gone_evidence else ""),
            None,
            (history.print.id,),
        )
