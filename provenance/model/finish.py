"""What happened to prints after the last wash: what a conservator asks first."""

from typing import ClassVar, Literal

from provenance.model.body import Body, Count, Part, Ref
from provenance.model.evidence import Source

Drying = Literal["on screens", "hung back to back", "with heat", "between blotters", "otherwise"]
Flattening = Literal["none", "under weight", "cold press", "heated press", "otherwise"]
Spotting = Literal["none", "dye", "pigment", "dye and pigment"]
Occasion = Literal["finished", "released", "going out", "coming back"]
"""When a condition was looked at."""


class Inscription(Part, frozen=True, kw_only=True):
    """Words on the sheet: with what they were written, and where."""

    text: str
    medium: str = ""
    where: str = ""


class Condition(Part, frozen=True, kw_only=True):
    """How a print looked, and on which occasion."""

    occasion: Occasion
    text: str


class Finish(Body, frozen=True, kw_only=True):
    """How prints were dried, flattened, retouched, mounted and put away.

    What is None was not recorded; what was looked at and not done is said: a
    treatment of “none”, an empty tuple, False.  `done_on` is an EDTF date;
    `place` orders it among the steps and tests of that day.
    """

    KIND: ClassVar[str] = "finish"
    LINKS: ClassVar[dict[str, str]] = {"prints": "print"}

    prints: tuple[Ref, ...]
    done_on: str
    place: Count = 0
    drying: Drying | None = None
    flattening: Flattening | None = None
    spotting: Spotting | None = None
    trimmed: bool | None = None
    mount: str | None = None
    """What it is mounted on, and how; an empty text says that it is not mounted."""
    adhesive: str | None = None
    """What holds it; an empty text says that nothing does (corners, a mat)."""
    coating: str | None = None
    """Varnish, wax or the like; an empty text says that there is none."""
    enclosure: str | None = None
    """What it is kept in; an empty text says that it lies bare."""
    inscriptions: tuple[Inscription, ...] | None = None
    condition: Condition | None = None
    source: Source = "notes"
    note: str = ""
