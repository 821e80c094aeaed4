"""The clock of a drop: started when it is put on, stopped when it is read."""

from time import monotonic
from typing import ClassVar

from textual.binding import Binding, BindingType
from textual.timer import Timer

from provenance.craft.proof import SPOT_EARLIEST_MS, SPOT_LATEST_MS
from provenance.screens.widgets.form import Form


class DropClock(Form):
    """A form with a running clock in its title, that counts to the two minutes and past five."""

    BINDINGS: ClassVar[list[BindingType]] = [Binding("f7", "drop", "drop on, read")]

    dropped_ms: int | None = None
    """How long the drop was on when it was read; None until then."""
    _put_on_at: float | None = None
    _ticking: Timer | None = None

    def action_drop(self) -> None:
        """The drop is put on; the next press, it is read."""
        if self._put_on_at is None:
            self._put_on_at = monotonic()
            self._ticking = self.set_interval(1, self._tick)
            self._tick()
            return
        self.dropped_ms = max(1, int(monotonic() - self._put_on_at)) * 1000
        self._put_on_at = None
        if self._ticking is not None:
            self._ticking.stop()
        self.say_title(f"{self._about}   read after {_minutes(self.dropped_ms)}")
        self.was_read(self.dropped_ms)

    def was_read(self, after_ms: int) -> None:
        """The drop was read so long after it was put on."""

    def _tick(self) -> None:
        if self._put_on_at is None:
            return
        ms = int(monotonic() - self._put_on_at) * 1000
        said = ""
        if ms > SPOT_LATEST_MS:
            said = "   too late"
        elif ms >= SPOT_EARLIEST_MS:
            said = "   read it now"
        self.say_title(f"{self._about}   drop on {_minutes(ms)} of 2:00{said}")


def _minutes(ms: int) -> str:
    return f"{ms // 60_000}:{ms // 1000 % 60:02d}"
