"""Rules for what was done to prints after the last wash."""

from collections.abc import Iterator

from provenance.errors import Problem
from provenance.model.finish import Finish
from provenance.records.rules.case import Case
from provenance.records.rules.work import sheets_met

_BESIDE = ("prints", "done_on", "place", "source", "note")


def finish(case: Case[Finish]) -> Iterator[Problem]:
    """A finish says something, of prints that existed on its day."""
    body = case.body
    yield from sheets_met(case, "prints", body.prints)
    said = [name for name in body.__struct_fields__ if name not in _BESIDE]
    if not body.note and all(getattr(body, name) is None for name in said):
        yield case.problem(
            "says nothing of what was done", "drying", "say how it was dried, flattened, mounted"
        )
    if body.adhesive and body.mount == "":
        yield case.problem(
            "an adhesive holds a print that is not mounted",
            "adhesive",
            "say what it is mounted on, or leave the adhesive out",
        )
    if any(not one.text.strip() for one in body.inscriptions or ()):
        yield case.problem("an inscription has no words", "inscriptions", "write what stands there")
    if body.condition is not None and not body.condition.text.strip():
        yield case.problem("does not say how it looked", "condition", "describe it in a few words")
