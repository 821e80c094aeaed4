"""Takes one print through every step to its certificate, on today's clock."""

from pathlib import Path

from provenance.errors import NotFound
from provenance.model.certificate import Certificate
from provenance.model.edition import Edition
from provenance.model.prints import Print
from provenance.records.clock import Clock, SystemClock
from provenance.records.dossier import print_history
from provenance.records.files import write_whole
from provenance.records.reader import Reader, Stored
from provenance.records.register import Register
from provenance.studio.certifying.certify import certify
from provenance.studio.daysheet.record import record_day_sheet
from provenance.studio.demonstration.evenings import Tell, draw_scans
from provenance.studio.demonstration.place import days_of
from provenance.studio.demonstration.story import Story
from provenance.studio.demonstration.telling import (
    finding_lines,
    finishing_lines,
    statement_lines,
    stopping_lines,
    work_lines,
)
from provenance.studio.folder import StudioFolder
from provenance.studio.references import resolve_print
from provenance.studio.settings import read_settings
from provenance.studio.wordings import load_wording


def walk(folder: StudioFolder, story: Story, tell: Tell, clock: Clock | None) -> Path:
    """Print, test, number, sign, scan and certify the story's print; where it is done, say so.

    Returns the path of its certificate.
    """
    clock = clock or SystemClock()
    with folder.open(clock) as register:
        held = _on_record(register.read, story)
        issued = register.read.linked(held.id, Certificate, "print") if held else []
        if issued:
            return _already(folder, register.read, issued[-1], story, tell)
    if held is None:
        _print_today(folder, story, clock)
    with folder.open(clock) as register:
        return _certify(register, folder, story, tell)


def _on_record(reader: Reader, story: Story) -> Stored[Print] | None:
    try:
        return resolve_print(reader, f"{story.walk.edition} {story.walk.print}")
    except NotFound:
        return None


def _print_today(folder: StudioFolder, story: Story, clock: Clock) -> None:
    """Fill today's date into the day sheet, and enter it."""
    draw_scans(folder, story, story.walk.scans)
    days = days_of(folder)
    today = str(clock().local_date())
    blank = (days / story.walk.sheet).read_text(encoding="utf-8")
    sheet = days / f"{today}-{story.walk.print}.toml"
    write_whole(sheet, blank.replace("{today}", today).encode())
    record_day_sheet(folder, sheet, clock=clock)


def _certify(register: Register, folder: StudioFolder, story: Story, tell: Tell) -> Path:
    wording = load_wording(folder, read_settings(folder).language)
    held = resolve_print(register.read, f"{story.walk.edition} {story.walk.print}")
    history = print_history(register.read, held.id)
    held_back = resolve_print(register.read, story.walk.held_back)
    tell("")
    tell(f"One print, from sheet to certificate: {story.walk.edition} {held.body.mark}")
    for line in work_lines(history):
        tell(line)
    tell("What the tests are worth")
    for line in finding_lines(history, wording):
        tell(line)
    tell("Finished")
    for line in finishing_lines(history):
        tell(line)
    tell("What would have stopped the certificate")
    for line in stopping_lines(history, print_history(register.read, held_back.id)):
        tell(line)
    issued = certify(register, folder, held.id, who="artist", seen=history)
    tell(f"Certificate {issued.number} says, each sentence with its standing")
    for line in statement_lines(issued.claims, wording):
        tell(line)
    return issued.path


def _already(
    folder: StudioFolder, reader: Reader, issued: Stored[Certificate], story: Story, tell: Tell
) -> Path:
    prints = len(reader.all(Print))
    editions = ", ".join(edition.body.code for edition in reader.all(Edition))
    certificates = len(reader.all(Certificate))
    tell(
        f"{story.studio} is here already: {prints} prints of {editions};"
        f" {certificates} certificates; nothing was entered"
    )
    tell(
        f"{story.walk.certificate} went all the way; its certificate is {issued.body.number}"
        f" ({issued.body.state})"
    )
    return folder.certificates / issued.body.file_name
