"""Everything on record in an open format, for other programs; no person, price or place."""

import tempfile
from collections.abc import Iterable
from contextlib import ExitStack
from dataclasses import dataclass
from pathlib import Path
from typing import Literal, get_args

from provenance.records.connection import FILE
from provenance.records.exchange.sinks import Sink, new_folder
from provenance.records.exchange.snapshot import copied_register
from provenance.records.progress import Progress
from provenance.studio.folder import StudioFolder
from provenance.studio.handover.parts import put_linked_art, put_records, put_tables

Format = Literal["csv", "json", "linked-art"]
FORMATS: tuple[Format, ...] = get_args(Format)


@dataclass
class _Plain:
    """Files in a folder, without digests."""

    sink: Sink
    files: int = 0

    def add(self, name: str, pieces: Iterable[bytes]) -> None:
        self.files += 1
        with self.sink.open(name) as file:
            file.writelines(pieces)

    def copy(self, name: str, path: Path) -> None:
        self.add(name, [path.read_bytes()])


def export(
    folder: StudioFolder, path: Path, form: Format, *, progress: Progress | None = None
) -> int:
    """Write everything on record into the new folder `path`; how many files.

    Raises Refused where something stands at `path`; what breaks off leaves nothing.
    """
    with ExitStack() as stack:
        sink = stack.enter_context(new_folder(path))
        room = Path(stack.enter_context(tempfile.TemporaryDirectory(prefix="provenance-")))
        reader, _ = stack.enter_context(copied_register(folder.path, room / FILE))
        into = _Plain(sink)
        if form == "csv":
            put_tables(into, reader, "archive", None, "")
        elif form == "json":
            put_records(into, reader)
        else:
            put_linked_art(into, reader, "archive", None, "", progress)
        return into.files
