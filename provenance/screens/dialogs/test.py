"""A residual test: one answer for many prints, or the whole form."""

from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import ClassVar, get_args

from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.widgets import Static

from provenance.craft.units import parse_duration_ms
from provenance.model.process import Question
from provenance.model.proof import Method, Specimen, Verdict
from provenance.model.quantity_text import format_duration
from provenance.screens.dialogs.drop_clock import DropClock
from provenance.screens.dialogs.pieces import (
    begin,
    count_of,
    date_field,
    print_names,
    prints_field,
    put_all,
    source_field,
)
from provenance.screens.dialogs.run import said_of_test
from provenance.screens.widgets.fields import ChoiceField, Field, Row, TextField
from provenance.studio.calling import in_short, names_of
from provenance.studio.daysheet.filled import Filled
from provenance.studio.daysheet.short import spot, spot_as
from provenance.studio.last_time import last_test

_STEP = (
    "method", "specimen", "contact", "read", "reading", "measured",
    "criterion", "criterion_source", "verdict", "kept_at", "note",
)  # fmt: skip
_QUESTIONS: tuple[Question, ...] = get_args(Question)


class NewTest(DropClock):
    """Everything that can be said of a residual test."""

    KIND = "test"
    TITLE = "Residual test"

    def __init__(self, prints: Sequence[int], question: Question = "silver") -> None:
        super().__init__(about=f"{count_of(prints)}, {question}", concerns=prints)
        self._prints = tuple(prints)
        self._question = question

    def rows(self) -> Iterable[Row]:
        """How it was done, as the last one was; then what was seen."""
        done = spot_as(self._question, last_test(self.read, self._question))
        yield Row(prints_field(self, self._prints))
        yield Row(
            ChoiceField("question", "Residual", _QUESTIONS, value=self._question),
            ChoiceField("method", "Method", get_args(Method), value=done["method"]),
            ChoiceField("specimen", "On", get_args(Specimen), value=done["specimen"]),
        )
        yield Row(
            date_field(self, "Tested on"),
            source_field(),
            self._time("contact", "Drop left on, min", done),
            self._time("read", "Read after, min", done),
        )
        yield Row(
            ChoiceField("verdict", "Verdict", get_args(Verdict)),
            TextField("reading", "What was seen", hint="no stain"),
            TextField("measured", "Measured, µg/cm²", hint="only from an instrument"),
        )
        yield Row(
            TextField("criterion", "Criterion", hint="at most 0.7 µg/cm²"),
            TextField("criterion_source", "Whose", hint="where the limit stands"),
        )
        yield Row(
            TextField("photograph", "Photograph of the spot", hint="a file"),
            TextField("report", "Laboratory's report", hint="a PDF file"),
            TextField("kept_at", "The strip is kept", hint="where it lies"),
        )
        yield Row(TextField("note", "Note"))

    def was_read(self, after_ms: int) -> None:
        """What the clock of the drop told stands in the form."""
        self.fields["read"].value = format_duration(after_ms)

    def _time(self, key: str, label: str, done: dict[str, str]) -> TextField:
        return TextField(key, label, value=done.get(key, ""), check=parse_duration_ms, unit="min")

    def left(self, field: Field) -> None:
        """Another question is asked by another method."""
        question = next((one for one in _QUESTIONS if one == field.value), None)
        if field.key == "question" and question is not None:
            done = spot_as(question, last_test(self.read, question))
            for key in ("method", "specimen"):
                self.fields[key].propose(done[key])

    def fill(self) -> Filled:
        """One test, of prints that exist."""
        filled = begin(self)
        filled.put("prints", print_names(self), "treatment", 0, "sheets")
        step = ("treatment", 0, "step", 0)
        filled.put("question", self.value("question"), *step, "test")
        put_all(self, filled, {key: key for key in _STEP}, *step)
        measured = self.value("measured")
        if measured and not any(one.isalpha() for one in measured):
            filled.put("measured", f"{measured} µg/cm²", *step, "measured")
        for key in ("photograph", "report"):
            file = self.value(key)
            filled.put(key, str(Path(file).expanduser()) if file else "", *step, key)
        return filled


class MarkedTest(DropClock):
    """One spot that speaks for many prints, answered with one key."""

    KIND = "marked-test"
    TITLE = "Residual test"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("y", "answer('no stain')", "no stain"),
        Binding("s", "answer('stain')", "a stain"),
        Binding("u", "answer('unclear')", "unclear"),
        Binding("w", "write_more", "write more"),
        Binding("left,right,space", "turn", "the other test", show=False),
    ]
    DEFAULT_CSS = "MarkedTest #question { padding: 1 0; height: auto; }"

    def __init__(self, prints: Sequence[int], question: Question = "silver") -> None:
        super().__init__(about=count_of(prints), concerns=prints)
        self._prints = tuple(prints)
        self._question = question
        self._answer = ""

    def rows(self) -> Iterable[Row]:
        """Nothing is typed here."""
        return ()

    def opened(self) -> None:
        """Ask."""
        self.query_one("#fields", Vertical).mount(Static(id="question", markup=False))
        self._ask()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """An answer saves; there is nothing else to save, and nowhere to go."""
        return action not in ("save", "next", "previous")

    def _ask(self) -> None:
        names = in_short(self.read, self._prints)
        done = said_of_test(spot_as(self._question, last_test(self.read, self._question)))
        self.query_one("#question", Static).update(
            f"{names}\n\nResidual {self._question}: {done}, {self.today}, for all of them.\n\n"
            "What did it show?      (left or right: the other test)"
        )

    def action_turn(self) -> None:
        """Ask the other question."""
        here = _QUESTIONS.index(self._question)
        self._question = _QUESTIONS[(here + 1) % len(_QUESTIONS)]
        self._ask()

    def action_answer(self, answer: str) -> None:
        """Enter the one answer for all the prints."""
        self._answer = answer
        self.action_save()

    def action_write_more(self) -> None:
        """Open the whole form instead."""
        self.run_worker(self._write_more(), group="more")

    async def _write_more(self) -> None:
        recorded = await self.app.push_screen_wait(NewTest(self._prints, self._question))
        if recorded is not None:
            self._close(recorded)

    def fill(self) -> Filled:
        """One test, done as the last one was."""
        filled = begin(self)
        filled.put("", names_of(self.read, self._prints), "treatment", 0, "sheets")
        step = spot(self._question, self._answer, last_test(self.read, self._question))
        if self.dropped_ms is not None:
            step["read"] = format_duration(self.dropped_ms)
        filled.put("", step, "treatment", 0, "step", 0)
        return filled
