"""A place that lists records under headings; enter opens one."""

from collections.abc import Iterable
from typing import ClassVar

from textual.widget import Widget

from provenance.model.body import Body
from provenance.screens.frame import Frame
from provenance.screens.widgets.line_list import Line, LineList
from provenance.studio.naming import row_of


class Listed(Frame):
    """Subclasses say which kinds they hold, and what will live here later."""

    NAME: ClassVar[str] = ""
    HOLDS: ClassVar[tuple[tuple[str, type[Body]], ...]] = ()
    LATER: ClassVar[str] = ""
    """One line about what is still to come to this place."""

    def content(self) -> Iterable[Widget]:
        """One list."""
        yield LineList(lead_width=18, id="listed")

    def refresh_content(self) -> None:
        """Read the records anew, the latest first."""
        reader = self.studio.register.read
        self.headline(self.NAME, "", self.studio.studio_name)
        lines: list[Line] = []
        for heading, kind in self.HOLDS:
            lines.append(Line(heading, heading=True))
            found = reader.all(kind)
            for stored in reversed(found):
                name, about = row_of(reader, stored)
                lines.append(Line(about, lead=name, records=(stored.id,)))
            if not found:
                lines.append(Line("none on record", quiet=True, wide=True))
            lines.append(Line("", heading=True))
        if self.LATER:
            lines.append(Line(self.LATER, heading=True, quiet=True))
        self.query_one(LineList).show(lines)

    def action_open_record(self) -> None:
        """Open the record under the cursor."""
        line = self.query_one(LineList).current
        if line is not None and line.records:
            self.studio.go_to(line.records[0])

    def on_line_list_opened(self, message: LineList.Opened) -> None:
        """A double click opens, like enter."""
        if message.line.records:
            self.studio.go_to(message.line.records[0])
