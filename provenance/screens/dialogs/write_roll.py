"""Where the PDF of a roll goes."""

import asyncio
from collections.abc import Iterable
from pathlib import Path

from provenance.craft.roll import Roll
from provenance.errors import Problem, Refused
from provenance.screens.widgets.fields import Row, TextField
from provenance.screens.widgets.form import Form
from provenance.studio.daysheet.record import Recorded


class WriteRoll(Form):
    """Asks for a file; a full form must lie outside of the studio folder."""

    KIND = "write-roll"
    TITLE = "Write a PDF"

    def __init__(self, roll: Roll) -> None:
        super().__init__(about=f"{roll.kind}   {roll.name}")
        self._roll = roll

    def rows(self) -> Iterable[Row]:
        """The file."""
        from provenance.studio.rolls.paper import proposed_name

        hint = self._roll.seal or "It names no person, no price and no place."
        proposed = str(Path.home() / proposed_name(self._roll))
        yield Row(TextField("file", "File", value=proposed, hint=hint))

    async def enter(self) -> Recorded:
        """Draw it and write it."""
        from provenance.studio.rolls.paper import write_roll

        if not self.value("file"):
            raise Refused(Problem("no file is named", field="file", mend="name one"))
        path = Path(self.value("file")).expanduser()
        self.say("drawing it")
        written = await asyncio.to_thread(write_roll, self._roll, path, self.studio_folder)
        self.host.copy_to_clipboard(str(written))
        self.host.news = f"written, and its path copied: {written}"
        return Recorded(act=0, entered=(str(written),), entries=0)
