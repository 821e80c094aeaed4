"""Rules for a run: its sheets are in no other, and its trays fit its plan."""

from collections import Counter
from collections.abc import Iterator

from provenance.errors import Problem
from provenance.model.chemistry import Bath
from provenance.model.prints import Print
from provenance.model.process import ProcessSheet
from provenance.model.run import Run
from provenance.records.rules.case import Case

_LONGEST_AIM_MS = 24 * 3_600_000


def run(case: Case[Run]) -> Iterator[Problem]:
    """A run in hand holds sheets that exist, each once, in trays of the right kind."""
    body = case.body
    yield from case.edtf("began_on", body.began_on)
    if not body.sheets:
        yield case.problem("has no sheets", "sheets", "say which sheets are in hand")
    for sheet, times in Counter(body.sheets).items():
        if times > 1:
            mark = case.act.get(Print, sheet).body.mark
            yield case.problem(f"names sheet {mark} twice", "sheets", "name each once")
    yield from _trays(case)
    yield from _aims(case)
    if body.state == "in hand":
        yield from _free(case)


def _trays(case: Case[Run]) -> Iterator[Problem]:
    steps = {step.name: step for step in case.act.get(ProcessSheet, case.body.process).body.steps}
    for tray in case.body.trays:
        step = steps.get(tray.step)
        bath = case.act.get(Bath, tray.bath).body
        if step is None:
            yield case.problem(
                f"the process sheet has no step {tray.step!r}",
                "trays",
                f"its steps are: {', '.join(steps)}",
            )
        elif step.role != bath.role:
            yield case.problem(
                f"bath {bath.code} is for {bath.role}, the step {tray.step} is {step.role}",
                "trays",
                "choose a bath of that kind",
            )
        if bath.retired_on is not None:
            yield case.problem(
                f"bath {bath.code} was retired on {bath.retired_on}", "trays", "choose another"
            )


def _aims(case: Case[Run]) -> Iterator[Problem]:
    """An aim of its own is for a sheet in hand, and is a time."""
    for own in case.body.aims:
        if own.sheet not in case.body.sheets:
            yield case.problem(f"#{own.sheet} is not in this run", "aims", "leave its aim out")
        if not 0 < own.aim_ms <= _LONGEST_AIM_MS:
            yield case.problem(
                f"the aim for {own.step} is not between 1 ms and 1 day", "aims", "give a time"
            )


def _free(case: Case[Run]) -> Iterator[Problem]:
    """No sheet is in another run in hand, and every sheet exists."""
    for sheet in case.body.sheets:
        held = case.act.get(Print, sheet).body
        if held.existence != "exists" and case.before is None:
            yield case.problem(f"sheet {held.mark} is {held.existence}", "sheets", "leave it out")
        for other in case.act.linked(sheet, Run, "sheets"):
            if other.id != case.record and other.body.state == "in hand":
                yield case.problem(
                    f"sheet {held.mark} is in the run #{other.id}, which is still in hand",
                    "sheets",
                    "finish that run first, or leave the sheet out",
                )


def run_cautions(case: Case[Run]) -> Iterator[Problem]:
    """Trays that another run in hand uses too; said once, when the run begins."""
    if case.before is not None:
        return
    shared: dict[int, list[str]] = {}
    for bath in case.body.baths:
        for other in case.act.linked(bath, Run, "baths"):
            if other.id != case.record and other.body.state == "in hand":
                shared.setdefault(other.id, []).append(case.act.get(Bath, bath).body.code)
    for run, codes in shared.items():
        many = len(codes) > 1
        yield case.problem(
            f"bath{'s' if many else ''} {', '.join(codes)} {'are' if many else 'is'} in use by"
            f" the run #{run} as well",
            "trays",
            "two runs share their capacity; give each its own trays if they are apart",
        )
