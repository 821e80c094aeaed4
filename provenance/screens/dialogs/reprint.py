"""What is to be printed again, on what and at which size; the plan follows as it is typed."""

import asyncio
from collections.abc import Iterable
from datetime import date

from textual.suggester import SuggestFromList

from provenance.craft.sensitometry.ready import make_ready
from provenance.errors import Problem, Refused
from provenance.model.paper import Paper
from provenance.screens.dialogs.answered import NOTHING
from provenance.screens.dialogs.match import print_called
from provenance.screens.dialogs.mixing import MixingForm
from provenance.screens.widgets.fields import Field, Row, TextField
from provenance.screens.widgets.working import Cells, Said, Shown
from provenance.studio.daysheet.exposed import f_number_tenth, magnification_thousandth
from provenance.studio.daysheet.filled import read_count
from provenance.studio.daysheet.record import Recorded
from provenance.studio.processes import process_codes
from provenance.studio.reprinting.plan import ReprintPlan, Wish, plan_reprint
from provenance.studio.reprinting.plan_text import exposure_said, targets_said


class PlanReprint(MixingForm):
    """The reference and the conditions; saving opens the whole plan."""

    KIND = "reprint"
    TITLE = "Plan a reprint"
    WORKED_FROM = ("reference", "paper", "grade", "process")

    def __init__(self, reference: str = "", paper: str = "", wish: Wish | None = None) -> None:
        super().__init__()
        self._reference, self._paper, self._wish = reference, paper, wish
        self.asked: tuple[int, Wish] | None = None

    def rows(self) -> Iterable[Row]:
        """What is printed again, then what is not as it was."""
        papers = [one.body.code for one in self.read.all(Paper)]
        wish = self._wish or Wish(self._paper)
        enlarged, aperture = wish.magnification_thousandth, wish.aperture_tenth
        yield Row(
            TextField("reference", "To match", value=self._reference, hint="QUAY BAT, QUAY 3/25"),
            TextField(
                "paper",
                "Paper",
                value=wish.paper,
                hint=", ".join(papers[-3:]),
                suggester=SuggestFromList(papers, case_sensitive=False),
            ),
            TextField("sheets", "Sheets", value=str(wish.sheets), check=read_count),
        )
        yield Row(
            TextField(
                "magnification",
                "Magnification",
                value=f"{enlarged / 1000:g}" if enlarged else "",
                hint="as it was",
                check=magnification_thousandth,
            ),
            TextField(
                "aperture",
                "Aperture",
                value=f"f/{aperture / 10:g}" if aperture else "",
                hint="as it was",
                check=f_number_tenth,
            ),
            TextField("grade", "Grade", value=wish.grade or "", hint="the nearest"),
            TextField(
                "process",
                "Process sheet",
                value=wish.process or "",
                hint="as it was",
                suggester=SuggestFromList(process_codes(self.studio_folder), case_sensitive=False),
            ),
        )

    def opened(self) -> None:
        """Load what curves are made with, aside."""
        super().opened()
        self.run_worker(self._ready(), group="curves")

    async def _ready(self) -> None:
        await asyncio.to_thread(make_ready)
        self._ready_now = True
        self._work()

    _ready_now = False

    def typed(self, field: Field) -> None:
        """Work out anew, once curves can be made."""
        if self._ready_now:
            super().typed(field)

    def _wished(self) -> tuple[int, Wish]:
        """Raises Refused, naming fields."""
        record = print_called(self, "reference")
        if not self.value("paper"):
            raise Refused(Problem("is missing", field="paper", mend="name a paper on record"))
        enlarged, aperture = self.value("magnification"), self.value("aperture")
        return record, Wish(
            paper=self.value("paper"),
            magnification_thousandth=magnification_thousandth(enlarged, field="magnification")
            if enlarged
            else None,
            grade=self.value("grade") or None,
            sheets=read_count(self.value("sheets") or "1", field="sheets"),
            aperture_tenth=f_number_tenth(aperture, field="aperture") if aperture else None,
            process=self.value("process") or None,
        )

    def _plan(self) -> ReprintPlan:
        record, wish = self._wished()
        today = date.fromisoformat(self.today)
        return plan_reprint(self.read, self.studio_folder, record, wish, today=today)

    def work_out(self) -> Iterable[Shown]:
        """Exposure, targets, and what is missing for a match."""
        if not self._ready_now:
            return [Said("reading the curves", quiet=True)]
        plan = self._plan()
        rows = [(one.about, one.text) for one in (*exposure_said(plan), *targets_said(plan))]
        said = [Said(f"{one}", quiet=True) for one in (*plan.missing, *plan.cautions)]
        return [Cells(tuple(rows)), *said]

    async def enter(self) -> Recorded:
        """Nothing is written; the plan is looked at on its page."""
        self._plan()
        self.asked = self._wished()
        return NOTHING
