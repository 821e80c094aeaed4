"""A scan of a print."""

import asyncio
from collections.abc import Iterable
from pathlib import Path

from provenance.errors import Problem, Refused
from provenance.records.images import make_thumbnail
from provenance.screens.dialogs.pieces import begin, prints_field
from provenance.screens.widgets.fields import Field, Row, TextField
from provenance.screens.widgets.file_names import FileNames
from provenance.screens.widgets.form import Form
from provenance.studio.daysheet.filled import Filled


class AddScan(Form):
    """Where the scan lies; a thumbnail is made of it, the scan itself stays where it is."""

    KIND = "scan"
    TITLE = "Scan"
    AUTO_FOCUS = "#field-file Input"

    def __init__(self, print_: int) -> None:
        super().__init__(about="the file stays where it is", concerns=(print_,))
        self._print = print_

    def rows(self) -> Iterable[Row]:
        """The print and the file."""
        yield Row(prints_field(self, (self._print,)))
        yield Row(
            TextField(
                "file",
                "File (TIFF, JPEG or PNG)",
                hint="right completes the name",
                check=_is_file,
                suggester=FileNames(),
            )
        )

    def left(self, field: Field) -> None:
        """Look at the picture as soon as its name is whole."""
        if field.key == "file" and field.value and not field.wrong:
            self.run_worker(self._look(field), group="look", exclusive=True)

    async def _look(self, field: Field) -> None:
        name = field.value
        field.advise("looking at it")
        try:
            seen = await asyncio.to_thread(make_thumbnail, _path(name))
        except Refused as error:
            if field.value == name:
                field.tell(f"{error.problems[0].what}; {error.problems[0].mend}")
            return
        size = f"{seen.source_width_px} × {seen.source_height_px}"
        field.advise(f"{size} pixels, {seen.bits} bit, {seen.colour}")

    def fill(self) -> Filled:
        """One scan."""
        filled = begin(self)
        filled.put("prints", self.value("prints"), "scan", 0, "print")
        file = self.value("file")
        filled.put("file", str(_path(file)) if file else "", "scan", 0, "file")
        return filled


def _path(text: str) -> Path:
    return Path(text.strip()).expanduser()


def _is_file(text: str) -> None:
    try:
        path = _path(text)
    except RuntimeError:  # a home folder that nobody has
        path = Path(text.strip())
    if not path.is_file():
        raise Refused(
            Problem(
                what="it is a folder" if path.is_dir() else f"there is no file {path}",
                mend="go on typing the name" if path.is_dir() else "see where it lies",
            )
        )
