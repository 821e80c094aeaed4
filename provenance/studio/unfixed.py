"""Which sheets of a run would still be spoiled by white light."""

from provenance.craft.running import baths_of
from provenance.model.printing import Step
from provenance.model.prints import Print
from provenance.model.process import ProcessSheet
from provenance.model.run import Run
from provenance.records.at_hand import runs_in_hand
from provenance.records.clock import Moment
from provenance.records.reader import Reader, Stored


def unfixed(reader: Reader, run: Stored[Run]) -> frozenset[int]:
    """The sheets of a run that have not been through the fixing of its plan.

    None where the plan fixes nothing; a sheet that was fixed before the run is
    fixed.
    """
    last = _last_first_fix(reader.get(ProcessSheet, run.body.process).body)
    if last is None:
        return frozenset()
    return frozenset(
        sheet
        for sheet in run.body.sheets
        if reader.get(Print, sheet).body.existence == "exists"
        and not any(_fixes(step, sheet, run.id, last) for step in _steps(reader, sheet))
    )


def paper_may_be_out(reader: Reader, now: Moment) -> bool:
    """Whether to begin in red: a run in hand holds unfixed sheets, or was begun today.

    After a program was killed nobody remembers whether the paper was shut away.
    """
    today = str(now.local_date())
    return any(
        unfixed(reader, run) or (run.body.began_on == today and _fixing(reader, run))
        for run in runs_in_hand(reader)
    )


def _fixing(reader: Reader, run: Stored[Run]) -> bool:
    return _last_first_fix(reader.get(ProcessSheet, run.body.process).body) is not None


def _last_first_fix(plan: ProcessSheet) -> str | None:
    """The last of the fixing baths that follow one another first."""
    last = None
    for step in baths_of(plan):
        if step.role == "fix":
            last = step.name
        elif last is not None:
            break
    return last


def _steps(reader: Reader, sheet: int) -> list[Step]:
    return [one.body for one in reader.linked(sheet, Step, "sheets")]


def _fixes(step: Step, sheet: int, run: int, last: str) -> bool:
    # a fix that a run began and nobody ended may have been no fix at all
    if step.role != "fix" or (step.run is not None and step.duration_for(sheet) is None):
        return False
    return step.run != run or step.name == last
