"""More about what the cursor is on at the desk, in two or three lines."""

from provenance.craft.disclosing import ASKED
from provenance.model.certificate import Certificate
from provenance.records.reader import Reader
from provenance.studio.custody import Step, custody_of
from provenance.studio.desk_rows import disclosed_of_edition
from provenance.studio.folder import StudioFolder

_LAST = 2
"""So many of the last events are told."""


def about_print(reader: Reader, folder: StudioFolder, record: int) -> str:
    """Its line of provenance, and the last things that happened to it."""
    held = custody_of(reader, folder, record, private=True)
    last = [_told(one) for one in held.steps[-_LAST:]]
    return "\n".join([held.line, *last])


def _told(step: Step) -> str:
    said = [f"{step.on}  {step.event}"]
    said += [f"to {step.party}"] if step.party else []
    said += [f"from {step.giver}"] if step.giver else []
    said += [f"until {step.until}"] if step.until else []
    return ", ".join([" ".join(said), *([step.terms] if step.terms else [])])


def about_certificate(reader: Reader, record: int) -> str:
    """Its file, and why it stands no longer."""
    body = reader.get(Certificate, record).body
    why = f"{body.state}: {body.state_why}" if body.state_why else ""
    sentences = f"{len(body.statement)} sentences, journal entry {body.head_seq}"
    return "\n".join(filter(None, (f"{body.file_name}   {sentences}", why)))


def about_edition(reader: Reader, record: int) -> str:
    """Which items are open."""
    items = disclosed_of_edition(reader, record)
    if items is None:
        return "Nothing is disclosed of an edition before its first print."
    missing = [ASKED[one.item] for one in items if one.reply == "open"]
    return f"open: {'; '.join(missing)}" if missing else "Every item is stated or answered."
