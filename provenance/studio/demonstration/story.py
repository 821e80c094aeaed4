"""The demo's story: its evenings, its scans, and the print that is taken all the way."""

import tomllib
from datetime import datetime
from pathlib import Path

import msgspec

from provenance.records.files import write_whole
from provenance.resources import resource

STORY = "story.toml"


class _Part(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A part of the story."""


class Evening(_Part, frozen=True, kw_only=True):
    """One day sheet, when it was entered, and what was issued afterwards."""

    at: datetime
    sheet: str
    scans: tuple[str, ...] = ()
    certify: tuple[str, ...] = ()


class Picture(_Part, frozen=True, kw_only=True):
    """What a scan shows; without a toning it is a whole scan in 16-bit grey."""

    scene: str
    variant: int = 0
    toning: str | None = None


class Walk(_Part, frozen=True, kw_only=True):
    """The print that is printed today; `held_back` is one that cannot be certified."""

    sheet: str
    edition: str
    print: str
    certificate: str
    scans: tuple[str, ...]
    held_back: str


class Story(_Part, frozen=True, kw_only=True):
    """The whole story of the demo studio."""

    studio: str
    mark: str
    walk: Walk
    evening: tuple[Evening, ...]
    scan: dict[str, Picture]

    @property
    def sheets(self) -> tuple[str, ...]:
        """The files that the story needs beside its own."""
        return (*(evening.sheet for evening in self.evening), self.walk.sheet)


def shipped_story() -> Story:
    """The story that came with the program."""
    return _read(resource("demo", STORY))


def own_story(days: Path) -> Story:
    """The story as it was copied into a studio."""
    return _read(days / STORY)


def _read(path: Path) -> Story:
    return msgspec.convert(tomllib.loads(path.read_text(encoding="utf-8")), Story)


def copy_story(days: Path) -> Story:
    """Copy the day sheets into `days`, the story itself last: it says that all are there.

    From then on the studio has its own story, whatever release reads it.
    """
    story = shipped_story()
    for sheet in story.sheets:
        write_whole(days / sheet, resource("demo", "days", sheet).read_bytes())
    write_whole(days / STORY, resource("demo", STORY).read_bytes())
    return story
