"""How a record came to be known, from its source and its two dates."""

from datetime import date, timedelta

from provenance.craft.history import Fact
from provenance.model.dates import earliest, latest
from provenance.model.evidence import Source, Standing
from provenance.model.paper import Paper
from provenance.model.printing import Printing, Step
from provenance.model.proof import BY_EYE, Test

_PAST_MIDNIGHT = timedelta(days=1)
"""A run may end on the day after the one that it began on."""


def standing_of(source: Source, done_on: str, entered_on: date) -> Standing:
    """The standing of something done on `done_on` (EDTF) and entered on `entered_on`.

    Only the clock of a run gives *logged*, and only while the work was done:
    what was changed afterwards is not what the clock wrote.  Notes count as of
    the same day only when the day is known exactly and they were entered on it.
    """
    if source == "memory":
        return Standing.FROM_MEMORY
    day = earliest(done_on)
    if day == latest(done_on):
        if source == "run" and day <= entered_on <= day + _PAST_MIDNIGHT:
            return Standing.LOGGED
        if day == entered_on:
            return Standing.SAME_DAY
    return Standing.FROM_NOTES


def printing_standing(printing: Fact[Printing]) -> Standing:
    """The standing of a printing."""
    return standing_of(printing.body.source, printing.body.done_on, printing.entered_on)


def paper_standing(paper: Fact[Paper], printing: Fact[Printing]) -> Standing:
    """The standing of the paper of a printing.

    A batch that was on record before the work is as well known as the printing
    that names it.
    """
    if paper.body.source != "memory" and paper.entered_on <= earliest(printing.body.done_on):
        return printing_standing(printing)
    return standing_of(paper.body.source, printing.body.done_on, paper.entered_on)


def step_standing(step: Fact[Step]) -> Standing:
    """The standing of a step."""
    return standing_of(step.body.source, step.body.done_on, step.entered_on)


def test_standing(test: Fact[Test]) -> Standing:
    """The standing of a test: what was measured or seen, unless it was entered later.

    A spot is seen, never measured: no published table turns a stain into an
    amount (handbook of the trade).
    """
    entered = standing_of(test.body.source, test.body.done_on, test.entered_on)
    if entered in (Standing.FROM_NOTES, Standing.FROM_MEMORY):
        return entered
    return Standing.BY_EYE if test.body.method in BY_EYE else Standing.MEASURED


test_standing.__test__ = False  # type: ignore[attr-defined]  # a word of the trade, not of pytest
