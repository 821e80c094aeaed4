"""Enters the demo's evenings in their order, each as on its own day."""

from collections.abc import Callable
from datetime import timedelta
from pathlib import Path

from provenance.model.certificate import Certificate
from provenance.records.clock import SetClock, utc_text
from provenance.records.connection import FILE
from provenance.records.entry import decode
from provenance.studio.certifying.certify import certify
from provenance.studio.daysheet.record import record_day_sheet
from provenance.studio.demonstration.place import days_of, scans_of
from provenance.studio.demonstration.scans import draw_scan
from provenance.studio.demonstration.story import Evening, Story
from provenance.studio.folder import StudioFolder
from provenance.studio.references import resolve_print

Tell = Callable[[str], None]

_AFTER_THE_SHEET = timedelta(minutes=25)
_UNSAID = ("bath ", "stock ", "retired ", "paper ", "negative ", "  ")
"""How lines begin that a reader of the story can do without."""


def play_evenings(folder: StudioFolder, story: Story, tell: Tell) -> int:
    """Enter every evening that is not on record; returns how many were.

    An evening is known by the moment of its entries, which no other act has.
    """
    entered = entered_moments(folder)
    played = 0
    for evening in story.evening:
        if utc_text(evening.at) not in entered:
            _enter(folder, story, evening, tell)
            played += 1
        _issue(folder, evening, tell)
    return played


def entered_moments(folder: StudioFolder) -> set[str]:
    """The moments of everything on record after the founding of the studio."""
    if not (folder.path / FILE).exists():
        return set()
    with folder.open() as register:
        return {decode(data).moment.at for _seq, data, _digest in register.read.entries(2)}


def draw_scans(folder: StudioFolder, story: Story, names: tuple[str, ...]) -> list[Path]:
    """The scans called `names`, drawn where they are missing."""
    paths = [scans_of(folder) / name for name in names]
    for path in paths:
        draw_scan(story.scan[path.name], path)
    return paths


def _enter(folder: StudioFolder, story: Story, evening: Evening, tell: Tell) -> None:
    draw_scans(folder, story, evening.scans)
    done = record_day_sheet(folder, days_of(folder) / evening.sheet, clock=SetClock(evening.at))
    day = f"{evening.at:%Y-%m-%d}"
    said = [" ".join(line.split()) for line in done.entered if not line.startswith(_UNSAID)]
    tell(f"{day}  {'; '.join(said).replace(f' {day} ', ' ')}")


def _issue(folder: StudioFolder, evening: Evening, tell: Tell) -> None:
    """Issue the evening's certificates, where there are none yet."""
    if not evening.certify:
        return
    with folder.open(SetClock(evening.at + _AFTER_THE_SHEET)) as register:
        for name in evening.certify:
            held = resolve_print(register.read, name)
            if not register.read.linked(held.id, Certificate, "print"):
                issued = certify(register, folder, held.id, who="artist")
                tell(f"{evening.at:%Y-%m-%d}  certificate {issued.number} for {name}")
