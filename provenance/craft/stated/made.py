"""How a print was made: printing, paper, baths, and what it was held against."""

from collections.abc import Iterator
from dataclasses import replace

from provenance.craft.history import PrintHistory, comes_before
from provenance.craft.stages import Stage, stages
from provenance.craft.standing import (
    paper_standing,
    printing_standing,
    standing_of,
    step_standing,
)
from provenance.craft.stated.entered import entered_words
from provenance.craft.stated.finished import finished
from provenance.model.chemistry import TONERS
from provenance.model.dates import earliest, latest
from provenance.model.evidence import Claim, Standing, Term, Treatment, When, Word, weakest


def made(history: PrintHistory) -> Iterator[Claim]:
    yield from _printed(history)
    for stage in stages(history.steps):
        yield _stage(history, stage)
    yield from _matched(history)
    yield from finished(history)


def _matched(history: PrintHistory) -> Iterator[Claim]:
    """That it was printed later than the print it was held against, and how that went.

    Only the last decision counts, and only where it accepted the print.
    """
    if not history.matches:
        return
    held = max(history.matches, key=lambda one: one.report.id)
    report = held.report.body
    later = latest(held.reference_printed_on) < earliest(history.printing.body.done_on)
    if not (later and report.accepted):
        return
    standing = standing_of(report.source, report.on, held.report.entered_on)
    words: dict[str, Word] = {
        "when": When(report.on),
        "reference": held.reference,
        "reference_when": When(held.reference_printed_on),
        "by": report.by,
    }
    apart = report.outcome == "differs"
    if apart:
        words["where"] = report.differs_at
    yield Claim(
        id="made.matched.apart" if apart else "made.matched",
        section="made",
        standing=standing,
        evidence=(
            held.report.id,
            report.reading,
            report.reference_reading,
            report.reference,
            held.reference_printing,
        ),
        words=words | entered_words(standing, held.report.entered_on),
    )


def _printed(history: PrintHistory) -> Iterator[Claim]:
    """When, from what and on what; the paper apart where it is less well known."""
    printing, negative = history.printing.body, history.negative.body
    standing = printing_standing(history.printing)
    if history.print.body.source == "memory":
        standing = weakest((standing, Standing.FROM_MEMORY))
    words: dict[str, Word] = {"when": When(printing.done_on), "negative": negative.code}
    if negative.made is not None:
        known = standing_of("notes", negative.made, history.negative.entered_on)
        if weakest((standing, known)) == standing:
            words["negative_when"] = When(negative.made)
    printed = Claim(
        id="made.printed",
        section="made",
        standing=standing,
        evidence=(history.print.id, history.printing.id, history.negative.id),
        words=words,
    )
    if history.paper is None:
        yield printed
        return
    paper = history.paper.body
    known = paper_standing(history.paper, history.printing)
    on: dict[str, Word] = {
        "base": Term("base", paper.base),
        "qualities": tuple(filter(None, (paper.weight, paper.surface, paper.tone))),
    }
    if weakest((standing, known)) == standing:
        yield replace(
            printed,
            id="made.printed.on",
            evidence=(*printed.evidence, history.paper.id),
            words=words | on,
        )
        return
    yield printed
    yield Claim(
        id="made.paper",
        section="made",
        standing=known,
        evidence=(history.printing.id, history.paper.id),
        words=on,
    )


def _stage(history: PrintHistory, stage: Stage) -> Claim:
    treatments = tuple(
        Treatment(
            role=step.body.role,
            agent=step.body.agent or (bath.made_from if bath else ""),
            dilution=bath.dilution if bath else None,
            duration_ms=step.body.told_ms(history.print.id),
        )
        for step in stage.steps
        for bath in (history.bath(step.body.bath),)
    )
    name = stage.name
    if name == "fixed":
        name += _how_many_baths(stage)
    if name == "washed" and _follows_toning(history, stage):
        name += ".after"
    standing = weakest(tuple(step_standing(step) for step in stage.steps))
    words: dict[str, Word] = {"when": When(stage.steps[0].body.done_on), "baths": treatments}
    return Claim(
        id=f"made.{name}",
        section="made",
        standing=standing,
        evidence=tuple(
            dict.fromkeys(
                one for step in stage.steps for one in (step.id, step.body.bath) if one is not None
            )
        ),
        words=words | entered_words(standing, max(step.entered_on for step in stage.steps)),
    )


def _how_many_baths(stage: Stage) -> str:
    """One or two, where the record shows it: going twice into one tray is one bath."""
    if len(stage.steps) == 1:
        return ".one"
    baths = {step.body.bath for step in stage.steps}
    if None in baths:
        return ""
    return {1: ".one", 2: ".two"}.get(len(baths), "")


def _follows_toning(history: PrintHistory, stage: Stage) -> bool:
    toned = [step for step in history.steps if step.body.role in TONERS]
    return any(comes_before(toning, stage.steps[0]) for toning in toned)
