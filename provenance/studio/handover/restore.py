"""The way back: a studio folder from a backup, or from a bag that holds the whole register."""

import shutil
from dataclasses import dataclass, replace
from pathlib import Path

from provenance.errors import NewerRegister, Problem, Refused
from provenance.records.audit import AuditReport, audit
from provenance.records.connection import FILE
from provenance.records.exchange.opened_bag import OpenedBag, open_bag
from provenance.records.exchange.sinks import new_folder
from provenance.records.files import refuse_standing
from provenance.records.place import refuse_network_folder
from provenance.records.progress import Progress
from provenance.studio.handover.contents import PLAIN, PRIVATE, STUDIO, belongs


@dataclass(frozen=True)
class Restored:
    """A studio that stands in its new folder."""

    path: Path
    files: int
    private: bool
    """Whether the contact book and private papers came along."""
    report: AuditReport


def restore(source: Path, path: Path, *, progress: Progress | None = None) -> Restored:
    """Restore the backup or bag at `source` into the new folder `path`, and audit it.

    The whole bag is compared with its manifests before anything is made, and
    each file of the studio once more as it is copied.  Raises Refused when
    something stands at `path`, or `source` holds no studio or was made to do
    harm; Damaged when it is not whole.  Then nothing is left at `path`.  Raises
    NewerRegister for the studio of a later release, which stands there.  What
    the audit finds is reported: that is how the studio was when it was copied.
    Files and folders are their owner's alone.
    """
    refuse_standing(path)
    refuse_network_folder(path)
    with open_bag(source) as bag:
        names = _studio_files(bag, source)
        _has_room(path, sum(bag.sizes.values()))
        bag.check(progress)
        with new_folder(path) as sink:
            for done, name in enumerate(names, start=1):
                with sink.open(name) as file:
                    bag.copy(f"{STUDIO}/{name}", file)
                if progress:
                    progress("files", done, len(names))
        private = any(name.partition("/")[0] in PRIVATE for name in names)
    for place in PLAIN:
        (path / place).mkdir(mode=0o700, exist_ok=True)
    try:
        report = audit(path, progress=progress)
    except NewerRegister as error:
        said = error.problems[0]
        raise NewerRegister(replace(said, what=f"it is restored, but {said.what}")) from error
    return Restored(path, len(names), private, report)


def _studio_files(bag: OpenedBag, source: Path) -> list[str]:
    below = f"{STUDIO}/"
    names = [name.removeprefix(below) for name in bag.sizes if name.startswith(below)]
    if FILE not in names:
        raise Refused(
            Problem(
                "holds no register, so no studio can be restored from it",
                str(source),
                mend="name a backup, or a bag of the whole studio at level archive or sealed",
            )
        )
    strange = [name for name in names if not belongs(name)]
    if strange:
        raise Refused(
            Problem(
                "holds what no studio folder has",
                ascii(strange[0]),
                mend="nothing was unpacked; ask whoever made it",
            )
        )
    return names


def _has_room(path: Path, octets: int) -> None:
    place = path.absolute().parent
    try:
        free = shutil.disk_usage(place).free
    except OSError as error:
        raise Refused(
            Problem(f"cannot be used: {error.strerror}", str(place), mend="make the folder first")
        ) from error
    if octets > free:
        raise Refused(
            Problem(
                f"{octets // 1_000_000} MB are needed and {free // 1_000_000} MB are free",
                str(place),
                mend="make room, or name another disk",
            )
        )
