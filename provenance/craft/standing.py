"""How a record came to be known, from its source and its two dates."""

from datetime import date

from provenance.craft.history import Fact
from provenance.model.dates import earliest, latest
from provenance.model.evidence import Source, Standing
from provenance.model.printing import Step
from provenance.model.proof import BY_EYE, Test


def standing_of(source: Source, done_on: str, entered_on: date) -> Standing:
    """The standing of something done on `done_on` (EDTF) and entered on `entered_on`.

    Only the clock of a run gives *logged*; notes count as of the same day only
    when the day is known exactly and they were entered on it.
    """
    if source == "run":
        return Standing.LOGGED
    if source == "memory":
        return Standing.FROM_MEMORY
    if earliest(done_on) == latest(done_on) == entered_on:
        return Standing.SAME_DAY
    return Standing.FROM_NOTES


def step_standing(step: Fact[Step]) -> Standing:
    """The standing of a step."""
    return standing_of(step.body.source, step.body.done_on, step.entered_on)


def test_standing(test: Fact[Test]) -> Standing:
    """The standing of a test: what was measured or seen, unless it was entered later."""
    entered = standing_of(test.body.source, test.body.done_on, test.entered_on)
    if entered in (Standing.FROM_NOTES, Standing.FROM_MEMORY):
        return entered
    if test.body.method in BY_EYE and test.body.measured_ng_per_cm2 is None:
        return Standing.BY_EYE
    return Standing.MEASURED


test_standing.__test__ = False  # type: ignore[attr-defined]  # a word of the trade, not of pytest
