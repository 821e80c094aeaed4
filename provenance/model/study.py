"""Studies: what a studio finds out once about a paper and a process, and uses again."""

from typing import ClassVar, Literal

from provenance.model.body import Body, Count, Part, Ref, Whole
from provenance.model.evidence import Source
from provenance.model.proof import Method, ThiosulfateAs

BleachTest = Literal["toning bleach", "oxidising bleach"]
"""Which bleach the densities after it tell of: the rehalogenating one before a
toner, or the oxidising one that tests a toned strip (ISO 18915)."""


class WashReading(Part, frozen=True, kw_only=True):
    """What was left in a sheet after it was washed for so long; 0 ms is not at all.

    0.9 µg/cm² is 900.
    """

    washed_ms: Count
    left_ng_per_cm2: Count


class WashStudy(Body, frozen=True, kw_only=True):
    """Residual thiosulfate of sheets of one paper that were washed for different times.

    It holds for that paper, fixed, aided and washed as it says here.
    """

    KIND: ClassVar[str] = "wash-study"
    LINKS: ClassVar[dict[str, str]] = {"paper": "paper"}
    WORDS: ClassVar[tuple[str, ...]] = ("code", "washing")

    code: str
    paper: Ref
    done_on: str
    fixing: str = ""
    aid: bool | None = None
    washing: str = ""
    """How the water was changed: trays, siphon, washer, flow."""
    temperature_tenth_c: Whole | None = None
    method: Method
    reckoned_as: ThiosulfateAs = "ion"
    laboratory: str = ""
    readings: tuple[WashReading, ...]
    source: Source = "notes"
    note: str = ""


class BleachedPatch(Part, frozen=True, kw_only=True):
    """One patch before and after a bleach, in thousandths of a density, paper included."""

    before_md: Count
    after_md: Count


class ToningStudy(Body, frozen=True, kw_only=True):
    """Densities of the same patches before and after a bleach, read the same way.

    `d_min_md` is the paper's own density, subtracted from every patch.
    """

    KIND: ClassVar[str] = "toning-study"
    LINKS: ClassVar[dict[str, str]] = {"paper": "paper", "process": "process"}
    WORDS: ClassVar[tuple[str, ...]] = ("code", "bath")

    code: str
    paper: Ref
    process: Ref | None = None
    done_on: str
    bleach: BleachTest
    bath: str = ""
    """What the bleach was made from, and how strong."""
    bleached_ms: Count | None = None
    d_min_md: Count
    patches: tuple[BleachedPatch, ...]
    filter: str = ""
    """Visual, or the colour filter that all readings were made through."""
    instrument: str = ""
    source: Source = "notes"
    note: str = ""


class SpotPoint(Part, frozen=True, kw_only=True):
    """How much darker a spot was than the paper beside it, and what a laboratory found there."""

    darker_md: Count
    found_ng_per_cm2: Count


class SpotCalibration(Body, frozen=True, kw_only=True):
    """The studio's own scale from the darkness of a spot to an amount.

    No published table gives one; it holds for the test, the paper and the time
    of reading named here.
    """

    KIND: ClassVar[str] = "spot-calibration"
    LINKS: ClassVar[dict[str, str]] = {"paper": "paper"}
    WORDS: ClassVar[tuple[str, ...]] = ("code", "laboratory")

    code: str
    paper: Ref
    done_on: str
    method: Method
    contact_ms: Count | None = None
    read_ms: Count | None = None
    points: tuple[SpotPoint, ...]
    reckoned_as: ThiosulfateAs | None = "ion"
    """None where the spot tells of silver."""
    laboratory: str = ""
    instrument: str = ""
    filter: str = ""
    source: Source = "notes"
    note: str = ""
