"""What one sheet of a run has carried into a tray that others are still to go into."""

from dataclasses import dataclass, replace

from provenance.craft.history import PrintHistory
from provenance.craft.sequence.finding import Finding
from provenance.craft.sequence.review import review
from provenance.model.printing import Step
from provenance.records.dossier import print_history
from provenance.records.reader import Reader
from provenance.studio.folder import StudioFolder
from provenance.studio.running import RunView
from provenance.studio.sequences import bath_contents, load_ground

_MEETINGS = frozenset({"Q4", "Q14", "Q15", "Q16"})
"""Rules of two baths that a rinse keeps apart: without it the second holds some of the first."""
_AFRESH = "Fill the tray afresh before another sheet goes in; draw the air off."


@dataclass(frozen=True)
class Carried:
    """A tray that a sheet came into without the rinse before it, as others are told of it."""

    sheet: int
    bath: int | None
    step: str
    finding: Finding


def carried_over(reader: Reader, folder: StudioFolder, view: RunView) -> list[Carried]:
    """What the sheets of a run carried from tray to tray, as far as it matters to the others.

    A tray is told by its bath, and by the name of the step where no bath is named.
    It is a warning for the others, whatever it was for the sheet itself: that two
    baths met is over, and what is left of it is in the tray.
    """
    begun = {sheet for one in view.begun for sheet in one.sheets}
    return [
        found
        for one in view.sheets
        if one.print.id in begun
        for found in _of(reader, folder, view, one.print.id, one.mark)
    ]


def _of(
    reader: Reader, folder: StudioFolder, view: RunView, sheet: int, mark: str
) -> list[Carried]:
    history = print_history(reader, sheet)
    found = review(history, load_ground(folder), holds=bath_contents(reader, history))
    return [
        Carried(sheet, step.bath, step.name, _for_others(finding, mark, step))
        for finding in found
        if finding.rule in _MEETINGS
        for step in _last(history, finding)
        if step.run == view.run.id
    ]


def _last(history: PrintHistory, finding: Finding) -> list[Step]:
    """The step into which it was carried."""
    return [fact.body for fact in history.steps if fact.id in finding.evidence][-1:]


def _for_others(finding: Finding, mark: str, step: Step) -> Finding:
    before = " and ".join(name for name in finding.steps if name != step.name)
    return replace(
        finding,
        level="W",
        what=f"{mark} came into {step.name} from {before} without a rinse",
        do=_AFRESH,
        blocks=False,
    )
