"""When the studio was last backed up, and whether it is time again."""

from dataclasses import dataclass
from datetime import date
from pathlib import Path

import msgspec

from provenance.records.clock import Moment, SystemClock
from provenance.records.files import write_whole
from provenance.records.witness import Head, read_witness
from provenance.studio.folder import StudioFolder
from provenance.studio.settings import read_settings

FILE = "last-backup.json"


class LastBackup(msgspec.Struct, frozen=True, kw_only=True):
    """The last backup that was tried and found whole."""

    on: date
    entries: int
    file_name: str


@dataclass(frozen=True)
class Due:
    """It is time for a backup."""

    days: int | None
    """Since the last; None where there was none."""
    entries: int
    """Written since."""

    @property
    def line(self) -> str:
        """What a person is told."""
        if self.days is None:
            return "No backup yet"
        since = "entry" if self.entries == 1 else "entries"
        days = "1 day" if self.days == 1 else f"{self.days} days"
        return f"Last backup {days} ago, {self.entries} {since} since"


def note_backup(studio: Path, moment: Moment, head: Head, file_name: str) -> None:
    """Remember in the studio folder that a backup was made and found whole."""
    last = LastBackup(on=moment.local_date(), entries=head.seq, file_name=file_name)
    write_whole(studio / FILE, msgspec.json.encode(last))


def last_backup(studio: Path) -> LastBackup | None:
    """The last backup; None where there was none, or nothing can be read of it."""
    try:
        return msgspec.json.decode((studio / FILE).read_bytes(), type=LastBackup)
    except (OSError, msgspec.MsgspecError):
        return None


def backup_due(folder: StudioFolder, today: date | None = None) -> Due | None:
    """Whether something was written since the last backup, and that is longer ago than is set.

    None when it is not time, or the setting ``backup_days`` is 0.  Reads two
    small files and the settings; raises Refused for settings that are wrong.
    """
    limit = read_settings(folder).backup_days
    head = read_witness(folder.path)
    if limit == 0 or head is None:
        return None
    last = last_backup(folder.path)
    if last is None:
        return Due(None, head.seq)
    days = ((today or SystemClock()().local_date()) - last.on).days
    entries = head.seq - last.entries
    return Due(days, entries) if entries > 0 and days > limit else None
