"""A reprint plan: everything that is known before the light goes out."""

import asyncio
from collections.abc import Iterable, Sequence
from datetime import date

from textual.widget import Widget

from provenance.errors import ProvenanceError
from provenance.screens.bindings import shown_key
from provenance.screens.dialogs.reprint import PlanReprint
from provenance.screens.frame import Frame
from provenance.screens.places.chart_room import ROWS, columns_of
from provenance.screens.widgets.line_list import Line, LineList
from provenance.studio.naming import called
from provenance.studio.reprinting.pictures import chart_lines
from provenance.studio.reprinting.plan import ReprintPlan, Wish, plan_reprint
from provenance.studio.reprinting.plan_text import (
    Said,
    exposure_said,
    mixes_said,
    targets_said,
    trays_said,
)


class ReprintPage(Frame):
    """The plan for one reference and one wish, worked out anew whenever it is shown."""

    WHERE = "reprint"

    def __init__(self, reference: int, wish: Wish) -> None:
        super().__init__()
        self._reference, self._wish = reference, wish
        self._path = ""
        """Where the last worksheet is."""

    def content(self) -> Iterable[Widget]:
        """One list to be read from top to bottom."""
        yield LineList(lead_width=18, id="reprint")

    def _plan(self) -> ReprintPlan:
        return plan_reprint(
            self.studio.register.read,
            self.studio.folder,
            self._reference,
            self._wish,
            today=self._today,
        )

    @property
    def _today(self) -> date:
        return self.studio.register.clock().local_date()

    @property
    def _called(self) -> str:
        return called(self.studio.register.read, self._reference)

    def refresh_content(self) -> None:
        """Work the plan out anew."""
        plan = self._plan()
        sheets = "1 sheet" if self._wish.sheets == 1 else f"{self._wish.sheets} sheets"
        self.headline("Reprint", f"to match {self._called}", f"{sheets} of {plan.paper.body.code}")
        _space, *lines = self._lines(plan)
        self.query_one(LineList).show(lines)

    def on_resize(self) -> None:
        """The charts take the width that there is."""
        super().on_resize()
        if self.is_mounted and self.query(LineList):
            self.call_after_refresh(self.read_again)

    def _lines(self, plan: ReprintPlan) -> Iterable[Line]:
        reference = (plan.reference.history.print.id, plan.reference.history.printing.id)
        yield from _part("exposure", exposure_said(plan), reference[1:])
        yield from _part("densities to reach, dry", targets_said(plan), reference[:1])
        charts = chart_lines(plan, columns_of(self), ROWS)
        if charts:
            yield from _heading("old paper and new, predicted and target")
            yield from (Line(row, heading=True, quiet=True) for row in charts)
        yield from _part("trays, as they were and as they are", trays_said(plan), ())
        yield from _part("to mix", mixes_said(plan), ())
        for heading, told in (
            ("open questions", plan.questions),
            ("missing for a match, and the weaker plan that remains", plan.missing),
            ("where the arithmetic stops being true", plan.cautions),
        ):
            if told:
                yield from _heading(heading)
                yield from (Line(str(one), wide=True) for one in told)

    def action_open_behind(self) -> None:
        """Open the record behind the line under the cursor."""
        line = self.query_one(LineList).current
        if line is not None and line.records:
            self.studio.go_to(line.records[0])
        else:
            self.say("This line is worked out; no record stands behind it alone.")

    def action_change_plan(self) -> None:
        """The same reference under other conditions."""
        form = PlanReprint(self._called, wish=self._wish)

        def planned(saved: object) -> None:
            if saved and form.asked is not None:
                self._reference, self._wish = form.asked
                self.read_again()

        self.studio.push_screen(form, planned)

    def action_print_worksheet(self) -> None:
        """Write the worksheet into the studio folder."""
        self.run_worker(self._print(), group="worksheet")

    async def _print(self) -> None:
        # brings what draws pages with it, which the terminal does not need before
        from provenance.studio.reprinting.worksheet import next_worksheet_file, write_worksheet

        settings, folder, plan = self.studio.settings, self.studio.folder, self._plan()
        at, name = self.studio.register.clock().utc(), self._called
        self.say("drawing the worksheet")
        try:
            path = next_worksheet_file(folder, name, str(self._today))
            await asyncio.to_thread(
                lambda: write_worksheet(
                    path,
                    plan,
                    folder,
                    name=name,
                    page=settings.page,
                    language=settings.language,
                    drawn_at_utc=at,
                )
            )
        except ProvenanceError as error:
            self.say(str(error))
            return
        self._path = str(path)
        key = shown_key(self.studio.key_of("copy_worksheet"))
        self.say(f"worksheet; {key} copies where it is:\n{path}")

    def action_copy_worksheet(self) -> None:
        """Copy where the last worksheet lies."""
        if not self._path:
            self.say("No worksheet was written here yet.")
            return
        self.studio.copy_to_clipboard(self._path)
        self.say(f"copied: {self._path}")

    async def action_return(self) -> None:
        """Back to where it was opened from."""
        await self.studio.action_back()


def _heading(text: str) -> Iterable[Line]:
    yield Line("", heading=True)
    yield Line(text, heading=True)


def _part(heading: str, said: Sequence[Said], records: tuple[int, ...]) -> Iterable[Line]:
    if said:
        yield from _heading(heading)
        for one in said:
            yield Line(one.text, lead=one.about, note=one.more, records=records)
