"""A place that lists records under headings; enter opens one."""

from collections.abc import Iterable
from typing import ClassVar

from textual.widget import Widget

from provenance.model.body import Body
from provenance.screens.frame import Frame
from provenance.screens.widgets.line_list import Line, LineList
from provenance.studio.browsing import summary


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
        """Read the records anew."""
        reader = self.studio.register.read
        self.headline(self.NAME, "", self.studio.studio_name)
        lines: list[Line] = []
        for heading, kind in self.HOLDS:
            found = [summary(reader, stored) for stored in reader.all(kind)]
            lines.append(Line(heading, heading=True))
            lines += [Line(one.about, lead=one.name, records=(one.id,)) for one in found]
            if not found:
                lines.append(Line("none on record", quiet=True))
            lines.append(Line("", heading=True))
        if self.LATER:
            lines.append(Line(self.LATER, quiet=True))
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
