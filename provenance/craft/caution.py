"""A caution: a figure stands, but there is a reason not to rest on it alone."""

from dataclasses import dataclass

from provenance.model.sources import Sourced


@dataclass(frozen=True)
class Caution:
    """One reason not to trust a figure without a test, and what that reason is worth."""

    id: str
    text: str
    source: Sourced

    def __str__(self) -> str:
        return f"{self.text}: {self.source}"
