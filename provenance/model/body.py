"""What every journalled body has in common.

Bodies are frozen values without floats; their canonical bytes are the ones of
RFC 8785, so any reader in any language can check a digest.
"""

from typing import Annotated, ClassVar

import msgspec

Whole = Annotated[int, msgspec.Meta(ge=-(2**53 - 1), le=2**53 - 1)]
"""An integer that every JSON reader keeps exactly (RFC 8785, section 3.2.2.3)."""

Count = Annotated[int, msgspec.Meta(ge=0, le=2**53 - 1)]
"""A whole number that is not negative."""

Ref = Annotated[int, msgspec.Meta(ge=1, le=2**53 - 1)]
"""The id of another record: the journal number of its first entry."""


class Part(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A value inside a body."""


class Body(Part, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """The content of one record at one version."""

    KIND: ClassVar[str]
    """The kind's name in the journal; permanent."""
    FORM: ClassVar[int] = 1
    """The version of the body's form; raised with an upcaster, never reused."""
    LINKS: ClassVar[dict[str, str]] = {}
    """Which fields (or properties, for ids that lie deeper) hold ids of other records,
    and of which kind."""
    WORDS: ClassVar[tuple[str, ...]] = ()
    """Which text fields a search looks into."""


def links_of(body: Body) -> tuple[tuple[str, int], ...]:
    """The records that `body` refers to, as (field, id), in the order of the fields."""
    found: list[tuple[str, int]] = []
    for field in body.LINKS:
        value = getattr(body, field)
        if isinstance(value, tuple):
            found += [(field, one) for one in dict.fromkeys(value)]
        elif value is not None:
            found.append((field, value))
    return tuple(found)
