"""Fields of a form: a label, what is typed, and below it a hint or what is wrong."""

from collections.abc import Callable, Sequence
from typing import Literal

from rich.text import Text
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.events import Focus, Key
from textual.message import Message
from textual.suggester import Suggester
from textual.widget import Widget
from textual.widgets import Input, Static, TextArea

from provenance.errors import Refused

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
        below = self.query_one(".below", Static)
        return str(below.content) if below.has_class("wrong") else ""

    def say(self, wrong: str) -> None:
        """Say what is wrong, or show the hint again."""
        below = self.query_one(".below", Static)
        below.set_class(bool(wrong), "wrong")
        below.update(Text(f"! {wrong}" if wrong else self.hint))

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


class Line(Input):
    """A line to type in.

    A proposal is replaced by what is typed; end or left keeps it, to be changed.
    """

    def __init__(self, of: Field, value: str, suggester: Suggester | None) -> None:
        super().__init__(value, compact=True, suggester=suggester)
        self._of = of

    def _on_focus(self, event: Focus) -> None:
        # runs before the one of Input, which selects
        self.select_on_focus = self.value == self._of.begun

    async def _on_key(self, event: Key) -> None:
        """Edit in the order of the keys: a binding would let letters pass that came after it."""
        bindings = self._bindings.key_to_bindings.get(event.key, [])
        if bindings and not event.is_printable:
            event.stop()
            event.prevent_default()
            await self.run_action(bindings[0].action)


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
        self._input = Line(self, value, suggester)

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


class Lines(TextArea):
    """Text of several lines; the cursor leaves it at its top and bottom."""

    def action_cursor_up(self, select: bool = False) -> None:
        """Up, and from the first line to the field before."""
        if self.cursor_location[0] == 0 and not select:
            self.screen.focus_previous()
        else:
            super().action_cursor_up(select)

    def action_cursor_down(self, select: bool = False) -> None:
        """Down, and from the last line to the next field."""
        if self.cursor_location[0] == self.document.line_count - 1 and not select:
            self.screen.focus_next()
        else:
            super().action_cursor_down(select)


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


class Options(Widget, can_focus=True):
    """Words of which one is chosen, by left and right or by its first letter."""

    DEFAULT_CSS = """
    Options { height: 1; }
    Options:focus { background: $cursor; }
    """

    class Chosen(Message):
        """Another word was chosen."""

    def __init__(self, words: Sequence[str], chosen: str) -> None:
        super().__init__()
        self.words = tuple(words)
        self.chosen = chosen

    def render(self) -> Text:
        """All the words where there is room, else the chosen one and how many there are."""
        line = Text(no_wrap=True, overflow="crop")
        if sum(len(word) + 2 for word in self.words) <= self.size.width:
            for word in self.words:
                chosen = word == self.chosen
                line.append(f"[{word}]" if chosen else f" {word} ", "bold" if chosen else "")
            return line
        line.append(f"[{self.chosen or ' '}]", "bold")
        place = f"{self.words.index(self.chosen) + 1}" if self.chosen in self.words else "one"
        line.append(f" {place} of {len(self.words)}")
        return line

    def choose(self, word: str) -> None:
        """Choose `word`."""
        if word != self.chosen:
            self.chosen = word
            self.refresh()
            self.post_message(self.Chosen())

    def on_key(self, event: Key) -> None:
        """Left and right, space, or the first letter of a word."""
        here = self.words.index(self.chosen) if self.chosen in self.words else None
        if event.key in ("left", "right", "space"):
            step = -1 if event.key == "left" else 1
            to = (here + step) % len(self.words) if here is not None else min(step, 0)
            self.choose(self.words[to])
        elif event.character and event.character.isalnum():
            order = self.words[here + 1 :] + self.words[: here + 1] if here is not None else ()
            letter = event.character.casefold()
            for word in order or self.words:
                if word.casefold().startswith(letter):
                    self.choose(word)
                    break
        else:
            return
        event.stop()
        event.prevent_default()


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
    """Fields side by side."""

    DEFAULT_CSS = "Row { layout: horizontal; height: auto; }"

    def __init__(self, *fields: Field) -> None:
        super().__init__(*fields)
