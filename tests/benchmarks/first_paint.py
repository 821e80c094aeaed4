"""Applications that end as soon as they are painted; run as programs, to be timed whole.

python -m tests.benchmarks.first_paint bare
python -m tests.benchmarks.first_paint table STUDIO
python -m tests.benchmarks.first_paint memory STUDIO    prints the most memory used, in MB
"""

import asyncio
import sys
from pathlib import Path

from textual.app import App, ComposeResult
from textual.pilot import Pilot

SIZE = (80, 24)


class Bare(App[None]):
    """One label."""

    def compose(self) -> ComposeResult:
        from textual.widgets import Label

        yield Label("Slipway, first frost")

    def on_mount(self) -> None:
        self.call_after_refresh(self.exit)


class Prints(App[None]):
    """Every print of a studio in the table."""

    def __init__(self, folder: Path, *, to_the_end: bool) -> None:
        from provenance.records.register import Register
        from provenance.screens.theme import LIGHTS

        super().__init__()
        for theme in LIGHTS:
            self.register_theme(theme)
        self.theme = "day"
        self.register = Register.open(folder)
        self.to_the_end = to_the_end

    def compose(self) -> ComposeResult:
        from provenance.screens.widgets.record_table import RecordTable
        from provenance.screens.widgets.tables import PRINTS
        from provenance.studio.print_rows import PrintRows

        self.table = RecordTable(PrintRows(self.register), PRINTS, empty="")
        yield self.table

    def on_mount(self) -> None:
        if not self.to_the_end:
            self.call_after_refresh(self.painted)

    def painted(self) -> None:
        assert self.table.count >= SIZE[1], "nothing was painted"
        self.exit()

    def on_record_table_arranged(self) -> None:
        """The whole order is there: sort it anew once, look at its end, and leave."""
        if self.to_the_end:
            if self.table.sort.key:
                self.table.action_edge(1)
                self.call_after_refresh(self.exit)
            else:
                self.table.sort_by("date")

    def on_unmount(self) -> None:
        self.register.close()


def run_whole(folder: Path) -> int:
    """The application as a person gets it, left as soon as its first place has rows."""
    from provenance.screens.app import StudioApp
    from provenance.screens.widgets.record_table import RecordTable
    from provenance.studio.folder import StudioFolder

    async def leave(pilot: Pilot[object]) -> None:
        while not pilot.app.screen.query_one(RecordTable).count:
            await asyncio.sleep(0)
        pilot.app.exit()

    app = StudioApp(StudioFolder(folder))
    app.run(headless=True, size=SIZE, auto_pilot=leave)
    return app.return_code or 0


def main(what: str, folder: str = "") -> None:
    """Run one of them."""
    if what == "bare":
        Bare().run(headless=True, size=SIZE)
        return
    if what == "app":
        sys.exit(run_whole(Path(folder)))
    app = Prints(Path(folder), to_the_end=what == "memory")
    app.run(headless=True, size=SIZE)
    if app.return_code:
        sys.exit(app.return_code)
    if what == "memory":
        from tests.benchmarks.memory import peak_mb

        print(peak_mb())


if __name__ == "__main__":
    main(*sys.argv[1:])
