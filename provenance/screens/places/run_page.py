"""A run at the trays: everything from the numeric keypad, every press on disk before it is shown.

Nothing slow is done here: the board is read and written on the writer, and four
times a second the clocks are drawn anew.
"""

import asyncio
from collections.abc import Awaitable, Callable, Iterable, Sequence

from rich.text import Text
from textual.containers import Horizontal
from textual.events import Key
from textual.widget import Widget

from provenance.craft.running import bounced, just_lifted
from provenance.errors import ProvenanceError
from provenance.model.quantity_text import format_temperature
from provenance.records.register import Register
from provenance.screens.frame import Frame, Rule
from provenance.screens.places.run_deeds import RunDeeds
from provenance.screens.widgets.big_clock import HIGH, BigClock
from provenance.screens.widgets.choices import Choices, Question
from provenance.screens.widgets.columns import fit
from provenance.screens.widgets.run_keys import RunKeys
from provenance.screens.widgets.sheet_now import SheetNow
from provenance.screens.widgets.sheet_rows import SheetRows, clock, shown_ms
from provenance.screens.widgets.steady import Steady
from provenance.studio.run_board import Board, read_board
from provenance.studio.running import RunSheet, RunView

TICKS_A_SECOND = 4
_ROWS_BESIDE = 10
"""Rows that are neither clock nor sheets: title, rules, heading, finding, last key, keys."""
_LOW, _ROOMY, _TALL = 5, HIGH + 2, 2 * HIGH + 2


