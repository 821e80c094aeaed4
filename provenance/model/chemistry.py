"""Baths: what stands in a tray."""

from typing import ClassVar, Literal

from provenance.model.body import Body, Count
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


class Bath(Body, frozen=True, kw_only=True):
    """A working solution in use; `made_from` says of what, in the studio's own words."""

    KIND: ClassVar[str] = "bath"
    WORDS: ClassVar[tuple[str, ...]] = ("code", "made_from")

    code: str
    role: Role
    made_from: str = ""
    dilution: Dilution | None = None
    volume_hundredth_ml: Count | None = None
    made_on: str | None = None
    one_shot: bool = False
    film_used: bool | None = None
    hardening: bool | None = None
    retired_on: str | None = None
    retired_why: str = ""
