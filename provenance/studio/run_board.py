"""All that stands on the board beside the trays: sheets, trays, findings, the last key."""

from dataclasses import dataclass

from provenance.craft.running import most_urgent, together
from provenance.craft.sequence.finding import LEVELS, Finding
from provenance.model.chemistry import Bath
from provenance.model.edition import Edition
from provenance.model.prints import Print
from provenance.model.process import PlannedStep
from provenance.model.run import Run
from provenance.records.clock import Moment
from provenance.records.reader import Reader, Stored
from provenance.studio.folder import StudioFolder
from provenance.studio.run_carried import carried_over
from provenance.studio.run_findings import findings_before
from provenance.studio.run_presses import Press, presses
from provenance.studio.running import RunSheet, RunView, view_run
from provenance.studio.settings import Settings
from provenance.studio.shelf.trays import Tray, tray
from provenance.studio.unfixed import unfixed

MOST_SHEETS = 9
"""A digit for each."""
_LEVELS = list(LEVELS)


@dataclass(frozen=True)
class Board:
    """A run with everything that is told of it; `at` moves its clocks on."""

    view: RunView
    head: int
    """The last entry of the journal that it was read from."""
    title: str
    trays: dict[int, tuple[str, str]]
    """By the id of the bath: its code, and what to think of it."""
    findings: dict[tuple[int, str], tuple[Finding, ...]]
    """By sheet and the step that it goes into next."""
    presses: tuple[Press, ...]
    unfixed: frozenset[int]

    @property
    def digits(self) -> dict[str, RunSheet]:
        """The key of each sheet: the number of its pencil mark, else its place."""
        sheets = self.view.sheets
        marked = ["".join(one for one in sheet.mark if one.isdigit()) for sheet in sheets]
        plain = all(len(one) == 1 and one != "0" for one in marked)
        keys = marked if plain and len(set(marked)) == len(marked) else None
        return dict(zip(keys or map(str, range(1, MOST_SHEETS + 1)), sheets, strict=False))

    def urgent(self, view: RunView) -> RunSheet | None:
        """The sheet that needs a hand next: in a tray, else the first that goes on."""
        here = {one.print.id: one for one in view.in_hand}
        state = most_urgent([one.state for one in view.in_hand])
        if state is not None:
            return here[state.sheet]
        waiting = [one for one in view.in_hand if one.state.planned is not None]
        begun = [one for one in waiting if one.state.last is not None]
        return next(iter(begun or waiting), None)

    def group(self, view: RunView) -> tuple[RunSheet, ...]:
        """The sheets that a key is for when none was picked."""
        first = self.urgent(view)
        if first is None:
            return ()
        states = together([one.state for one in view.in_hand], first.state)
        return tuple(one for one in view.in_hand if one.state in states)

    def gravest(self) -> tuple[int, str, Finding] | None:
        """The gravest finding about what comes next, with its sheet and step; first things first.

        What has been overridden is not told again.
        """
        over = {
            (one.finding, one.step, sheet)
            for one in self.view.run.body.overrides
            for sheet in one.sheets
        }
        found = [
            (sheet, step, finding)
            for (sheet, step), every in self.findings.items()
            for finding in every
            if (finding.case, step, sheet) not in over
        ]
        return min(found, key=lambda one: _LEVELS.index(one[2].level), default=None)

    def tray_of(self, step: PlannedStep | None) -> tuple[str, str]:
        """The code of the bath that stands for a step, and what to think of it."""
        bath = self.view.run.body.bath_for(step.name) if step is not None else None
        return self.trays[bath] if bath is not None else ("", step.agent if step else "")


def read_board(
    reader: Reader, folder: StudioFolder, settings: Settings, run: int, now: Moment
) -> Board:
    """The board of the run with that id.  Raises NotFound."""
    stored = reader.get(Run, run)
    view = view_run(reader, stored, now)
    ahead: dict[str, list[int]] = {}
    steps: dict[str, PlannedStep] = {}
    for one in view.in_hand:
        following = one.state.next if one.state.doing is not None else one.state.planned
        if following is not None:
            steps[following.name] = following
            ahead.setdefault(following.name, []).append(one.print.id)
    carried = carried_over(reader, folder, view)
    findings = {
        (sheet, name): findings_before(
            reader, folder, settings, view, [sheet], steps[name], carried
        )
        for name, sheets in ahead.items()
        for sheet in sheets
    }
    return Board(
        view=view,
        head=reader.head()[0],
        title=run_title(reader, stored),
        trays={
            bath: _told(tray(reader, reader.get(Bath, bath), settings, now.local_date()))
            for bath in stored.body.baths
        },
        findings=findings,
        presses=tuple(presses(reader, stored)),
        unfixed=unfixed(reader, stored),
    )


def run_title(reader: Reader, run: Stored[Run]) -> str:
    """A run in a few words: its editions and how many sheets."""
    prints = (reader.get(Print, sheet).body for sheet in run.body.sheets)
    codes = dict.fromkeys(reader.get(Edition, one.edition).body.code for one in prints)
    count = len(run.body.sheets)
    return f"{', '.join(codes)}, {count} sheet{'s' if count > 1 else ''}"


def _told(tray: Tray) -> tuple[str, str]:
    """A tray in a few words: so much went through, and what is left or wrong."""
    body, state = tray.bath.body, tray.state
    sheets = f"{tray.sheets} sheet{'s' if tray.sheets != 1 else ''}"
    if state in ("past its time", "past its limit", "may be past its limit"):
        said = "perhaps past" if state == "may be past its limit" else state
        return body.code, f"{said}; {sheets}"
    if body.one_shot:
        return body.code, "one use" if not tray.sheets else f"one use; {sheets}"
    if tray.fit_for is not None:
        return body.code, f"{sheets}, {tray.fit_for.sheets} more"
    return body.code, sheets if tray.sheets else "fresh" if body.role == "fix" else ""
