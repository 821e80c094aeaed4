"""Every version of one record: who, when, why, and what it changed."""

from collections.abc import Iterable

from textual.widget import Widget

from provenance.screens.frame import Frame
from provenance.screens.widgets.line_list import Line, LineList
from provenance.studio.past import Event, past_of, shown


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
        events = past_of(self.studio.register.read, self._record)
        self.headline("History", f"record #{self._record}", f"{len(events)} entries")
        self.query_one(LineList).show([line for event in events for line in _lines(event)])

    async def action_return(self) -> None:
        """Back to where it was asked for."""
        await self.studio.action_back()


def _lines(event: Event) -> Iterable[Line]:
    reason = f": {event.reason}" if event.reason else ""
    yield Line(f"entry {event.seq}   {event.at[:16].replace('T', ' ')} UTC", heading=True)
    yield Line(f"{event.verb} by {event.who}{reason}", strong=True, right=f"act {event.act}")
    for field, (before, after) in event.changed.items():
        was, now = shown(before), shown(after)
        if was or now:
            yield Line(f"{was} → {now}" if was else now, lead=field.replace("_", " "))
    yield Line("", heading=True)
