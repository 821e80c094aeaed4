"""A backup: the whole studio folder in one file, made while the studio is in use.

The file is a bag (BagIt 1.0) packed as a zip, so that anybody can see with
common tools what is in it and whether it is whole.
"""

import tempfile
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from pathlib import Path

from provenance import __version__
from provenance.errors import Problem, Refused
from provenance.records.audit import AuditReport
from provenance.records.clock import Clock, SystemClock
from provenance.records.exchange.bag import Bag
from provenance.records.exchange.sinks import new_zip
from provenance.records.files import refuse_standing
from provenance.records.progress import Progress
from provenance.records.witness import Head
from provenance.studio.folder import StudioFolder
from provenance.studio.handover.contents import put_studio
from provenance.studio.handover.last_backup import note_backup
from provenance.studio.handover.restore import restore


@dataclass(frozen=True)
class BackedUp:
    """A backup that was written and tried."""

    path: Path
    octets: int
    files: int
    head: Head
    report: AuditReport
    """What an audit says of the studio that was restored from it, and thrown away."""
    unnoted: str
    """Why the studio does not know of it, as on a medium that cannot be written to; else empty."""


def back_up(
    folder: StudioFolder,
    path: Path,
    *,
    private: bool = True,
    clock: Clock | None = None,
    progress: Progress | None = None,
) -> BackedUp:
    """Write a backup of the studio to the file `path`, and try it by restoring it.

    `private` says whether the contact book, private notes and the studio's key
    go along.  Raises Refused where something stands at `path` already, or it
    cannot be written; then nothing is left there.
    """
    moment = (clock or SystemClock())()
    refuse_standing(path)
    beside = path.absolute().parent
    with ExitStack() as stack:
        sink = stack.enter_context(new_zip(path, path.stem or "backup"))
        room = Path(
            stack.enter_context(tempfile.TemporaryDirectory(prefix=".provenance-", dir=beside))
        )
        bag = Bag(sink)
        with ExitStack() as reading:
            _, head = put_studio(
                reading, folder.path, bag, room, private=private, key=private, progress=progress
            )
        bag.finish(
            {
                "Bagging-Date": str(moment.local_date()),
                "Bag-Software-Agent": f"provenance {__version__}",
                "External-Description": "The backup of a studio, for `provenance restore`",
                "Studio-Id": head.studio_id,
                "Journal-Entries": str(head.seq),
                "Journal-Head-SHA256": head.digest,
            }
        )
    with _room(beside) as room:
        report = restore(path, room / "trial", progress=progress).report
    unnoted = ""
    if private and not report.damaged:
        try:
            note_backup(folder.path, moment, head, path.name)
        except Refused as error:
            unnoted = error.problems[0].what
    return BackedUp(path, path.stat().st_size, bag.files, head, report, unnoted)


@contextmanager
def _room(beside: Path) -> Iterator[Path]:
    """A folder for a while, on the disk that the backup is written to.  Raises Refused."""
    try:
        room = tempfile.TemporaryDirectory(prefix=".provenance-", dir=beside)
    except OSError as error:
        raise Refused(
            Problem(f"cannot be written to: {error.strerror}", str(beside), mend="make the folder")
        ) from error
    with room as path:
        yield Path(path)
