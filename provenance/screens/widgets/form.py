"""A form: asks for what a day sheet would say, and enters it the same way."""

import sqlite3
from collections.abc import Iterable
from typing import ClassVar

from rich.text import Text
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.widgets import Input, Static

from provenance.errors import Conflict, Problem, ProvenanceError
from provenance.records.connection import FILE
from provenance.records.register import Register
from provenance.screens.bindings import bindings_for
from provenance.screens.dialogs.ask import Ask
from provenance.screens.frame import Rule, TitleLine
from provenance.screens.guard import meant_for_a_person
from provenance.screens.widgets.controls import Options
from provenance.screens.widgets.fields import Field, Row
from provenance.screens.widgets.form_keys import FormKeys
from provenance.screens.widgets.half_filled_form import HalfFilledForm
from provenance.studio.calling import changed_since, versions_of
from provenance.studio.daysheet.filled import Filled, enter_filled
from provenance.studio.daysheet.record import Recorded


class Form(HalfFilledForm):
    """A page of fields over a place; gives back what was recorded, or None.

    Subclasses give `KIND`, `rows` and `fill`, and say in `about` and `concerns`
    what the form is about.
    """

    TITLE: ClassVar[str]
    DEFAULT_CSS = """
    Form { layout: vertical; background: $background; color: $foreground; }
    Form TitleLine { height: 1; padding: 0 1; }
    Form Rule { height: 1; color: $rule; }
    Form FormKeys { height: 1; padding: 0 1; color: $quiet; }
    Form #fields { height: 1fr; max-width: 102; padding: 0 1; overflow-y: auto; }
    Form #finding { height: auto; max-height: 6; padding: 0 1; display: none; text-style: bold; }
    Form #finding.said { display: block; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        *bindings_for("form"),
        # decided before a key is handed on: what is typed ahead goes into the next field
        Binding("tab", "next", "next", priority=True),
        Binding("shift+tab", "previous", "previous", show=False, priority=True),
        Binding("enter,down", "next_line", "next", show=False, priority=True),
        Binding("up", "previous_line", "previous", show=False, priority=True),
    ]

    def __init__(self, *, about: str = "", concerns: Iterable[int] = ()) -> None:
        super().__init__(about=about, concerns=concerns)
        self._versions: dict[int, int] = {}
        self._saving = False
        self._unreadable: ProvenanceError | sqlite3.DatabaseError | None = None
        """Why the fields could not be made."""

    # what a subclass says

    def rows(self) -> Iterable[Row]:
        """The fields, row by row."""
        raise NotImplementedError

    def fill(self) -> Filled:
        """What stands in the fields, as a day sheet.  Raises Refused, naming fields."""
        raise NotImplementedError  # a form that enters something else overrides `enter`

    def opened(self) -> None:
        """The fields stand: proposals and a title of its own."""

    def left(self, field: Field) -> None:
        """The cursor left `field`: others may be proposed from it."""

    # what is shown

    def compose(self) -> ComposeResult:
        """Title, fields, what is found, and the keys."""
        rows: list[Row] = []
        try:
            rows += self.rows()
        except (ProvenanceError, sqlite3.DatabaseError) as error:
            self._unreadable = error
        yield TitleLine()
        yield Rule()
        with Vertical(id="fields"):
            yield from rows
        yield Static(id="finding", markup=False)
        yield Rule()
        yield FormKeys()

    def on_mount(self) -> None:
        """Name the form, note what it is about, and look for what was left of it."""
        if self._unreadable is not None:
            self._give_up(self._unreadable)
            return
        self.say_title(self._about)
        self.opened()
        if self._concerns:
            self._versions = versions_of(self.read, self._concerns)
        self.offer_draft()

    def _give_up(self, error: ProvenanceError | sqlite3.DatabaseError) -> None:
        """Leave; the page below says what could not be read."""
        told = meant_for_a_person(error, self.studio_folder.path / FILE)
        if told is None:
            raise error
        self.host.news = str(told)
        self.dismiss(None)

    def say_title(self, about: str) -> None:
        """What the form is about, beside its title."""
        self.query_one(TitleLine).set(self.TITLE, about)

    def say(self, text: str) -> None:
        """Say something below the fields."""
        finding = self.query_one("#finding", Static)
        finding.update(Text(text))
        finding.set_class(bool(text), "said")

    def show_problems(self, problems: Iterable[Problem]) -> None:
        """Each problem at its field, the others below; the cursor goes to the first."""
        fields, said = self.fields, dict[str, list[str]]()
        whole: list[str] = []
        for problem in problems:
            text = f"{problem.record}: {problem.what}" if problem.record else problem.what
            text = f"{text}; {problem.mend}" if problem.mend else text
            if problem.field in fields:
                said.setdefault(problem.field, []).append(text)
            else:
                whole.append(f"{problem.field}: {text}" if problem.field else text)
        for key, texts in said.items():
            fields[key].tell("\n".join(dict.fromkeys(texts)))
        if said:
            first = next(key for key in fields if key in said)
            fields[first].enter_field()
            count = len(said)
            whole.append(f"not saved: {count} field{'s' if count > 1 else ''} to mend")
        self.say("\n".join(dict.fromkeys(whole)))

    # moving about

    def action_next(self) -> None:
        """The next field."""
        self.focus_next()

    def action_previous(self) -> None:
        """The field before."""
        self.focus_previous()

    def action_next_line(self) -> None:
        """The next field, from one that is a single line."""
        self.focus_next()

    def action_previous_line(self) -> None:
        """The field before, from one that is a single line."""
        self.focus_previous()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Enter and the arrows belong to a field of several lines while the cursor is in it."""
        if action in ("next_line", "previous_line"):
            return isinstance(self.focused, Input | Options)
        return True

    def on_field_left(self, event: Field.Left) -> None:
        """Let other fields follow."""
        event.stop()
        if not self._done:
            self.left(event.field)

    # saving and leaving

    def action_save(self) -> None:
        """Enter what stands in the fields."""
        if not self._saving:
            self._saving = True
            self.run_worker(self._save(), group="save")

    async def _save(self) -> None:
        try:
            wrong = [field for field in self.query(Field) if not field.sound(anew=True)]
            if wrong:
                wrong[0].enter_field()
                self.say("not saved: what is marked with ! cannot be read")
                return
            self.say("saving")
            recorded = await self.enter()
        except Conflict as error:
            self._tell_conflict(error)
        except ProvenanceError as error:
            self.show_problems(error.problems)
        else:
            await self._finish(recorded)
        finally:
            self._saving = False

    async def enter(self) -> Recorded:
        """Enter the day sheet that the fields make, on the writer."""
        filled = self.fill()
        folder, settings, versions = self.host.folder, self.host.settings, dict(self._versions)

        def work(register: Register) -> Recorded:
            return enter_filled(register, folder, filled, settings=settings, unchanged=versions)

        recorded = await self.host.writer.do(work)
        self.host.wrote(recorded.act)
        return recorded

    def _tell_conflict(self, error: Conflict) -> None:
        """Say who changed what under the form; saving again goes on from there."""
        said = changed_since(self.read, self._versions)
        self._versions = versions_of(self.read, self._concerns)
        self.say(
            "\n".join(said or [str(error)])
            + "\nwhile this form was open. Nothing was saved, and what you typed stands;"
            " save again to enter it all the same."
        )

    def action_leave_form(self) -> None:
        """Leave; ask first when something was typed."""
        if not self.changed:
            self._close(None)
            return
        self.run_worker(self._ask_to_leave(), group="leave")

    async def _ask_to_leave(self) -> None:
        question = "Something was typed here that is not saved."
        if await self.app.push_screen_wait(Ask(question, yes="throw it away", no="stay")):
            await self._finish(None)

    async def _finish(self, recorded: Recorded | None) -> None:
        await self.drop_draft()
        self._close(recorded)

    def _close(self, recorded: Recorded | None) -> None:
        self._done = True
        self.dismiss(recorded)
