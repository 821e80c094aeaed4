"""What time it is, in the two ways that matter.

The wall clock says when, and may be set back; the boot clock says how long, and
stops being comparable when the machine restarts.  Both go into every entry.
"""

import time
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

from provenance.model.body import Count, Part, Whole


class Moment(Part, frozen=True, kw_only=True):
    """One instant: UTC to the millisecond, the local offset, and the boot clock."""

    at: str
    """UTC, as ``2031-05-04T10:41:07.123Z``."""
    offset_min: Whole
    """Minutes that local time was ahead of UTC."""
    boot: str
    """Names one run of the machine; empty where the system has no name for it."""
    boot_ms: Count
    """Milliseconds on the boot clock, which no setting of the wall clock moves."""

    def utc(self) -> datetime:
        """The instant as an aware datetime."""
        return datetime.fromisoformat(self.at)

    def local_date(self) -> date:
        """The date that a calendar in the studio showed."""
        return (self.utc() + timedelta(minutes=self.offset_min)).date()


Clock = Callable[[], Moment]


def utc_text(instant: datetime) -> str:
    """`instant` as the journal writes it."""
    text = instant.astimezone(UTC).isoformat(timespec="milliseconds")
    return text.replace("+00:00", "Z")


def _boot_name() -> str:
    try:
        return Path("/proc/sys/kernel/random/boot_id").read_text(encoding="ascii").strip()
    except OSError:
        return ""


def _boot_ms() -> int:
    # CLOCK_BOOTTIME goes on while the machine sleeps; MONOTONIC does not everywhere.
    which = getattr(time, "CLOCK_BOOTTIME", None)
    ns = time.monotonic_ns() if which is None else time.clock_gettime_ns(which)
    return ns // 1_000_000


class SystemClock:
    """The clock of this machine."""

    def __init__(self) -> None:
        self._boot = _boot_name()

    def __call__(self) -> Moment:
        now = datetime.now().astimezone()
        offset = now.utcoffset() or timedelta()
        return Moment(
            at=utc_text(now),
            offset_min=int(offset.total_seconds() // 60),
            boot=self._boot,
            boot_ms=_boot_ms(),
        )


@dataclass
class SetClock:
    """A clock that stands where it is put: for rehearsed days and for tests."""

    instant: datetime
    boot: str = ""
    boot_ms: int = 0

    def __call__(self) -> Moment:
        offset = self.instant.utcoffset() or timedelta()
        return Moment(
            at=utc_text(self.instant),
            offset_min=int(offset.total_seconds() // 60),
            boot=self.boot,
            boot_ms=self.boot_ms,
        )


def elapsed_ms(start: Moment, end: Moment) -> tuple[int, bool]:
    """Milliseconds from `start` to `end`, and whether the boot clock vouches for them.

    Within one boot the answer is exact whatever the wall clock did; across a
    restart it is the difference of wall times, and the second value is False.
    """
    if start.boot and start.boot == end.boot:
        return end.boot_ms - start.boot_ms, True
    return round((end.utc() - start.utc()).total_seconds() * 1000), False
