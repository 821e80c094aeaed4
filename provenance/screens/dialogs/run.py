"""What sheets went through: fields that a printing and a treatment share."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from functools import partial
from typing import TypeVar

from textual.suggester import SuggestFromList

from provenance.craft.units import parse_temperature_tenth_c
from provenance.errors import Problem, Refused
from provenance.model.process import ProcessSheet, Question
from provenance.model.proof import Test
from provenance.screens.widgets.fields import (
    YES_OR_NO,
    ChoiceField,
    Field,
    LinesField,
    Row,
    TextField,
)
from provenance.screens.widgets.form import Form
from provenance.studio.daysheet.filled import Filled
from provenance.studio.daysheet.short import (
    ANSWERS,
    Line,
    read_baths,
    read_run,
    say_baths,
    spot,
    spot_as,
    warmed,
    with_spot,
)
from provenance.studio.last_time import LastTime, last_test
from provenance.studio.processes import load_process, process_codes

T = TypeVar("T")

_NOT_TESTED = "no test"
_SPOTS: dict[str, tuple[Question, str]] = {
    "silver": ("silver", "Silver test, before toning"),
    "thiosulfate": ("thiosulfate", "Thiosulfate test, last of all"),
}


class RunForm(Form):
    """A form that tells of steps: a plan that was followed, and what differed from it."""

    def _like(self) -> dict[Question, Test]:
        found: dict[Question, Test] = {}
        for question, _label in _SPOTS.values():
            test = last_test(self.read, question)
            if test is not None:
                found[question] = test
        return found

    def run_rows(self, last: LastTime, *beside: Field) -> Iterable[Row]:
        """The plan, what differed from it, and the spots; `beside` stands by the plan."""
        codes = process_codes(self.studio_folder)
        yield Row(
            TextField(
                "process",
                "Process sheet",
                value=last.process,
                hint="right completes it",
                suggester=SuggestFromList(codes, case_sensitive=False),
            ),
            ChoiceField("as_planned", "All as planned", YES_OR_NO, hint="y or n"),
            *beside,
        )
        yield Row(
            LinesField(
                "steps",
                "What differed from the plan, or all that was done: a step a line",
                hint="bleach 75 s; Q8 90 s; not Q9      rinse 2 min after bleach",
            )
        )
        like = self._like()
        yield Row(
            *(
                ChoiceField(
                    key,
                    label,
                    (_NOT_TESTED, *ANSWERS),
                    value=_NOT_TESTED,
                    hint=said_of_test(spot_as(question, like.get(question))),
                )
                for key, (question, label) in _SPOTS.items()
            )
        )

    def bath_rows(self, last: LastTime) -> Iterable[Row]:
        """Which bath stood for which step."""
        yield Row(
            LinesField(
                "baths",
                "Which bath stood for which step",
                value=say_baths(last.baths),
                hint="fix one fixA-2603; fix two fixB-2603",
                rows=2,
            )
        )

    def temperature_field(self, last: LastTime) -> TextField:
        """How warm the developer was."""
        return TextField(
            "temperature",
            "Developer, °C",
            value=last.temperature,
            check=parse_temperature_tenth_c,
            unit="C",
        )

    def put_run(self, filled: Filled, sheets: Sequence[str], *table: str | int) -> None:
        """Write the plan, the steps and the tests.  Raises Refused, naming fields."""
        code, as_planned = self.value("process"), self.value("as_planned") == "yes"
        plan = load_process(self.studio_folder, code) if code else None
        if plan is not None and not self.value("as_planned"):
            raise Refused(
                Problem(
                    what="is not answered",
                    field="as_planned",
                    mend="y: all but what is written below; n: only what is written below",
                )
            )
        filled.put("process", code, *table, "process")
        filled.put("as_planned", as_planned, *table, "as_planned")
        filled.put("baths", {}, *table, "baths")
        filled.put("steps", [], *table, "step")
        steps = self._steps(plan, sheets, as_planned=as_planned)
        baths = at_field("baths", lambda: read_baths(self.value("baths")))
        for number, (where, step) in enumerate(steps):
            if not as_planned and step.get("name") in baths:
                step = {"bath": baths[step["name"]]} | step
            of_line = where.startswith("line")
            filled.put(
                "steps" if of_line else where,
                step,
                *table,
                "step",
                number,
                called=where if of_line else "",
            )
        for name, bath in baths.items() if as_planned else ():
            filled.put("baths", bath, *table, "baths", name, called=name)

    def _steps(
        self, plan: ProcessSheet | None, sheets: Sequence[str], *, as_planned: bool
    ) -> list[Line]:
        like, followed = self._like(), plan if as_planned else None
        text = self.fields["steps"].value
        steps = at_field("steps", lambda: read_run(text, plan, sheets, like, as_planned=as_planned))
        temperature = self.value("temperature") if "temperature" in self.fields else ""
        if temperature:
            noted = partial(warmed, steps, temperature, followed)
            steps = at_field("temperature", noted)
        for key, (question, _label) in _SPOTS.items():
            answer = self.value(key)
            if answer != _NOT_TESTED:
                steps = with_spot(steps, key, spot(question, answer, like.get(question)), followed)
        return steps


def at_field(field: str, read: Callable[[], T]) -> T:
    """What `read` gives; what it refuses is told of `field`."""
    try:
        return read()
    except Refused as error:
        raise Refused(*(replace(problem, field=field) for problem in error.problems)) from error


def said_of_test(done: dict[str, str]) -> str:
    """How a test is done, in a few words."""
    words = [done["method"], done["specimen"]]
    return ", ".join([*words, f"read at {done['read']}"] if "read" in done else words)
