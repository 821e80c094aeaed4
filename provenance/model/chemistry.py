"""What stands on the shelf and in the trays: stocks and baths."""

from typing import ClassVar, Literal

from provenance.model.body import Body, Count, Part, Ref
from provenance.model.evidence import Source
from provenance.model.quantities import Dilution

Role = Literal[
    "presoak",
    "develop",
    "stop",
    "rinse",
    "fix",
    "washing aid",
    "wash",
    "bleach",
    "sulfide",
    "thiourea",
    "selenium",
    "gold",
    "other toner",
    "stabilise",
]
"""What a bath does to a sheet."""

TONERS: frozenset[Role] = frozenset({"sulfide", "thiourea", "selenium", "gold", "other toner"})
"""Baths that turn image silver into something else."""

TONING: frozenset[Role] = TONERS | {"bleach"}
"""Baths after which a residual-silver test no longer tells of the fixing
(handbook of the trade: they turn left-over silver compounds into image or stain)."""


Finish = Literal["made up to", "added to"]
"""Whether the amounts go into a finished volume, or into that volume of water."""


class Stock(Body, frozen=True, kw_only=True):
    """A bottle: a solution mixed to keep, or a concentrate that was bought and opened.

    `mixed_on` and `keeps_until` are EDTF dates; `lot` is what the jars or the
    bottle said; `note` may hold an assay that is not the formula's.
    """

    KIND: ClassVar[str] = "stock"
    LINKS: ClassVar[dict[str, str]] = {"formula": "formula"}
    WORDS: ClassVar[tuple[str, ...]] = ("code", "made_from", "lot", "note")

    code: str
    formula: Ref | None = None
    made_from: str = ""
    mixed_on: str
    volume_hundredth_ml: Count
    """How much there was when it was mixed or opened; what is left is worked out."""
    lot: str = ""
    keeps_until: str | None = None
    retired_on: str | None = None
    retired_why: str = ""
    disposed: str = ""
    """How what was left of it was disposed of."""
    source: Source = "notes"
    note: str = ""


class Draw(Part, frozen=True, kw_only=True):
    """What was taken from one bottle."""

    stock: Ref
    volume_hundredth_ml: Count


class Bath(Body, frozen=True, kw_only=True):
    """A working solution in use; `made_from` says of what, in the studio's own words.

    `volume_hundredth_ml` is all there is in the tray, water included; `finish`
    says whether what was `drawn` was made up to it, or added to the rest of it.
    """

    KIND: ClassVar[str] = "bath"
    LINKS: ClassVar[dict[str, str]] = {
        "formula": "formula",
        "drawn_from": "stock",
        "second_of": "bath",
    }
    WORDS: ClassVar[tuple[str, ...]] = ("code", "made_from")

    code: str
    role: Role
    made_from: str = ""
    formula: Ref | None = None
    drawn: tuple[Draw, ...] = ()
    finish: Finish = "made up to"
    dilution: Dilution | None = None
    volume_hundredth_ml: Count | None = None
    made_on: str | None = None
    one_shot: bool = False
    film_used: bool | None = None
    hardening: bool | None = None
    limit: str = ""
    """The name of the silver limit chosen for it; empty for the studio's."""
    second_of: Ref | None = None
    """The fixing bath that sheets go through before this one, as a pair."""
    retired_on: str | None = None
    retired_why: str = ""
    disposed: str = ""

    @property
    def drawn_from(self) -> tuple[int, ...]:
        """The bottles it was made from."""
        return tuple(draw.stock for draw in self.drawn)
