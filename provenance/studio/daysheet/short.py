"""A run told in a few words: one step a line, and only what is worth a word.

bleach 75 s; Q8 90 s; not Q9
developer 2 min 30 s 20.5 C in dev-2603
rinse 2 min after bleach
silver test no stain
"""

import re
from collections.abc import Iterator, Sequence
from typing import Any, get_args

from provenance.errors import Problem, Refused
from provenance.model.chemistry import TONING, Role
from provenance.model.process import PlannedStep, ProcessSheet, Question
from provenance.model.proof import Test, Verdict
from provenance.model.quantity_text import format_duration

ANSWERS: dict[str, tuple[str, Verdict]] = {
    "no stain": ("no stain", "passed"),
    "stain": ("stain", "failed"),
    "unclear": ("", "unclear"),
}
"""What a spot may show, as it is noted and judged."""

_USUAL = {"silver": "sulfide spot", "thiosulfate": "silver-nitrate spot"}
_QUESTIONS: tuple[Question, ...] = get_args(Question)
_ROLES: dict[str, Role] = {role: role for role in get_args(Role)}
_IN_OR_AFTER = re.compile(r"\b(?P<which>in|after)\s+(?P<what>.+?)(?=\s+(?:in|after)\s|$)", re.I)
_WARMTH = re.compile(r"(?:^|\s)(?P<warmth>[\d.,/ ]*\d\s*[°º]?\s*[CF])$", re.I)
_BURN = re.compile(
    r"(?P<area>.*?\S),?\s+(?P<stops>[-+−]\s*\d.*?)(?:,?\s+grade\s+(?P<grade>\S.*))?", re.I
)

Line = tuple[str, dict[str, Any]]
"""Where it was written (``line 2``), and the step as a day sheet has it."""


def read_run(
    text: str,
    plan: ProcessSheet | None,
    sheets: Sequence[str],
    like: dict[Question, Test],
    *,
    as_planned: bool = False,
) -> list[Line]:
    """The steps in `text`, in order, as a day sheet has them.

    When all else was `as_planned`, a step that gives no time took the plan's; a
    test is done `like` the last one of its question.  Raises Refused with every
    line that is not understood.
    """
    steps: list[Line] = []
    problems: list[Problem] = []
    for number, row in enumerate(text.splitlines(), 1):
        if not row.strip():
            continue
        try:
            step = _step(row, plan, sheets, like, as_planned=as_planned)
            steps.append((f"line {number}", step))
        except Refused as error:
            problems += [
                Problem(one.what, f"line {number}", one.field, one.mend) for one in error.problems
            ]
    if problems:
        raise Refused(*problems)
    return steps


def _step(
    row: str,
    plan: ProcessSheet | None,
    sheets: Sequence[str],
    like: dict[Question, Test],
    *,
    as_planned: bool,
) -> dict[str, Any]:
    head, *rest = (" ".join(part.split()) for part in row.split(";"))
    name, said = _begins_with(head, _names(plan))
    if name is None:
        raise Refused(
            Problem(
                what=f"“{head}” does not begin with a step",
                mend=f"steps are: {', '.join(_names(plan))}",
            )
        )
    planned = _planned(name, plan)
    question = (planned.test if planned else None) or _asked(name)
    if question is not None:
        return _tested(question, said, like.get(question), name if planned else "")
    step: dict[str, Any] = {"do": planned.role if planned else _ROLES[name]}
    if planned:
        step["name"] = planned.name
    for found in list(_IN_OR_AFTER.finditer(said)):
        step["bath" if found["which"].lower() == "in" else "after"] = found["what"]
    said = _IN_OR_AFTER.sub("", said).strip()
    if warmth := _WARMTH.search(said):
        step["temperature"] = warmth["warmth"].strip()
        said = said[: warmth.start()].strip()
    aim = planned.aim if planned and as_planned and "after" not in step else None
    if said or aim:
        step["time"] = said or (format_duration(aim.time_ms) if aim else "")
    return step | _of_sheets(rest, sheets)


def _names(plan: ProcessSheet | None) -> list[str]:
    own = [step.name for step in plan.steps] if plan else []
    return [*own, *(name for name in [*_ROLES, *map(_test_name, _QUESTIONS)] if name not in own)]


def _test_name(question: Question) -> str:
    return f"{question} test"


def _asked(name: str) -> Question | None:
    return next((one for one in _QUESTIONS if _test_name(one) == name), None)


def _planned(name: str, plan: ProcessSheet | None) -> PlannedStep | None:
    """The planned step of that name, or the only one that does what `name` says."""
    steps = plan.steps if plan else ()
    named = [step for step in steps if step.name == name]
    alike = [step for step in steps if step.role == name]
    return named[0] if named else alike[0] if len(alike) == 1 else None


def _begins_with(text: str, names: Sequence[str]) -> tuple[str | None, str]:
    """The longest of `names` that `text` begins with, and what follows it."""
    for name in sorted(names, key=len, reverse=True):
        if re.match(rf"{re.escape(name)}(?![\w-])", text, re.I):
            return name, text[len(name) :].strip(" :,")
    return None, text


