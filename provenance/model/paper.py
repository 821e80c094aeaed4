"""Photographic paper."""

from typing import ClassVar, Literal

from provenance.model.body import Body
from provenance.model.evidence import Source
from provenance.model.quantities import Size

Base = Literal["fibre", "resin-coated"]


class Paper(Body, frozen=True, kw_only=True):
    """One batch of paper; `maker` is whatever the box says, as free text."""

    KIND: ClassVar[str] = "paper"
    WORDS: ClassVar[tuple[str, ...]] = ("code", "maker", "batch")

    code: str
    base: Base
    weight: str = ""
    surface: str = ""
    tone: str = ""
    contrast: str = ""
    maker: str = ""
    batch: str = ""
    sheet: Size | None = None
    bought: str | None = None
    source: Source = "notes"
