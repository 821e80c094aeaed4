"""A row for each sheet of a run: where it is, how long yet, in which tray."""

from collections.abc import Collection

from rich.text import Text

from provenance.craft.running import SheetState
from provenance.model.quantity_text import format_clock
from provenance.screens.widgets.columns import fit
from provenance.screens.widgets.steady import Steady
from provenance.studio.run_board import Board
from provenance.studio.running import RunSheet, RunView

PICKED, NEXT = "▸", "·"
"""Before a sheet that was picked, and before one that Enter is for when none was."""
_HEAD = ("SHEET", "BACK", "STEP", "LEFT", "AIM", "TRAY")
_WIDTHS = (7, 6, 18, 12, 8)
"""Cells of all columns but the last, which takes what is left and never a second line."""


class SheetRows(Steady):
    """The sheets, one below the other."""

    DEFAULT_CSS = """
    SheetRows { height: 1fr; }
    """

    def show(self, board: Board, view: RunView, picked: Collection[str]) -> None:
        """Show every sheet; `picked` are the digits of those that were picked."""
        lines = Text(no_wrap=True, overflow="ellipsis")
        width = self.size.width - 1
        lines.append(" " + _row(_HEAD, width), self._quiet)
        here = {one.print.id for one in board.group(view)}
        # from two metres rows are told apart by the space between them
        apart = "\n\n" if self.size.height > 2 * len(view.sheets) else "\n"
        for (digit, _), sheet in zip(board.digits.items(), view.sheets, strict=False):
            sign = PICKED if digit in picked else NEXT if not picked and _id(sheet) in here else " "
            gone = sheet.print.body.existence != "exists"
            weight = self._quiet if gone else "bold" if sign != " " else ""
            row = _row((digit, sheet.mark, *_cells(board, view, sheet)), width)
            lines.append(f"{apart}{sign}{row}", weight)
        self.stand(lines)

    @property
    def _quiet(self) -> str:
        return self.app.theme_variables["quiet"]


def _id(sheet: RunSheet) -> int:
    return sheet.print.id


def _row(cells: tuple[str, ...], width: int) -> str:
    *fixed, last = cells
    right = {3, 4}
    return "".join(
        fit(text + "  ", wide, right=True) if place in right else fit(text, wide)
        for place, (text, wide) in enumerate(zip(fixed, _WIDTHS, strict=True))
    ) + fit(last, max(0, width - sum(_WIDTHS)))


def _cells(board: Board, view: RunView, sheet: RunSheet) -> tuple[str, ...]:
    state, body = sheet.state, sheet.print.body
    if body.existence != "exists":
        return f"{body.existence}", "", "", body.gone_why
    if state.doing is not None:
        aim = clock(state.aim_ms)
        name = state.doing.name
        planned = state.planned
        code, about = board.tray_of(planned) if planned is not None else ("", "")
        return name, left(state), aim, f"{code}  {about}".strip()
    if state.planned is None:
        return "through", "", "", "the whole plan"
    aim = clock(view.aim_for(state.planned, _id(sheet)))
    code, about = board.tray_of(state.planned)
    return f"→ {state.planned.name}", "", aim, f"{code}  {about}".strip()


def left(state: SheetState) -> str:
    """How long yet, with the word for what to do."""
    shown = clock(shown_ms(state))
    if state.left_ms is None:
        return f"in {shown}"
    if state.left_ms <= 0:
        return f"past {shown}"
    return f"drain {shown}" if state.drain else shown


def shown_ms(state: SheetState) -> int | None:
    """How long yet, how long past, or without an aim how long in; the second begun counts."""
    left = state.left_ms
    if left is None:
        return state.elapsed_ms
    return -(-left // 1000) * 1000 if left > 0 else -left


def clock(time_ms: int | None) -> str:
    """Whole seconds as on a clock; empty where there is no time."""
    return "" if time_ms is None else format_clock(time_ms // 1000 * 1000)