def _of_sheets(parts: Sequence[str], sheets: Sequence[str]) -> dict[str, Any]:
    """What single sheets had of their own: a time, or no part in it (``not Q9``)."""
    short = {sheet.rpartition(" ")[2]: sheet for sheet in sheets} | {s: s for s in sheets}
    own: dict[str, str] = {}
    left_out: list[str] = []
    for part in filter(None, parts):
        without = re.sub(r"^not\s+", "", part, flags=re.I)
        name, time = _begins_with(without, list(short))
        if name is None:
            raise Refused(
                Problem(
                    what=f"“{part}” does not begin with a sheet in hand",
                    mend=f"they are: {', '.join(sheets)}; write Q8 90 s, or not Q8",
                )
            )
        if without != part:
            left_out.append(short[name])
        else:
            own[short[name]] = time
    held = {"own": own} if own else {}
    if left_out:
        return held | {"sheets": [sheet for sheet in sheets if sheet not in left_out]}
    return held


def _tested(question: Question, said: str, like: Test | None, name: str) -> dict[str, Any]:
    answer = said.casefold().strip(" ,:")
    if answer not in ANSWERS:
        raise Refused(
            Problem(what=f"“{said}” is not what a spot shows", mend=f"write {', '.join(ANSWERS)}")
        )
    return {"name": name} | spot(question, answer, like) if name else spot(question, answer, like)


def spot(question: Question, answer: str, like: Test | None) -> dict[str, Any]:
    """A test that was answered with one of `ANSWERS`, done as the last one was."""
    reading, verdict = ANSWERS[answer]
    return {"test": question, "reading": reading, "verdict": verdict} | spot_as(question, like)


def spot_as(question: Question, like: Test | None) -> dict[str, Any]:
    """How a test of `question` is done: method, specimen and times, as the last one was."""
    if like is None:
        return {"method": _USUAL[question], "specimen": "border"}
    times = {
        name: format_duration(time)
        for name, time in (("contact", like.contact_ms), ("read", like.read_ms))
        if time is not None
    }
    return {"method": like.method, "specimen": like.specimen} | times


def warmed(steps: list[Line], temperature: str, plan: ProcessSheet | None) -> list[Line]:
    """`steps` with the temperature of the run written at the developer.

    `plan` is the plan that was followed in all else, if one was.  Raises Refused
    where nothing was developed.
    """
    if any(step.get("do") == "develop" for _where, step in steps):
        return [
            (where, {"temperature": temperature} | step if step.get("do") == "develop" else step)
            for where, step in steps
        ]
    planned = _planned("develop", plan)
    if planned is None:
        raise Refused(
            Problem(
                what="no developer is among the steps, to note it at",
                mend="write it at a step: wash 40 min 18 C",
            )
        )
    step = {"do": "develop", "name": planned.name, "temperature": temperature}
    if planned.aim:
        step["time"] = format_duration(planned.aim.time_ms)
    return [("temperature", step), *steps]


def with_spot(
    steps: list[Line], where: str, step: dict[str, Any], plan: ProcessSheet | None
) -> list[Line]:
    """`steps` with a test in its place: silver before toning, thiosulfate last of all.

    `plan` is the plan that was followed in all else, if one was.
    """
    question = step["test"]
    if plan is not None:
        if not any(planned.test == question for planned in plan.steps):
            baths = [planned for planned in plan.steps if planned.role]
            step = step | {"after": _last_before_toning(baths, question).name}
        return [*steps, (where, step)]
    at = next(
        (
            place
            for place, (_, other) in enumerate(steps)
            if question == "silver" and other.get("do") in TONING
        ),
        len(steps),
    )
    return [*steps[:at], (where, step), *steps[at:]]


def _last_before_toning(baths: list[PlannedStep], question: Question) -> PlannedStep:
    untoned: list[PlannedStep] = []
    for planned in baths:
        if question == "silver" and planned.role in TONING:
            break
        untoned.append(planned)
    return (untoned or baths)[-1]


def read_baths(text: str) -> dict[str, str]:
    """``developer dev-2603; fix one fix-A``: which bath stood for which step of the plan."""
    found: dict[str, str] = {}
    for part in _parts(text):
        name, equals, code = (word.strip() for word in part.partition("="))
        if not equals:
            name, _, code = part.rpartition(" ")
        if not name or not code:
            raise Refused(
                Problem(what=f"“{part}” names no bath", mend="write step and bath: fix one fix-A")
            )
        found[" ".join(name.split())] = code.strip()
    return found


def say_baths(baths: dict[str, str]) -> str:
    """The text that `read_baths` reads."""
    return "; ".join(f"{name} {code}" for name, code in baths.items())


def read_burns(text: str) -> list[dict[str, str]]:
    """``sky +1/3 grade 1; steps -1/4``: more or less exposure for named areas, in stops."""
    burns: list[dict[str, str]] = []
    for part in _parts(text):
        match = _BURN.fullmatch(part)
        if match is None:
            raise Refused(
                Problem(
                    what=f"“{part}” does not say how many stops",
                    mend="write the area and the stops: sky +1/3 grade 1",
                )
            )
        burns.append({name: value for name, value in match.groupdict().items() if value})
    return burns


def _parts(text: str) -> Iterator[str]:
    return (part for one in re.split(r"[;\n]", text) if (part := one.strip()))
