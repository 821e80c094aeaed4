"""Fields of a form: a label, what is typed, and below it a hint or what is wrong."""

from collections.abc import Callable, Sequence
from typing import Literal

from rich.cells import cell_len
from rich.text import Text
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.message import Message
from textual.suggester import Suggester
from textual.widget import Widget
from textual.widgets import Input, Static, TextArea

from provenance.errors import Refused
from provenance.screens.widgets.controls import Line, Lines, Options

Check = Callable[[str], object]
"""Reads a text, or raises Refused; the reader of the layer below."""


class Field(Vertical):
    """One thing that a form asks for.  Its value is always text."""

    DEFAULT_CSS = """
    Field { width: 1fr; height: auto; padding: 0 2 0 0; }
    Field .label { height: 1; color: $quiet; text-wrap: nowrap; }
    Field:focus-within .label { color: $foreground; text-style: bold; }
    Field .below { height: auto; min-height: 1; color: $quiet; }
    Field .below.wrong { color: $error; text-style: bold; }
    Field Input, Field TextArea { background: $panel; padding: 0; }
    Field Input:focus, Field TextArea:focus { background: $cursor; }
    """

    class Changed(Message):
        """Something was typed or chosen."""

        def __init__(self, field: "Field") -> None:
            super().__init__()
            self.field = field

    class Left(Message):
        """The cursor went elsewhere, and what stands in the field has been read."""

        def __init__(self, field: "Field") -> None:
            super().__init__()
            self.field = field

    def __init__(
        self,
        key: str,
        label: str,
        *,
        value: str = "",
        hint: str = "",
        check: Check | None = None,
        width: int = 1,
    ) -> None:
        super().__init__(id=f"field-{key}")
        self.key = key
        """Its name in drafts, and in what is told about it."""
        self.begun = value
        self.hint = hint
        self._label = label
        self._check = check
        self._wrong = ""
        self._told = ("", "")
        """What was refused as a whole: the value it was said of, and what was said."""
        self.styles.width = f"{width}fr"

    def control(self) -> Widget:
        """What takes the keys."""
        raise NotImplementedError

    @property
    def value(self) -> str:
        """What stands in the field."""
        raise NotImplementedError

    @value.setter
    def value(self, value: str) -> None:
        raise NotImplementedError

    def compose(self) -> ComposeResult:
        """Label, control, and the line below."""
        yield Static(self._label, classes="label", markup=False)
        yield self.control()
        yield Static(self.hint, classes="below", markup=False)

    def propose(self, value: str) -> None:
        """Put a proposal where nothing was typed; leaving it so changes nothing."""
        if self.value == self.begun:
            self.begun = value
            self.value = value

    def advise(self, hint: str) -> None:
        """Change the hint."""
        self.hint = hint
        if not self.wrong:
            self.say("")

    @property
    def wrong(self) -> str:
        """What is said to be wrong; empty when nothing is."""
        return self._wrong

    @property
    def too_long(self) -> str:
        """What is wrong, with the label, where the field shares its row and it takes more lines."""
        fits = self.has_class("alone") or (
            "\n" not in self._wrong and cell_len(self._wrong) + 2 <= self.content_size.width
        )
        return "" if fits or not self._wrong else f"{self._label}: {self._wrong}"

    def say(self, wrong: str) -> None:
        """Say what is wrong, here or below the row, or show the hint again."""
        self._wrong = wrong
        below = self.query_one(".below", Static)
        below.set_class(bool(wrong), "wrong")
        here = self.hint if self.too_long else wrong
        below.update(Text(f"! {here}".rstrip() if wrong else self.hint))
        for row in self.ancestors:
            if isinstance(row, Row):
                row.say()

    def complete(self) -> None:
        """Bring what was typed into its usual form, before it is read."""

    def tell(self, wrong: str) -> None:
        """Say what the layer below found wrong; it stands until the value is another."""
        self._told = (self.value, wrong)
        self.say(wrong)

    def sound(self, *, anew: bool = False) -> bool:
        """Read what was typed, and say what is wrong with it.

        With `anew` what was found wrong before is forgotten.
        """
        self.complete()
        wrong = ""
        if self._check is not None and self.value.strip():
            try:
                self._check(self.value)
            except Refused as error:
                problem = error.problems[0]
                wrong = f"{problem.what}; {problem.mend}" if problem.mend else problem.what
        said, told = self._told
        if not wrong and not anew and told and said == self.value:
            wrong = told
        self.say(wrong)
        return not wrong

    def enter_field(self) -> None:
        """Put the cursor here."""
        self.query_one("Input, TextArea, Options, Order").focus()

    def on_descendant_blur(self) -> None:
        """Read what was typed as soon as the cursor leaves."""
        if self.is_attached:
            self.sound()
            self.post_message(self.Left(self))


