"""What a file says of itself, and what is attached to it."""

from dataclasses import dataclass
from datetime import datetime
from typing import ClassVar, Literal


@dataclass(frozen=True)
class About:
    """What the file says of itself; `identity` makes its ID, 32 bytes or more."""

    tool: ClassVar[str] = "darkroom-provenance"

    title: str
    author: str
    subject: str
    language: str
    issued_at_utc: datetime
    identity: bytes
    identifier: str = ""
    """The number that the paper bears, where it has one."""


@dataclass(frozen=True)
class Attachment:
    """A file inside the file; `relation` is what it is to the page (ISO 19005-3, annex E)."""

    name: str
    """Of ASCII letters, figures, points and hyphens."""
    media_type: str
    data: bytes
    about: str
    relation: Literal["Data", "Source", "Supplement", "Alternative"] = "Data"
