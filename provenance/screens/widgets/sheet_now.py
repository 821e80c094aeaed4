"""What is said beside the clock: which sheet, what now, until when, what then."""

from collections.abc import Sequence

from rich.text import Text

from provenance.craft.running import DRAIN_MS, SheetState, just_lifted
from provenance.model.process import PlannedStep
from provenance.screens.widgets.sheet_rows import clock
from provenance.screens.widgets.steady import Steady
from provenance.studio.running import RunSheet, RunView


class SheetNow(Steady):
    """The sheet that needs a hand next, in words."""

    DEFAULT_CSS = "SheetNow { width: 1fr; height: 1fr; }"

    def show(self, view: RunView, digits: Sequence[str], sheets: Sequence[RunSheet]) -> None:
        """Say it of `sheets`, which go together."""
        text = Text()
        if not sheets:
            done = "All sheets are through." if view.in_hand else "No sheet is left."
            text.append(done, "bold").append("\n\n")
            owed = {one.name for sheet in view.in_hand if (one := view.owed_test(sheet))}
            text.append("".join(f"owed   {name}, by /\n" for name in sorted(owed)))
            text.append("enter  end the run")
            self.stand(text)
            return
        first = sheets[0].state
        many = "sheets" if len(sheets) > 1 else "sheet"
        backs = ", ".join(one.mark for one in sheets)
        text.append(f"{many} {' '.join(digits)}", "bold").append(f"   back: {backs}\n")
        calm = first.doing is not None and first.left_ms is not None and first.left_ms > DRAIN_MS
        accent = f"bold {self.app.theme_variables['accent']}"
        text.append(f"{_asks(first)}\n", self.app.theme_variables["quiet"] if calm else accent)
        for head, said in _lines(view, sheets[0]):
            text.append(f"{head:<6}", self.app.theme_variables["quiet"]).append(f"{said}\n")
        if not view.exact:
            text.append("by the wall clock: the machine was restarted")
        self.stand(text)


def _asks(state: SheetState) -> str:
    if state.doing is None and state.planned is None:
        return "through: / gives another step"
    if state.doing is None:
        return "lifted: enter begins" if just_lifted(state) else "enter begins"
    if state.left_ms is None:
        return "no aim: enter ends"
    if state.left_ms <= 0:
        return "PAST ITS AIM: enter ends"
    return "LIFT AND DRAIN" if state.drain else "left"


def _lines(view: RunView, sheet: RunSheet) -> list[tuple[str, str]]:
    state = sheet.state
    name = state.doing.name if state.doing else state.planned.name if state.planned else ""
    lines = [("now" if state.doing else "next", name)] if name else []
    planned = state.planned
    aim = state.aim_ms
    if aim is None and planned is not None:
        aim = view.aim_for(planned, sheet.print.id)
    span = _span(planned)
    if aim is not None:
        lines.append(("aim", clock(aim) + (f"   {span}" if span else "")))
    if planned is not None and planned.note:
        lines.append(("", planned.note))
    owed = view.owed_test(sheet)
    if owed is not None:
        lines.append(("first" if state.doing is None else "then", f"{owed.name}, by /"))
    if state.next is not None:
        after = view.aim_for(state.next, sheet.print.id)
        lines.append(("then", state.next.name + (f", {clock(after)}" if after else "")))
    return lines


def _span(planned: PlannedStep | None) -> str:
    """``1:30 to 4:00``: what will do, where the plan says so."""
    if planned is None or planned.aim is None:
        return ""
    least, longest = clock(planned.aim.least_ms), clock(planned.aim.longest_ms)
    if least and longest:
        return f"{least} to {longest}"
    return f"at least {least}" if least else f"at most {longest}" if longest else ""