class TextField(Field):
    """A line of text.  `unit` completes a figure that was typed without one."""

    def __init__(
        self,
        key: str,
        label: str,
        *,
        value: str = "",
        hint: str = "",
        check: Check | None = None,
        width: int = 1,
        unit: str = "",
        suggester: Suggester | None = None,
    ) -> None:
        super().__init__(key, label, value=value, hint=hint, check=check, width=width)
        self._unit = unit
        self._input = Line(value, lambda: self.begun, suggester)

    def control(self) -> Widget:
        """A line to type in."""
        return self._input

    @property
    def value(self) -> str:
        """The line."""
        return self._input.value

    @value.setter
    def value(self, value: str) -> None:
        self._input.value = value
        self._input.cursor_position = len(value)

    def complete(self) -> None:
        """Add the unit that the label promises."""
        typed = self.value.strip()
        bare = typed and all(not one.isalpha() or one in "x×" for one in typed)
        if self._unit and bare and ":" not in typed and "°" not in typed:
            self.value = f"{typed} {self._unit}"

    def on_input_changed(self, event: Input.Changed) -> None:
        """Pass on that something was typed."""
        event.stop()
        self.post_message(self.Changed(self))


class LinesField(Field):
    """Several lines of text."""

    def __init__(
        self,
        key: str,
        label: str,
        *,
        value: str = "",
        hint: str = "",
        check: Check | None = None,
        rows: int = 3,
    ) -> None:
        super().__init__(key, label, value=value, hint=hint, check=check)
        self._area = Lines(value, compact=True, highlight_cursor_line=False)
        self._area.styles.height = rows

    def control(self) -> Widget:
        """An area to type in."""
        return self._area

    @property
    def value(self) -> str:
        """The text."""
        return self._area.text

    @value.setter
    def value(self, value: str) -> None:
        self._area.text = value
        self._area.move_cursor(self._area.document.end)

    def on_text_area_changed(self, event: TextArea.Changed) -> None:
        """Pass on that something was typed."""
        event.stop()
        self.post_message(self.Changed(self))


class ChoiceField(Field):
    """One of several words.  It may begin with none chosen."""

    def __init__(
        self,
        key: str,
        label: str,
        words: Sequence[str],
        *,
        value: str = "",
        hint: str = "",
        width: int = 1,
    ) -> None:
        super().__init__(key, label, value=value, hint=hint, width=width)
        self._options = Options(words, value)

    def control(self) -> Widget:
        """The words."""
        return self._options

    @property
    def value(self) -> str:
        """The word that is chosen."""
        return self._options.chosen

    @value.setter
    def value(self, value: str) -> None:
        if value in self._options.words:
            self._options.choose(value)

    def on_options_chosen(self, event: Options.Chosen) -> None:
        """Pass on that something was chosen."""
        event.stop()
        self.post_message(self.Changed(self))


YES_OR_NO: tuple[Literal["yes"], Literal["no"]] = ("yes", "no")
"""The words of a question that is answered with y or n."""


def words_in(text: str) -> list[str]:
    """The names in a list: between commas, or between spaces where there is no comma."""
    if any(mark in text for mark in ",;\n"):
        parts = text.replace(";", ",").replace("\n", ",").split(",")
        return [" ".join(part.split()) for part in parts if part.strip()]
    return text.split()


def names_in(text: str) -> list[str]:
    """Names that may hold spaces (``QUAY 7/25``), between commas."""
    return [" ".join(part.split()) for part in text.replace(";", ",").split(",") if part.strip()]


class Row(Widget):
    """Fields side by side; what is wrong with one and too long for it stands below them all."""

    DEFAULT_CSS = """
    Row { layout: vertical; height: auto; }
    Row Horizontal { height: auto; }
    Row .wrongs { height: auto; display: none; color: $error; text-style: bold; }
    Row .wrongs.said { display: block; }
    """

    def __init__(self, *fields: Field) -> None:
        super().__init__()
        self._fields = fields
        if len(fields) == 1:
            fields[0].add_class("alone")

    def compose(self) -> ComposeResult:
        """The fields, and below them what is wrong."""
        yield Horizontal(*self._fields)
        yield Static(classes="wrongs", markup=False)

    def say(self) -> None:
        """Say what the fields have no room for."""
        said = [f"! {field.too_long}" for field in self._fields if field.too_long]
        wrongs = self.query_one(".wrongs", Static)
        wrongs.update(Text("\n".join(said)))
        wrongs.set_class(bool(said), "said")
