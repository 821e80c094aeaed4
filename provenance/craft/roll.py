"""What a roll says: the list of an edition, or what an heir has to know, as finished text.

Paper and screen show the same: chapters of facts, sentences and tables.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from provenance.model.certificate import Page

Pair = tuple[str, str]


@dataclass(frozen=True)
class TableColumn:
    """One column; without a width it shares what the others leave."""

    head: str
    width_mm: float = 0.0
    right: bool = False
    """Figures stand at the right of their column."""
    quiet: bool = False


@dataclass(frozen=True)
class Table:
    """Rows under heads; the first cell of a row is what the row is about."""

    columns: tuple[TableColumn, ...]
    rows: tuple[tuple[str, ...], ...]
    records: tuple[int, ...] = ()
    """The record that each row is about, where it is about one."""


@dataclass(frozen=True)
class Facts:
    """Labels with their values."""

    pairs: tuple[Pair, ...]


@dataclass(frozen=True)
class Says:
    """Sentences, each with how it is known or when it was said, which may be nothing."""

    sentences: tuple[Pair, ...]


@dataclass(frozen=True)
class Part:
    """A heading, and what stands below it."""

    heading: str
    body: tuple[Facts | Says | Table, ...]


@dataclass(frozen=True)
class Chapter:
    """One edition, say.  A roll of one chapter does not repeat its title; one may have none."""

    title: str
    designation: str
    parts: tuple[Part, ...]


@dataclass(frozen=True)
class Roll:
    """What a roll says, as finished text.  No text here is markup."""

    name: str
    """Stands at the foot of every page."""
    kind: str
    """What the paper is: “Edition list”."""
    title: str
    designation: str
    artist: str
    place: str
    day: str
    seal: str
    """Who it is for, said at its head and its foot; empty for a form that anybody may see."""
    chapters: tuple[Chapter, ...]
    note: str
    """What it rests on."""
    labels: Mapping[str, str]
    """`continued` and `page_of`."""
    drawn_at_utc: datetime
    page: Page = "A4"
    language: str = "en"
