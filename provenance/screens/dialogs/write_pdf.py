"""Where a PDF goes."""

import asyncio
from collections.abc import Callable, Iterable
from pathlib import Path

from provenance.errors import Problem, Refused
from provenance.screens.widgets.fields import Row, TextField
from provenance.screens.widgets.form import Form
from provenance.studio.daysheet.record import Recorded


class WritePdf(Form):
    """Asks for a file, and has `write` draw it there; its path is copied."""

    KIND = "write-pdf"
    TITLE = "Write a PDF"

    def __init__(self, about: str, proposed: str, hint: str, write: Callable[[Path], Path]) -> None:
        """`proposed` is a name in the home folder; `hint` says what the file gives away."""
        super().__init__(about=about)
        self._proposed, self._hint, self._write = proposed, hint, write

    def rows(self) -> Iterable[Row]:
        """The file."""
        proposed = str(Path.home() / self._proposed)
        yield Row(TextField("file", "File", value=proposed, hint=self._hint))

    async def enter(self) -> Recorded:
        """Draw it and write it."""
        if not self.value("file"):
            raise Refused(Problem("no file is named", field="file", mend="name one"))
        path = Path(self.value("file")).expanduser()
        self.say("drawing it")
        written = await asyncio.to_thread(self._write, path)
        self.host.copy_to_clipboard(str(written))
        self.host.news = f"written, and its path copied: {written}"
        return Recorded(act=0, entered=(str(written),), entries=0)
