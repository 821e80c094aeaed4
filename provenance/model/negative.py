"""The negative that prints are made from."""

from typing import ClassVar, Literal

from provenance.model.body import Body
from provenance.model.quantities import Size

NegativeState = Literal["in use", "retired", "cancelled", "destroyed", "lost"]

UNPRINTABLE: frozenset[NegativeState] = frozenset({"cancelled", "destroyed", "lost"})
"""States after which no new print may be recorded from the negative."""


class Negative(Body, frozen=True, kw_only=True):
    """One negative: `made` is an EDTF date, `format` the size of its frame."""

    KIND: ClassVar[str] = "negative"
    WORDS: ClassVar[tuple[str, ...]] = ("code", "title")

    code: str
    title: str
    made: str | None = None
    format: Size | None = None
    state: NegativeState = "in use"
    state_since: str | None = None
    note: str = ""
