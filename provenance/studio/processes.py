"""Process sheets: plans that come as templates and are kept with the printings that used them."""

from dataclasses import replace

from provenance.craft.units import parse_duration_ms, parse_temperature_tenth_c
from provenance.errors import NotFound, Problem, Refused
from provenance.model.chemistry import Role
from provenance.model.paper import Base
from provenance.model.process import Aim, PlannedStep, ProcessSheet, Question
from provenance.records.act import Act
from provenance.resources import resource, text_of
from provenance.studio.folder import StudioFolder
from provenance.studio.written.forms import Form, read_form
from provenance.studio.written.lines import line_of


class PlannedStepForm(Form, kw_only=True):
    """One step as it is written in a template."""

    name: str
    role: Role | None = None
    test: Question | None = None
    agent: str = ""
    aim: str | None = None
    least: str | None = None
    longest: str | None = None
    temperature: str | None = None
    note: str = ""


class ProcessSheetForm(Form, kw_only=True):
    """A process sheet as it is written in a template."""

    code: str
    name: str
    base: Base
    step: list[PlannedStepForm]


def read_process(text: str, *, name: str) -> ProcessSheet:
    """The process sheet in the TOML `text` of the file `name`.  Raises Refused with lines."""
    form, lines = read_form(text, ProcessSheetForm, name=name)
    steps: list[PlannedStep] = []
    problems: list[Problem] = []
    for place, step in enumerate(form.step):
        try:
            steps.append(_planned(step))
        except Refused as error:
            for problem in error.problems:
                line = line_of(lines, ("step", place, problem.field))
                problems.append(replace(problem, record=f"{name} step {step.name!r}", line=line))
    if problems:
        raise Refused(*problems)
    return ProcessSheet(code=form.code, name=form.name, base=form.base, steps=tuple(steps))


def _planned(step: PlannedStepForm) -> PlannedStep:
    times = {
        field: parse_duration_ms(text, field=field)
        for field in ("aim", "least", "longest")
        if (text := getattr(step, field)) is not None
    }
    return PlannedStep(
        name=step.name,
        role=step.role,
        test=step.test,
        agent=step.agent,
        aim=Aim(time_ms=times["aim"], least_ms=times.get("least"), longest_ms=times.get("longest"))
        if "aim" in times
        else None,
        temperature_tenth_c=None
        if step.temperature is None
        else parse_temperature_tenth_c(step.temperature, field="temperature"),
        note=step.note,
    )


def process_codes(folder: StudioFolder) -> list[str]:
    """The codes of the process sheets there are: the studio's own, and those that came along."""
    places = (folder.path / "templates" / "process", resource("templates", "process"))
    return sorted({path.stem for place in places for path in place.glob("*.toml")})


def load_process(folder: StudioFolder, code: str) -> ProcessSheet:
    """The process sheet called `code`; the studio's own template where it has one.

    Raises NotFound with the names there are.
    """
    try:
        path = folder.template("process", f"{code}.toml")
    except NotFound as error:
        raise NotFound(
            Problem(
                what=f"there is no process sheet {code}",
                field="process",
                mend=f"{error.problems[0].mend}; your own go into templates/process in the studio",
            )
        ) from error
    return read_process(text_of(path), name=path.name)


def use_process(act: Act, folder: StudioFolder, code: str) -> tuple[int, ProcessSheet]:
    """The process sheet called `code`, entered into the register when it is new or changed.

    Raises as `load_process` does.
    """
    sheet = load_process(folder, code)
    stored = act.by_code(ProcessSheet, sheet.code)
    if stored is None:
        return act.enter(sheet), sheet
    if stored.body != sheet:
        act.change(stored.id, stored.version, sheet)
    return stored.id, sheet
