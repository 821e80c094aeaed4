"""Residual tests: was it fixed, was it washed."""

from typing import ClassVar, Literal

from provenance.model.body import Body, Count, Ref
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


class Test(Body, frozen=True, kw_only=True):
    """One residual test: what was asked, how, of which specimen, and the reading.

    `covers` are the prints it speaks for.  `measured_ng_per_cm2` is set when an
    instrument or a laboratory gave a figure (0.9 µg/cm² is 900).
    """

    __test__: ClassVar[bool] = False
    """Tells pytest that this is a noun of the trade."""

    KIND: ClassVar[str] = "test"
    LINKS: ClassVar[dict[str, str]] = {"covers": "print"}

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
    criterion: str = ""
    criterion_source: str = ""
    verdict: Verdict
    source: Source = "notes"
    note: str = ""
