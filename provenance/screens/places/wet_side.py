"""Wet side: the runs in hand, and the plans and printings behind them."""

from provenance.model.edition import Edition
from provenance.model.printing import Printing
from provenance.model.prints import Print
from provenance.model.process import ProcessSheet
from provenance.model.run import Run
from provenance.records.newest import newest
from provenance.records.reader import Reader, Stored
from provenance.screens.dialogs.ask import Ask
from provenance.screens.dialogs.explain import Explain
from provenance.screens.dialogs.new_run import NewRun
from provenance.screens.dialogs.pick import Pick
from provenance.screens.dialogs.printing import NewPrinting
from provenance.screens.places.listed import Listed
from provenance.screens.places.run_page import RunPage
from provenance.screens.reads_aside import ReadsAside
from provenance.screens.widgets.line_list import Line, LineList
from provenance.studio.naming import row_of
from provenance.studio.run_board import run_title
from provenance.studio.running import give_up, view_run
from provenance.studio.wet_side import view_wet_side


class NewSheets(NewPrinting):
    """A printing whose sheets are still to go into the trays."""

    KIND = "new-sheets"
    TITLE = "Printing, then to the trays"

    def opened(self) -> None:
        """Nothing was done with them yet, whatever the plan says; the run asks how warm it is."""
        super().opened()
        self.fields["as_planned"].value = "no"
        self.fields["temperature"].value = ""


class WetSide(Listed, ReadsAside):
    """Runs in hand come first: enter takes one up again where it is."""

    WHERE = "wet_side listed"
    NAME = "Wet side"

    def refresh_content(self) -> None:
        """Read runs, process sheets and printings."""
        self.headline(self.NAME, "", self.studio.studio_name)
        self.read_aside(self._lines, self.query_one(LineList).show)

    def _lines(self, reader: Reader) -> list[Line]:
        view = view_wet_side(reader)
        runs = [self._line(reader, run) for run in view.in_hand]
        none = Line("No run in hand: n begins one, p prints first.", quiet=True, wide=True)
        lines = [Line("in hand", heading=True), *(runs or [none]), Line("", heading=True)]
        if view.ended:
            lines.append(Line("runs that have ended", heading=True))
            lines += [self._line(reader, run) for run in view.ended]
            lines += [*_more(view.more_ended), Line("", heading=True)]
        for heading, found, more in (
            ("process sheets in use", reader.all(ProcessSheet), 0),
            ("printings", view.printings, view.more_printings),
        ):
            lines.append(Line(heading, heading=True))
            for stored in found:
                name, about = row_of(reader, stored)
                lines.append(Line(about, lead=name, records=(stored.id,)))
            if not found:
                lines.append(Line("none on record", quiet=True, wide=True))
            lines += [*_more(more), Line("", heading=True)]
        return lines

    def _line(self, reader: Reader, run: Stored[Run]) -> Line:
        return Line(
            run_title(reader, run),
            lead=run.body.began_on,
            right="" if run.body.state == "in hand" else run.body.state,
            note=self._where(reader, run),
            records=(run.id,),
        )

    def _where(self, reader: Reader, run: Stored[Run]) -> str:
        """Where each sheet of a run in hand is; of another, what is still to be explained."""
        if run.body.state != "in hand":
            waiting = sum(one.unexplained for one in run.body.overrides)
            return f"{waiting} overridden, not explained yet: e explains" if waiting else ""
        view = view_run(reader, run, self.studio.register.clock())
        places: dict[str, list[str]] = {}
        for one in view.in_hand:
            state = one.state
            where = "through"
            if state.doing is not None:
                where = f"in {state.doing.name}"
            elif state.planned is not None:
                where = f"{state.planned.name} next"
            places.setdefault(where, []).append(one.mark)
        return "; ".join(f"{', '.join(marks)} {where}" for where, marks in places.items())

    def _run_here(self) -> Stored[Run] | None:
        """The run under the cursor; else says that there is none."""
        line, reader = self.query_one(LineList).current, self.studio.register.read
        record = line.records[0] if line is not None and line.records else 0
        if record and reader.kind_of(record) == Run.KIND:
            return reader.get(Run, record)
        self.say("Put the cursor on a run.")
        return None

    def action_give_up_run(self) -> None:
        """Break the run under the cursor off."""
        run = self._run_here()
        if run is not None and run.body.state != "in hand":
            self.say(f"This run is {run.body.state}.")
        elif run is not None:
            self.run_worker(self._give_up(run.id), group="run", exclusive=True)

    async def _give_up(self, run: int) -> None:
        question = "Give this run up? What was clocked stays on record; its sheets are free again."
        if await self.studio.push_screen_wait(Ask(question, yes="give it up")):
            await self.studio.act(lambda act: give_up(act, run))
            self.studio.news = ""
            self.say("saved: the run is given up; u takes it back")

    def action_explain(self) -> None:
        """Say after drying why a finding was overridden."""
        run = self._run_here()
        if run is not None and not run.body.overrides:
            self.say("Nothing was overridden in this run.")
        elif run is not None:
            self.studio.push_screen(Explain(run.id))

    def action_begin_run(self) -> None:
        """Begin a run with sheets that are at work."""
        self.run_worker(self._begin(()), group="run", exclusive=True)

    def action_print_run(self) -> None:
        """Enter a printing first, then begin a run with its sheets."""
        self.run_worker(self._print_first(), group="run", exclusive=True)

    async def _begin(self, sheets: tuple[int, ...]) -> None:
        form = NewRun(sheets)
        recorded = await self.studio.push_screen_wait(form)
        if recorded is None or form.run_id is None:
            return
        self.studio.news = ""
        warned = "; ".join(problem.what for problem in recorded.warnings)
        self.studio.push_screen(RunPage(form.run_id, warned))

    async def _print_first(self) -> None:
        reader = self.studio.register.read
        editions = [one.body for one in reversed(reader.all(Edition)) if one.body.closed is None]
        if not editions:
            self.say("There is no edition to print from yet; 1, then n enters one.")
            return
        chosen: int | None = 0
        if len(editions) > 1:
            names = [f"{one.code}  {one.name}" for one in editions]
            chosen = await self.studio.push_screen_wait(Pick("Which edition is printed?", names))
        if chosen is None:
            return
        form = NewSheets(editions[chosen].code)
        if await self.studio.push_screen_wait(form) is None:
            return
        printing = newest(reader, Printing)
        linked = reader.linked(printing.id, Print, "printing") if printing else []
        sheets = tuple(one.id for one in linked)
        await self._begin(sheets[:9])


def _more(count: int) -> list[Line]:
    """Says that earlier ones are on record."""
    return [Line(f"and {count:,} earlier", heading=True, quiet=True)] if count else []