class RunPage(Frame):
    """The clock of the sheet that needs a hand next, and a row for every sheet."""

    WHERE = "run"
    AUTO_FOCUS = None
    KEYS_AHEAD = False
    DEFAULT_CSS = """
    RunPage #top { height: 9; }
    RunPage BigClock { width: 44; }
    RunPage.-wide BigClock { width: 86; }
    RunPage #warning { height: auto; max-height: 2; }
    RunPage.-wide #warning { max-height: 4; }
    RunPage #last { height: 1; color: $quiet; }
    """

    def __init__(self, run: int, told: str = "") -> None:
        super().__init__()
        self.run_id = run
        self._told = told
        """What was said when it began; it stands until the first key."""
        self.board: Board | None = None
        self.deeds = RunDeeds(self)
        self._picked: list[str] = []
        self._answer: asyncio.Future[int | None] | None = None
        self._one_by_one = asyncio.Lock()
        self._read_once = asyncio.Event()
        self._last_key = ("", -1)
        self._rung: set[tuple[int, int]] = set()

    def content(self) -> Iterable[Widget]:
        """Clock and words, sheets or a question, the finding, the last key."""
        with Horizontal(id="top"):
            yield BigClock()
            yield SheetNow()
        yield Rule()
        yield SheetRows()
        yield Choices()
        yield Rule(id="above-last")
        yield Steady(id="warning")
        yield Steady(id="last")

    def key_line(self) -> Widget:
        """The keypad, and that places are left by esc."""
        return RunKeys()

    # reading and drawing

    def on_mount(self) -> None:
        """Read the board, then let the clocks run."""
        super().on_mount()
        self.set_interval(1 / TICKS_A_SECOND, self.tick)

    def refresh_content(self) -> None:
        """Read the board anew, where something was written."""
        reading: Callable[[], Awaitable[None]] = self.read_anew
        self.run_worker(reading, group="board", exclusive=True)

    async def read_anew(self) -> None:
        """Show the run as it stands in the register."""
        try:
            board = await self.studio.writer.do(self._read)
        except ProvenanceError as error:
            self.say(str(error))
            return
        if not self._whole:
            return
        self.board = board
        self._read_once.set()
        self._picked = [one for one in self._picked if one in board.digits]
        self._make_room()
        self.tick()
        if self._told:
            self.say(self._told)
            self._told = ""
        self.deeds.after_reading(board)

    def _read(self, register: Register) -> Board:
        studio = self.studio
        return read_board(
            register.read, studio.folder, studio.settings, self.run_id, register.clock()
        )

    def on_resize(self) -> None:
        """Another size has room for other figures."""
        super().on_resize()
        self._make_room()

    @property
    def _whole(self) -> bool:
        """Whether the page still has its parts; one that is being left loses them first."""
        return self.is_mounted and bool(self.query(SheetNow))

    def _make_room(self) -> None:
        if not self._whole:
            return
        sheets = len(self.board.view.sheets) if self.board else 3
        free = self.size.height - _ROWS_BESIDE - sheets
        tall = free >= _TALL and self.has_class("-wide")
        height = _TALL if tall else max(_LOW, min(_ROOMY, free))
        if self._answer is not None and not self.has_class("-wide"):
            height = _LOW
        self.query_one("#top").styles.height = height
        # the words begin where the figures do
        above = (height - (_LOW if height < HIGH else height // HIGH * HIGH)) // 2
        self.query_one(SheetNow).styles.padding = (above, 0, 0, 0)

    def view_now(self) -> RunView | None:
        """The run at this moment."""
        return self.board.view.at(self.studio.register.clock()) if self.board else None

    def tick(self) -> None:
        """Draw the clocks anew; nothing is read."""
        board, view = self.board, self.view_now()
        if board is None or view is None or not (self.is_current and self._whole):
            return
        sheets = self.meant(view)
        digits = [key for key, one in board.digits.items() if one.print.id in _ids(sheets)]
        self.query_one(BigClock).show(_figures(sheets))
        self.query_one(SheetNow).show(view, digits, sheets)
        self.query_one(SheetRows).show(board, view, self._picked)
        self._tell(board)
        body = view.run.body
        warmth = body.temperature_tenth_c
        light = "safelight   " if self.studio.in_safelight else ""
        self.headline(
            "Wet side",
            f"Printing {body.began_on}   {board.title}",
            light + (format_temperature(warmth) if warmth is not None else ""),
        )
        self._ring(view)

    def _tell(self, board: Board) -> None:
        gravest, text = board.gravest(), Text(overflow="ellipsis")
        if gravest is not None:
            sheet, step, finding = gravest
            mark = next(one.mark for one in board.view.sheets if one.print.id == sheet)
            sign = "!" if finding.level != "N" else "note"
            said = f"{sign} {finding.rule}  {mark}, {step} next: {finding.what}; {finding.do}"
            text.append(said, f"bold {self.app.theme_variables['accent']}")
        warning = self.query_one("#warning", Steady)
        warning.stand(text)
        warning.display = gravest is not None and self._answer is None
        last = board.presses[-1] if board.presses else None
        said = f"last key  {last.said}  {last.at}" if last else "no key pressed yet"
        room = max(0, self.size.width - 2 - len(_TAKES_BACK) - 2)
        line = Text(no_wrap=True, overflow="crop")
        line.append(fit(said, room) + "  ")
        line.append(_TAKES_BACK if last else "")
        self.query_one("#last", Steady).stand(line)

    def _ring(self, view: RunView) -> None:
        """Ring once for each sheet that it is time to lift."""
        due = {
            (one.state.doing.record, one.print.id)
            for one in view.in_hand
            if one.state.doing is not None and one.state.drain
        }
        if due - self._rung:
            self.app.bell()
        self._rung |= due

    # keys

    def meant(self, view: RunView) -> tuple[RunSheet, ...]:
        """The sheets that the next key is for: those picked, else those that need a hand."""
        if self.board is None:
            return ()
        if not self._picked:
            return self.board.group(view)
        picked = {one.print.id for key, one in self.board.digits.items() if key in self._picked}
        return tuple(one for one in view.in_hand if one.print.id in picked)

    @property
    def asking(self) -> bool:
        """Whether a question waits for its answer."""
        return self._answer is not None

    @property
    def picked(self) -> Sequence[str]:
        """The digits of the sheets that were picked."""
        return tuple(self._picked)

    def on_key(self, event: Key) -> None:
        """A key that only bounced is swallowed; a digit is kept for its action."""
        now = self.studio.register.clock().boot_ms
        before, at = self._last_key
        self._last_key = (event.key, now)
        if event.key == before and bounced(at, now):
            event.stop()
            event.prevent_default()
        self.pressed = event.key

    pressed = ""
    """The key that is being answered."""

    def action_pick(self) -> None:
        """A digit picks a sheet or puts it back; in a question it is the answer."""
        if self._answer is not None:
            self._give(self.query_one(Choices).digit(self.pressed))
            return
        board = self.board
        if board is None or self.pressed not in board.digits:
            self.say(f"No sheet has the digit {self.pressed}.")
            return
        sheet = board.digits[self.pressed]
        if sheet.print.body.existence != "exists":
            self.say(f"{sheet.name} is {sheet.print.body.existence}.")
        elif self.pressed in self._picked:
            self._picked.remove(self.pressed)
        else:
            self._picked.append(self.pressed)
        self.tick()

    def _give(self, answer: int | None) -> None:
        if answer is not None and self._answer is not None and not self._answer.done():
            self._answer.set_result(answer)

    def _leave_question(self) -> None:
        if self._answer is not None and not self._answer.done():
            self._answer.set_result(None)

    async def ask(self, question: Question) -> int | None:
        """The answer, counted from 0; where a time is asked for, ms; None when it was left."""
        self._answer = asyncio.get_running_loop().create_future()
        self.query_one(Choices).ask(question)
        self._show_question(question)
        answer = await self._answer
        self._answer = None
        self._show_question(None)
        return answer

    def _show_question(self, question: Question | None) -> None:
        """A question stands where the sheets and the last key were; the clock goes on."""
        self.query_one(Choices).set_class(question is not None, "asking")
        for beside in (SheetRows, "#last", "#above-last"):
            self.query_one(beside).display = question is None
        self.query_one(RunKeys).asks(question.leave if question is not None else "")
        self._make_room()
        self.tick()

    def action_press(self) -> None:
        """Enter: begin the next step, or end this one; in a question, the time typed."""
        if self._answer is None:
            self._queue("begin or end")
            return
        choices = self.query_one(Choices)
        if choices.timed and choices.typed_ms is not None:
            self._give(choices.typed_ms)
        elif choices.timed:
            self._leave_question()

    def action_take_back(self) -> None:
        """0: the last press is taken back; in a question, it is left."""
        if self._answer is None:
            self._queue("back")
        elif self.query_one(Choices).timed:
            self.query_one(Choices).digit("0")
        else:
            self._leave_question()

    def action_more_time(self) -> None:
        """+: five seconds more."""
        self._queue("more")

    def action_less_time(self) -> None:
        """-: five seconds less; in a typed time, one figure back."""
        if self._answer is not None:
            self.query_one(Choices).erase()
        self._queue("less")

    def action_spoiled(self) -> None:
        """.: the picked sheets are spoiled."""
        self._queue("spoiled")

    def action_paper_shut(self) -> None:
        """*: is all paper shut away?"""
        self._queue("shut")

    def action_other_step(self) -> None:
        """/: another step than the next."""
        self._queue("other")

    async def action_leave_run(self) -> None:
        """Esc: leave a question; else the page, while the run goes on."""
        if self._answer is not None:
            self._leave_question()
            return
        self.studio.news = f"The run goes on: {self.board.title}." if self.board else ""
        await self.studio.action_back()

    def _queue(self, what: str) -> None:
        """Do what a key means, one after another; while something is asked, nothing else."""
        if self._answer is None:
            self.in_turn(self.deeds.named[what])

    def in_turn(self, deed: Callable[[], Awaitable[None]]) -> None:
        """Do something after all that was asked for before; what is refused is said."""

        async def wait_and_do() -> None:
            # what is pressed before the board was read is for the board
            await self._read_once.wait()
            async with self._one_by_one:
                try:
                    if self.is_mounted:
                        await deed()
                except ProvenanceError as error:
                    self.say(str(error))

        self.run_worker(wait_and_do(), group="press")

    def pick_again(self, digits: Sequence[str]) -> None:
        """Sheets whose aim was changed stay picked: it is changed in steps."""
        self._picked = list(digits)
        self.tick()

    def unpick(self) -> None:
        """No sheet is picked any more."""
        self._picked.clear()


_TAKES_BACK = "0 takes it back"
_NO_TIME = "-:--"


def _ids(sheets: Iterable[RunSheet]) -> set[int]:
    return {one.print.id for one in sheets}


def _figures(sheets: Sequence[RunSheet]) -> str:
    """What the clock shows: how long yet or past; of one just lifted how long it hangs."""
    if not sheets:
        return _NO_TIME
    state = sheets[0].state
    if state.doing is None:
        return clock(state.out_ms) if just_lifted(state) else _NO_TIME
    return clock(shown_ms(state))
