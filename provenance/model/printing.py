"""A printing, and the steps its sheets went through."""

from typing import ClassVar, Literal

from provenance.model.body import Body, Count, Part, Ref, Whole
from provenance.model.chemistry import Role
from provenance.model.evidence import Source
from provenance.model.quantities import Point, Size

Head = Literal["diffuse", "condenser", ""]
"""The light of the enlarger; empty when it is not on record."""


class Burn(Part, frozen=True, kw_only=True):
    """More (+) or less (-) exposure for a named area, in thousandths of a stop."""

    area: str
    milli_stop: Whole
    grade: str = ""
    note: str = ""
    """How it is done: with what card, along which edge."""
    at: Point | None = None
    """The middle of the area, for a sketch."""


class GradeExposure(Part, frozen=True, kw_only=True):
    """One exposure of the whole sheet through one filter, as in split-grade printing."""

    grade: str
    time_ms: Count


class Crop(Part, frozen=True, kw_only=True):
    """The part of the negative that is printed, from its upper left corner."""

    left_tenth_mm: Count
    top_tenth_mm: Count
    size: Size


class Exposure(Part, frozen=True, kw_only=True):
    """How the sheets of a printing were exposed.

    `parts` are the exposures of split-grade printing; then `base_ms` and `grade`
    are left out, or say the whole.
    """

    base_ms: Count | None = None
    grade: str = ""
    """The grade of the paper, or the filter."""
    parts: tuple[GradeExposure, ...] = ()
    preflash_ms: Count | None = None
    mask: str = ""
    aperture_tenth: Count | None = None
    """f-number in tenths: f/5.6 is 56."""
    enlarger: str = ""
    head: Head = ""
    carrier: str = ""
    lens: str = ""
    magnification_thousandth: Count | None = None
    magnification_from: Literal["measured", "computed", ""] = ""
    crop: Crop | None = None
    burns: tuple[Burn, ...] = ()
    emergence_ms: Count | None = None
    """From the first wetting in the developer to the first tone that is seen."""

    @property
    def base_exposures_ms(self) -> dict[str, int]:
        """The exposures of the whole sheet, by grade; empty when none is on record."""
        if self.parts:
            return {part.grade: part.time_ms for part in self.parts}
        return {self.grade: self.base_ms} if self.base_ms else {}


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

    def told_ms(self, sheet: int) -> int | None:
        """`duration_for` as it is told: to the second where keys timed it; no hand is quicker."""
        exact = self.duration_for(sheet)
        if exact is None or self.source != "run":
            return exact
        return max(1000, round(exact, -3))
