"""Every version of one record: who, when, why, and what it changed."""

from collections.abc import Iterable
from functools import partial

from textual.widget import Widget

from provenance.screens.frame import Frame
from provenance.screens.widgets.line_list import Line, LineList
from provenance.studio.naming import called
from provenance.studio.past import Event, changes, past_with_overrides

_VERBS = {
    "enter": "entered",
    "change": "changed",
    "correct": "corrected",
    "void": "retired",
}


class HistoryPage(Frame):
    """The past of a record, oldest first."""

    WHERE = "history"

    def __init__(self, record: int) -> None:
        super().__init__()
        self._record = record

    def content(self) -> Iterable[Widget]:
        """One list."""
        yield LineList(lead_width=20, id="history")

    def refresh_content(self) -> None:
        """Read the versions anew."""
        reader = self.studio.register.read
        events = past_with_overrides(reader, self._record)
        count = f"{len(events)} entries" if len(events) != 1 else "1 entry"
        name = called(reader, self._record)
        self.headline("History", name, count)
        self.query_one(LineList).show([line for event in events for line in self._lines(event)])

    def _lines(self, event: Event) -> Iterable[Line]:
        reader, units = self.studio.register.read, self.studio.settings.units
        verb = _VERBS.get(event.verb, event.verb)
        reason = f": {event.reason}" if event.reason else ""
        yield Line(f"{event.at[:10]} {event.at[11:16]} UTC", heading=True)
        yield Line(
            f"{verb} by {event.who}{reason}",
            strong=True,
            wide=True,
            right=f"entry {event.seq}, act {event.act}",
        )
        for field, was, now in changes(event, units, partial(called, reader)):
            after = now or "nothing"
            yield Line(f"{was} → {after}" if was else after, lead=field)
        yield Line("", heading=True)

    async def action_return(self) -> None:
        """Back to where it was asked for."""
        await self.studio.action_back()
