"""What the keys of a run do: each is one act, awaited before anything of it is shown."""

from collections.abc import Awaitable, Callable, Sequence
from typing import TYPE_CHECKING, TypeVar

from provenance.craft.sequence.finding import Finding
from provenance.model.process import PlannedStep
from provenance.model.quantity_text import format_duration
from provenance.records.act import Act
from provenance.records.register import Register
from provenance.screens.dialogs.run_test import RunTest
from provenance.screens.widgets.choices import Question
from provenance.screens.widgets.sheet_rows import clock
from provenance.studio.run_board import Board
from provenance.studio.run_carried import carried_over
from provenance.studio.run_choices import (
    OVERRIDES,
    SPOILED,
    errors_in,
    missed_all_the_same,
    nobody_clocked,
    ways,
)
from provenance.studio.run_findings import findings_before
from provenance.studio.running import (
    RunSheet,
    RunView,
    aim_at,
    begin_step,
    end_step,
    finish_run,
    give_up,
    override,
    spoil,
)

if TYPE_CHECKING:
    from provenance.screens.places.run_page import RunPage

T = TypeVar("T")

AIM_STEP_MS = 5_000


class RunDeeds:
    """Begins and ends steps, and whatever else a key stands for, on the sheets that it is for."""

    def __init__(self, page: "RunPage") -> None:
        self._page = page
        self._still_in: set[int] = set()
        """Steps of which a person said that the sheets are still in the tray."""
        self._were_unfixed = False
        self._light_before = "dark"
        self.named: dict[str, Callable[[], Awaitable[None]]] = {
            "begin or end": self.begin_or_end,
            "back": self.take_back,
            "more": lambda: self.aim(AIM_STEP_MS),
            "less": lambda: self.aim(-AIM_STEP_MS),
            "spoiled": self.spoiled,
            "shut": self.paper_shut,
            "other": self.other_step,
        }

    # what a deed works with

    def _now(self) -> tuple[Board, RunView, tuple[RunSheet, ...]]:
        board, view = self._page.board, self._page.view_now()
        assert board is not None  # noqa: S101 - nothing is pressed before the board is read
        assert view is not None  # noqa: S101
        return board, view, self._page.meant(view)

    async def _act(self, work: Callable[[Act], T]) -> T:
        studio = self._page.studio

        def warned(act: Act) -> tuple[T, list[str]]:
            result = work(act)
            return result, [problem.what for problem in act.warnings]

        result, warnings = await studio.act(warned)
        # the last key is shown on the page itself
        studio.news = ""
        self._page.unpick()
        await self._page.read_anew()
        if warnings:
            self._page.say("; ".join(dict.fromkeys(warnings)))
        return result

    async def _choose(self, asks: str, answers: Sequence[str], **more: str) -> int | None:
        return await self._page.ask(Question(asks, answers=tuple(answers), **more))  # type: ignore[arg-type]

    # Enter

    async def begin_or_end(self) -> None:
        """End the step that the sheets are in; begin their next one when they are in none."""
        _board, view, sheets = self._now()
        if not sheets:
            await self.finish()
            return
        inside = [one for one in sheets if one.state.doing is not None]
        if len(inside) == len(sheets):
            await self._act(lambda act: lift(act, inside))
            return
        ahead = {one.state.planned for one in sheets}
        (planned, *others) = ahead
        if inside or others:
            where = ", ".join(f"{one.mark} {_where(one)}" for one in sheets)
            self._page.say(f"These are not in the same place: {where}. Nothing was done.")
        elif planned is None:
            names = ", ".join(one.mark for one in sheets)
            self._page.say(f"{names} went through the whole plan; / gives another step.")
        else:
            await self._begin(view, sheets, planned)

    async def _begin(self, view: RunView, sheets: Sequence[RunSheet], planned: PlannedStep) -> None:
        ids = [one.print.id for one in sheets]
        found = await self._findings(ids, planned)
        reasons: list[tuple[Finding, str]] = []
        for finding in errors_in(found):
            marks = ", ".join(one.mark for one in sheets)
            chosen = await self._choose(
                f"{finding.rule}  {marks} into {planned.name}: {finding.what}",
                OVERRIDES,
                about=f"{finding.why} {finding.do} ({finding.source})",
                leave="do not begin",
            )
            if chosen is None:
                self._page.say(f"{planned.name} was not begun.")
                return
            reasons.append((finding, OVERRIDES[chosen]))

        def work(act: Act) -> None:
            for finding, why in reasons:
                override(act, view.run.id, finding.case, planned.name, ids, why, finding.what)
            lift(act, [one for one in sheets if one.state.doing is not None])
            begin_step(act, view.run, ids, planned)

        await self._act(work)

    async def _findings(self, ids: Sequence[int], planned: PlannedStep) -> tuple[Finding, ...]:
        board = self._page.board
        assert board is not None  # noqa: S101
        keys = [(one, planned.name) for one in ids]
        if all(key in board.findings for key in keys):
            return tuple(
                {(f.case, f.what): f for key in keys for f in board.findings[key]}.values()
            )
        studio = self._page.studio

        def read(register: Register) -> tuple[Finding, ...]:
            reader, view = register.read, board.view
            carried = carried_over(reader, studio.folder, view)
            return findings_before(
                reader, studio.folder, studio.settings, view, ids, planned, carried
            )

        return await studio.writer.do(read)

    # + - . 0

    async def aim(self, by_ms: int) -> None:
        """Change what the sheets aim at, in the step they are in or go into next."""
        _board, view, sheets = self._now()
        aims: dict[int, int] = {}
        names = {_ahead(one) for one in sheets}
        if len(names) != 1 or "" in names:
            self._page.say("Pick sheets that are in the same step.")
            return
        for one in sheets:
            state, planned = one.state, one.state.planned
            aim = state.aim_ms
            if aim is None and planned is not None:
                aim = view.aim_for(planned, one.print.id)
            if aim is None:
                # where nothing was planned the aim is counted from now
                aim = (state.elapsed_ms or 0) // AIM_STEP_MS * AIM_STEP_MS
            aims[one.print.id] = max(AIM_STEP_MS, aim + by_ms)
        picked = self._page.picked
        await self._act(lambda act: aim_at(act, view.run.id, names.pop(), aims))
        self._page.pick_again(picked)

    async def spoiled(self) -> None:
        """Give up the picked sheets, for a reason."""
        _board, view, sheets = self._now()
        if not self._page.picked and len(view.in_hand) > 1:
            self._page.say("Pick the spoiled sheet first: its digit, then this key.")
            return
        marks = ", ".join(one.mark for one in sheets)
        why = await self._choose(f"{marks} spoiled: how?", SPOILED, leave="it is not spoiled")
        if why is None:
            return

        def work(act: Act) -> None:
            for one in sheets:
                spoil(act, one.print.id, SPOILED[why])

        await self._act(work)

    async def take_back(self) -> None:
        """Take back the last press that stands, by a correcting entry."""
        board, _view, _sheets = self._now()
        if not board.presses:
            self._page.say("There is nothing to take back.")
            return
        last = board.presses[-1]
        await self._act(lambda act: act.undo(last.act, "taken back at the trays"))
        acts = self._page.studio.acts
        # neither the press nor its undoing is offered again elsewhere
        del acts[-1:]
        if last.act in acts:
            acts.remove(last.act)
        self._page.say(f"Taken back: {last.said}.")

    # / and the end

    async def other_step(self) -> None:
        """Put the sheets into another step than the next, or answer a test, or end the run."""
        _board, view, sheets = self._now()
        choices = ways(view, sheets)
        marks = ", ".join(one.mark for one in sheets)
        chosen = await self._choose(f"{marks} into which step?", [one.said for one in choices])
        if chosen is None:
            return
        step = choices[chosen].step
        if choices[chosen].gives_up:
            await self.give_up()
        elif step is None:
            await self.finish()
        elif step.test is not None:
            form = RunTest([one.print.id for one in sheets or view.in_hand], step.test)
            await self._page.studio.push_screen_wait(form)
            self._page.unpick()
            await self._page.read_anew()
        else:
            _board, view, _sheets = self._now()
            ids = {one.print.id for one in sheets}
            await self._begin(view, [one for one in view.in_hand if one.print.id in ids], step)

    async def finish(self) -> None:
        """End the run: as planned, or with what was clocked alone."""
        _board, view, _sheets = self._now()
        missing = nobody_clocked(view)
        if not missing:
            chosen = await self._choose("End the run?", ["end it: every bath was clocked"])
            planned = False
        else:
            baths = f"{len(missing)} bath{'s' if len(missing) > 1 else ''}"
            chosen = await self._choose(
                f"End the run? Nobody clocked {', '.join(missing)}.",
                [
                    f"all as planned: enter {baths} with the aims, as notes of the same day",
                    "only what was clocked: nothing is said of the others",
                ],
                about=missed_all_the_same(view),
                leave="the run goes on",
            )
            planned = chosen == 0
        if chosen is None:
            return
        added = await self._act(lambda act: finish_run(act, view.run.id, as_planned=planned))
        said = f", {added} step{'s' if added != 1 else ''} entered as planned" if added else ""
        self._page.studio.news = f"saved: the run is ended{said}"
        self._page.studio.pop_screen()

    async def give_up(self) -> None:
        """Break the run off; what was clocked stays."""
        _board, view, _sheets = self._now()
        inside = ", ".join(one.mark for one in view.in_hand if one.state.doing is not None)
        about = f"{inside}: how long the last step was will not be on record." if inside else ""
        chosen = await self._choose(
            "Give the run up? What was clocked stays on record; the sheets are free again.",
            ["give it up"],
            about=about,
            leave="the run goes on",
        )
        if chosen is not None:
            await self._act(lambda act: give_up(act, view.run.id))
            self._page.studio.news = "saved: the run is given up; its sheets are free again"
            self._page.studio.pop_screen()

    # light, and what nobody saw

    def redden(self) -> None:
        """Change to safelight, and remember the light before it."""
        studio = self._page.studio
        if not studio.in_safelight:
            self._light_before = studio.theme
            studio.theme = "safelight"

    async def paper_shut(self) -> None:
        """Is all paper shut away?  Only a person ends the red light."""
        studio = self._page.studio
        board, view, _sheets = self._now()
        if not studio.in_safelight:
            self.redden()
            return
        wet = [one.mark for one in view.in_hand if one.print.id in board.unfixed]
        about = f"{', '.join(wet)} not fixed yet: white light spoils them." if wet else ""
        answers = ["no: stay red", "yes, all of it: the screen may give white light"]
        chosen = await self._choose("Is all paper shut away?", answers, about=about, leave="no")
        if chosen == 1:
            studio.theme = self._light_before

    def after_reading(self, board: Board) -> None:
        """Follow what the board says: red light, a question that is due, a step nobody ended."""
        if board.unfixed and not self._were_unfixed:
            self.redden()
        elif self._were_unfixed and not board.unfixed and self._page.studio.in_safelight:
            self._page.say("Every sheet is fixed. Is all paper shut away?  * answers.")
        self._were_unfixed = bool(board.unfixed)
        unseen = [one for one in board.view.unseen if _record(one) not in self._still_in]
        if unseen:
            self._still_in |= {_record(one) for one in unseen}
            for record in dict.fromkeys(_record(one) for one in unseen):
                self._page.in_turn(lambda record=record: self._ask_end(record))  # type: ignore[misc]

    async def _ask_end(self, record: int) -> None:
        _board, view, _sheets = self._now()
        sheets = [one for one in view.in_hand if _record(one) == record]
        if not sheets:
            return
        state, marks = sheets[0].state, ", ".join(one.mark for one in sheets)
        name = state.doing.name if state.doing else ""
        aim_ms = state.aim_ms or 0
        minutes = (state.elapsed_ms or 0) // 60_000 * 60_000
        chosen = await self._choose(
            f"{marks} went into {name} {format_duration(minutes)} ago, and nobody ended it.",
            [
                "still in the tray",
                f"lifted at its aim, {clock(aim_ms)}",
                "lifted; I type how long it was in",
            ],
            about="What you say counts as notes, not as clocked.",
            leave="ask me later",
        )
        stated = {1: aim_ms}.get(chosen if chosen is not None else 0)
        if chosen == 2:
            stated = await self._page.ask(
                Question(f"How long were {marks} in {name}?", timed=True, leave="not known yet")
            )
        if stated is not None:
            await self._act(lambda act: end_step(act, record, stated_ms=stated))


def lift(act: Act, sheets: Sequence[RunSheet]) -> None:
    """End the steps that `sheets` are in."""
    records: dict[int, list[int]] = {}
    for one in sheets:
        records.setdefault(_record(one), []).append(one.print.id)
    for record, inside in records.items():
        end_step(act, record, sheets=inside)


def _record(one: RunSheet) -> int:
    return one.state.doing.record if one.state.doing is not None else 0


def _where(one: RunSheet) -> str:
    if one.state.doing is not None:
        return f"in {one.state.doing.name}"
    return f"before {one.state.planned.name}" if one.state.planned is not None else "through"


def _ahead(one: RunSheet) -> str:
    if one.state.doing is not None:
        return one.state.doing.name
    return one.state.planned.name if one.state.planned is not None else ""
