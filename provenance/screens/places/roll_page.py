"""An edition list, or the heir's page, as it would stand on paper."""

from collections.abc import Iterable
from itertools import islice
from typing import NamedTuple

from textual.widget import Widget

from provenance.craft.roll import Roll
from provenance.model.edition import Edition
from provenance.records.reader import Reader
from provenance.screens.dialogs.write_pdf import WritePdf
from provenance.screens.places.roll_lines import lead_width, roll_lines
from provenance.screens.reads_aside import ReadsAside
from provenance.screens.widgets.line_list import Line, LineList
from provenance.studio.rolls.view import edition_list, heirs_page

LINES = 600
"""How many lines are shown; a whole studio has tens of thousands."""
LEFT_OUT = "what follows is left out here; a PDF holds all of it"


class _Seen(NamedTuple):
    """The roll, how wide its leads are, and the lines that are shown."""

    roll: Roll
    lead_width: int
    lines: list[Line]


class RollPage(ReadsAside):
    """The list of an edition for anybody, in full, or the heir's page; one key to paper."""

    WHERE = "roll"

    def __init__(self, edition: int | None, *, heir: bool = False, full: bool = False) -> None:
        super().__init__()
        self._edition = edition
        self._heir = heir or edition is None
        self._full = full
        self._roll: Roll | None = None

    def content(self) -> Iterable[Widget]:
        """One list to be read from top to bottom."""
        yield LineList(id="roll")

    def refresh_content(self) -> None:
        """Read the register anew."""
        self.read_aside(self._read, self._show)

    def _read(self, reader: Reader) -> _Seen:
        folder, now = self.studio.folder, self.studio.register.clock()
        edition = reader.get(Edition, self._edition) if self._edition is not None else None
        if edition is None or self._heir:
            roll = heirs_page(reader, folder, edition, now)
        else:
            roll = edition_list(reader, folder, edition, now, full=self._full)
        lines = list(islice(roll_lines(roll), LINES + 1))
        if len(lines) > LINES:
            lines[LINES:] = [Line(LEFT_OUT, quiet=True, wide=True)]
        return _Seen(roll, lead_width(roll), lines)

    def _show(self, seen: _Seen) -> None:
        roll = self._roll = seen.roll
        form = "in full" if roll.seal else "for anybody"
        title = roll.title if self._edition is not None else ""
        self.headline(f"{roll.kind}   {roll.name}", title, form)
        listed = self.query_one(LineList)
        listed.lead_width = seen.lead_width
        listed.show(seen.lines)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """The heir's page is always in full."""
        return not (self._heir and action == "full_form")

    def action_full_form(self) -> None:
        """The other form of a list: with persons, or without."""
        self._full = not self._full
        self.refresh_content()

    def action_write_pdf(self) -> None:
        """Ask where the PDF goes."""
        roll, folder = self._roll, self.studio.folder
        if roll is None:
            return
        # loads what draws pages
        from provenance.studio.rolls.paper import proposed_name, write_roll

        hint = roll.seal or "It names no person, no price and no place."
        self.studio.push_screen(
            WritePdf(
                f"{roll.kind}   {roll.name}",
                proposed_name(roll),
                hint,
                lambda path: write_roll(roll, path, folder),
            )
        )

    def action_open_print(self) -> None:
        """Open the print under the cursor."""
        line = self.query_one(LineList).current
        if line is not None and line.records:
            self.studio.go_to(line.records[0])
        else:
            self.say("This line is of no one print.")

    def on_line_list_opened(self) -> None:
        """A double click opens, like enter."""
        self.action_open_print()

    async def action_return(self) -> None:
        """Back to where it was opened from."""
        await self.studio.action_back()
