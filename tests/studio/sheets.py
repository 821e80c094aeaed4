"""Day sheets to test with: a studio to enter them into, and what comes of them."""

from dataclasses import dataclass, field
from datetime import datetime, timedelta, timezone
from pathlib import Path

import pytest
from PIL import Image

from provenance.errors import Problem, Refused
from provenance.records.clock import SetClock
from provenance.records.reader import Reader
from provenance.studio.daysheet.record import Recorded, record_day_sheet
from provenance.studio.folder import StudioFolder
from provenance.studio.references import resolve_print

DAY = "2031-06-01"
"""A day on which no sheet of the tests lies in the future."""

FIRST = """\
[day]
date = 2031-05-04
who = "artist"
[studio]
name = "The drying room"
artist = "A. Printer"
mark = "DR"
[[negative]]
code = "N-1"
title = "Slipway"
made = "1998~"
[[edition]]
code = "QUAY"
negative = "N-1"
name = "Quay"
promise = "Twenty-five prints and two artist's proofs"
numbered = 25
artist_proofs = 2
image = "30.0 x 24.0 cm"
sheet = "40.6 x 30.5 cm"
[[paper]]
code = "FB-1"
base = "fibre"
[[bath]]
code = "fix-A"
role = "fix"
dilution = "1+4"
made = 2031-05-03
[[printing]]
edition = "QUAY"
sheets = ["Q1", "Q2", "Q3"]
paper = "FB-1"
"""


@dataclass
class Desk:
    """Where day sheets are written, and the studio that they are entered into."""

    path: Path
    day: str = DAY
    written: int = field(default=0)

    @property
    def folder(self) -> StudioFolder:
        """The studio's folder."""
        return StudioFolder(self.path / "studio")

    def evening(self) -> SetClock:
        """The clock of the studio, on the evening of its day."""
        zone = timezone(timedelta(hours=2))
        return SetClock(datetime.fromisoformat(f"{self.day}T21:30:00").replace(tzinfo=zone))

    def write(self, text: str) -> Path:
        """A day sheet with `text`; a sheet without a [day] table gets one."""
        self.written += 1
        path = self.path / f"sheet-{self.written}.toml"
        head = "" if "[day]" in text else f'[day]\ndate = {self.day}\nwho = "artist"\n'
        path.write_text(head + text, encoding="utf-8")
        return path

    def enter(self, text: str, *, rehearse: bool = False) -> Recorded:
        """Enter a sheet with `text`."""
        return record_day_sheet(
            self.folder, self.write(text), rehearse=rehearse, clock=self.evening()
        )

    def refused(self, text: str) -> tuple[Problem, ...]:
        """What is told about a sheet with `text`, which must not be entered."""
        with pytest.raises(Refused) as caught:
            self.enter(text)
        return caught.value.problems

    def head(self) -> tuple[int, str]:
        """Where the studio's journal stands."""
        with self.folder.open() as register:
            return register.read.head()

    def files(self) -> set[str]:
        """Every file in the studio's folder but those of the database."""
        return {
            str(path.relative_to(self.folder.path))
            for path in self.folder.path.rglob("*")
            if path.is_file() and not path.name.startswith("register.db")
        }


def open_desk(path: Path) -> Desk:
    """A desk with a studio on which FIRST was entered."""
    desk = Desk(path)
    desk.enter(FIRST)
    return desk


def print_id(reader: Reader, name: str) -> int:
    """The id of the print called `name`."""
    return resolve_print(reader, name).id


def draw(path: Path, size: tuple[int, int] = (80, 100)) -> Path:
    """A small scan at `path`."""
    path.parent.mkdir(parents=True, exist_ok=True)
    Image.linear_gradient("L").resize(size).save(path)
    return path
