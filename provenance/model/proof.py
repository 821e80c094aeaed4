"""Residual tests: was it fixed, was it washed."""

from typing import ClassVar, Literal

from provenance.model.body import Body, Count, Part, Ref
from provenance.model.evidence import Source
from provenance.model.process import Question

Method = Literal[
    "sulfide spot",
    "selenium spot",
    "silver-nitrate spot",
    "methylene blue",
    "iodine-amylose",
    "silver-sulfide densitometric",
    "laboratory analysis",
]
Specimen = Literal["border", "companion strip", "companion sheet", "print"]
Verdict = Literal["passed", "failed", "unclear"]
ThiosulfateAs = Literal["ion", "sodium", "ammonium", "crystal"]
"""The ion S2O3, sodium thiosulfate, ammonium thiosulfate, sodium thiosulfate pentahydrate."""

METHODS: dict[Question, frozenset[Method]] = {
    "silver": frozenset({"sulfide spot", "selenium spot", "laboratory analysis"}),
    "thiosulfate": frozenset(
        {
            "silver-nitrate spot",
            "methylene blue",
            "iodine-amylose",
            "silver-sulfide densitometric",
            "laboratory analysis",
        }
    ),
}
"""Which methods answer which question.  The three for thiosulfate beside the
spot are those of ISO 18917:1999; the spots are common practice."""

BY_EYE: frozenset[Method] = frozenset({"sulfide spot", "selenium spot", "silver-nitrate spot"})
"""Methods read by eye against a comparator."""


class Attached(Part, frozen=True, kw_only=True):
    """A file beside a test: a photograph of the spot, or what a laboratory reported.

    The studio keeps a small picture of a photograph, and a report (PDF) whole,
    under `kept_sha256`.
    """

    what: Literal["photograph", "report"]
    file_name: str
    file_sha256: str
    kept_sha256: str

    @property
    def kept_name(self) -> str:
        """The file that is kept."""
        whole = self.kept_sha256 == self.file_sha256
        return f"{self.kept_sha256}.{'pdf' if whole else 'jpg'}"


class Test(Body, frozen=True, kw_only=True):
    """One residual test: what was asked, how, of which specimen, and the reading.

    `covers` are the prints it speaks for.  `measured_ng_per_cm2` is set when an
    instrument or a laboratory gave a figure (0.9 µg/cm² is 900), `reckoned_as`
    says of what.  `darker_md` is how much darker a spot was than the paper beside
    it; only the studio's own `calibration` turns it into an amount.
    """

    __test__: ClassVar[bool] = False
    """Tells pytest that this is a noun of the trade."""

    KIND: ClassVar[str] = "test"
    LINKS: ClassVar[dict[str, str]] = {
        "covers": "print",
        "calibration": "spot-calibration",
        "repeats": "test",
    }

    question: Question
    method: Method
    specimen: Specimen
    covers: tuple[Ref, ...]
    done_on: str
    place: Count
    contact_ms: Count | None = None
    read_ms: Count | None = None
    reading: str = ""
    measured_ng_per_cm2: Count | None = None
    reckoned_as: ThiosulfateAs | None = None
    darker_md: Count | None = None
    calibration: Ref | None = None
    criterion: str = ""
    criterion_source: str = ""
    verdict: Verdict
    repeats: Ref | None = None
    """The failed test that this one asks again, after what mends it."""
    kept_at: str = ""
    """Where the companion strip or sheet lies."""
    attached: tuple[Attached, ...] = ()
    source: Source = "notes"
    note: str = ""
