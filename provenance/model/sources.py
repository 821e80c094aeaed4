"""What a published figure is worth: who says so, and who has read it there.

A figure of the trade is a default that a studio may change.  Wherever one is
shown, it is shown with its grade and its source.
"""

from dataclasses import dataclass
from typing import Literal

Grade = Literal["S", "S2", "C", "M", "P", "unsure"]

GRADES: dict[Grade, str] = {
    "S": "read in the source named",
    "S2": "second-hand: a source quoted by another",
    "C": "calculated",
    "M": "from memory of the publication, not read again",
    "P": "common practice, no source",
    "unsure": "uncertain: check it with the supplier",
}
"""Each grade in words."""


@dataclass(frozen=True)
class Sourced:
    """Where a figure comes from."""

    grade: Grade
    source: str = ""

    def __str__(self) -> str:
        words = GRADES[self.grade]
        return f"{self.source} ({words})" if self.source else words
