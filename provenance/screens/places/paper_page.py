"""A paper: its wedges as curves, with D-min, D-max, range and class at every grade."""

import asyncio
from collections.abc import Iterable

from textual.widget import Widget

from provenance.craft.plot import chart_rows
from provenance.craft.sensitometry.charts import LETTERS, wedge_chart
from provenance.craft.sensitometry.ready import make_ready
from provenance.model.paper import Paper
from provenance.model.quantity_text import format_duration, format_size
from provenance.screens.bindings import shown_key
from provenance.screens.dialogs.reprint import PlanReprint
from provenance.screens.dialogs.wedge import NewWedge
from provenance.screens.frame import Frame
from provenance.screens.places.chart_room import ROWS, columns_of
from provenance.screens.places.dry_side_rows import mean_text
from provenance.screens.places.history_page import HistoryPage
from provenance.screens.places.reprint_page import ReprintPage
from provenance.screens.widgets.line_list import Line, LineList
from provenance.studio.dry_side import WedgeSeen, wedges_seen


class PaperPage(Frame):
    """One batch of paper."""

    WHERE = "listed paper"

    def __init__(self, record: int) -> None:
        super().__init__()
        self.record = record
        self._ready = False

    def content(self) -> Iterable[Widget]:
        """One list to be read from top to bottom."""
        yield LineList(lead_width=14, id="paper")

    def on_mount(self) -> None:
        """Load what curves are made with, aside; then show them."""
        self.run_worker(self._load(), group="curves")

    async def _load(self) -> None:
        await asyncio.to_thread(make_ready)
        self._ready = True
        self.read_again()

    def refresh_content(self) -> None:
        """Read the paper anew."""
        body = self.studio.register.read.get(Paper, self.record).body
        words = (body.base, body.weight, body.surface, body.tone)
        self.headline(body.code, ", ".join(word for word in words if word), "paper")
        lines = [*self._wedges()] if self._ready else [Line("reading the curves", quiet=True)]
        lines += [Line("", heading=True), Line("the box", heading=True), *self._box(body)]
        self.query_one(LineList).show(lines)

    def on_resize(self) -> None:
        """The chart takes the width that there is."""
        super().on_resize()
        if self._ready:
            self.call_after_refresh(self.read_again)

    def _box(self, body: Paper) -> Iterable[Line]:
        units = self.studio.settings.units
        size = format_size(body.sheet, units) if body.sheet else ""
        told = (
            ("maker", body.maker),
            ("contrast", body.contrast),
            ("batch", body.batch),
            ("sheet", size),
            ("bought", body.bought or ""),
        )
        for name, text in told:
            if text:
                yield Line(text, lead=name, records=(self.record,))

    def _wedges(self) -> Iterable[Line]:
        seen = wedges_seen(self.studio.register.read, self.record)
        yield Line("wedges, the latest at each grade", heading=True)
        if not seen:
            key = shown_key(self.studio.key_of("new_wedge"))
            yield Line(f"No tablet was printed on it; {key} enters one.", quiet=True, wide=True)
            return
        for letter, one in zip(LETTERS.lower(), seen, strict=False):
            yield _told(letter, one)
        yield Line("", heading=True)
        yield Line("density over log H; bars: two standard errors", heading=True)
        chart = wedge_chart({one.wedge.body.grade: one.curve for one in seen})
        for row in chart_rows(chart, columns_of(self), ROWS):
            yield Line(row, heading=True, quiet=True)

    def action_open_record(self) -> None:
        """Open the wedge under the cursor, as it was read."""
        line = self.query_one(LineList).current
        if line is not None and line.records and line.records[0] != self.record:
            self.studio.go_to(line.records[0])

    def on_line_list_opened(self) -> None:
        """A double click opens, like enter."""
        self.action_open_record()

    def action_new_wedge(self) -> None:
        """Enter a step tablet printed on this paper."""
        code = self.studio.register.read.get(Paper, self.record).body.code
        self.studio.push_screen(NewWedge(code))

    def action_reprint(self) -> None:
        """Plan a reprint on this paper."""
        form = PlanReprint(paper=self.studio.register.read.get(Paper, self.record).body.code)

        def planned(saved: object) -> None:
            if saved and form.asked is not None:
                self.studio.push_screen(ReprintPage(*form.asked))

        self.studio.push_screen(form, planned)

    def action_history(self) -> None:
        """Every version of the paper's record."""
        self.studio.push_screen(HistoryPage(self.record))

    async def action_return(self) -> None:
        """Back to where it was opened from."""
        await self.studio.action_back()


def _told(letter: str, one: WedgeSeen) -> Line:
    body = one.wedge.body
    ends = f"D-min {mean_text(body.unexposed)}, D-max {mean_text(body.full)}"
    if one.range is None:
        found = f"no range: {one.why_none}"
    else:
        low, high = one.range.classes
        within = f" (R {low} to {high})" if low < high else ""
        found = (
            f"range {one.range.log_h:.2f} ± {2 * one.range.error:.2f} log H,"
            f" class R {one.range.class_r}{within}"
        )
    slower = "" if one.slower is None else f"; {one.slower:+.2f} log H slower than a"
    made = (body.tablet, format_duration(body.exposure_ms), body.light, body.developer)
    notes = [", ".join((body.done_on, *filter(None, made))), *map(str, one.cautions)]
    return Line(
        f"{ends}; {found}{slower}",
        lead=f"{letter}  {body.grade or 'no grade'}",
        note="\n".join(notes),
        records=(one.wedge.id,),
    )
