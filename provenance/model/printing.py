"""A printing, and the steps its sheets went through."""

from typing import ClassVar

from provenance.model.body import Body, Count, Part, Ref, Whole
from provenance.model.chemistry import Role
from provenance.model.evidence import Source


class Burn(Part, frozen=True, kw_only=True):
    """More (+) or less (-) exposure for a named area, in thousandths of a stop."""

    area: str
    milli_stop: Whole
    grade: str = ""


class Exposure(Part, frozen=True, kw_only=True):
    """How the sheets of a printing were exposed."""

    base_ms: Count | None = None
    grade: str = ""
    aperture_tenth: Count | None = None
    """f-number in tenths: f/5.6 is 56."""
    enlarger: str = ""
    lens: str = ""
    burns: tuple[Burn, ...] = ()


class Printing(Body, frozen=True, kw_only=True):
    """One stretch of work at the enlarger; its sheets are the prints that name it.

    `done_on` is an EDTF date.
    """

    KIND: ClassVar[str] = "printing"
    LINKS: ClassVar[dict[str, str]] = {
        "negative": "negative",
        "paper": "paper",
        "process": "process",
    }
    WORDS: ClassVar[tuple[str, ...]] = ("done_on", "note")

    negative: Ref
    done_on: str
    printer: str = ""
    """A role or initials: the artist, an assistant."""
    paper: Ref | None = None
    process: Ref | None = None
    exposure: Exposure | None = None
    source: Source = "notes"
    note: str = ""


class OwnTime(Part, frozen=True, kw_only=True):
    """A sheet's own time in a step, where it differs from the others'."""

    sheet: Ref
    duration_ms: Count


class Step(Body, frozen=True, kw_only=True):
    """What was done to which sheets, in which bath, for how long.

    `done_on` is an EDTF date; `place` orders steps and tests of one day.
    `started` is the local time of day, where it is known.
    """

    KIND: ClassVar[str] = "step"
    LINKS: ClassVar[dict[str, str]] = {"sheets": "print", "bath": "bath", "run": "run"}

    role: Role
    name: str = ""
    sheets: tuple[Ref, ...]
    bath: Ref | None = None
    agent: str = ""
    done_on: str
    place: Count
    started: str | None = None
    duration_ms: Count | None = None
    own: tuple[OwnTime, ...] = ()
    temperature_tenth_c: Whole | None = None
    source: Source = "notes"
    run: Ref | None = None
    """The run at the trays that it was clocked in."""
    note: str = ""

    def duration_for(self, sheet: int) -> int | None:
        """How long `sheet` was in the step, in ms; None when it is not on record."""
        for own in self.own:
            if own.sheet == sheet:
                return own.duration_ms
        return self.duration_ms
