"""What the studio's register says of a certificate, and what has changed since."""

from collections.abc import Iterator

import msgspec

from provenance.model.certificate import Certificate
from provenance.model.studio import Studio
from provenance.records.dossier import print_history
from provenance.records.reader import Reader, Stored
from provenance.studio.certifying.changes import Spoken, changes
from provenance.studio.certifying.particulars import edition_today
from provenance.studio.certifying.record import certificate_record
from provenance.studio.certifying.revisions import revisions
from provenance.studio.certifying.statement import worded
from provenance.studio.checking.inspect import Inspected
from provenance.studio.checking.verdict import Verdict
from provenance.studio.folder import StudioFolder
from provenance.studio.settings import read_settings
from provenance.studio.wordings import load_layout, load_wording

NO_REGISTER = Verdict("not asked", ("there is no register here to ask",))


def on_record(reader: Reader, inspected: Inspected) -> tuple[Verdict, Stored[Certificate] | None]:
    """The register's answer, and the certificate that the file is, where it is one of its own."""
    record = inspected.record
    if record is None:
        return Verdict("no", ("without its record nobody can say which certificate it is",)), None
    if record.studio.studio_id != _studio_id(reader):
        return Verdict("not asked", ("the register here is another studio's",)), None
    number = record.certificate.number
    held = revisions(reader, number)
    if not held:
        return Verdict("no", (f"the register has no certificate {number}",)), None
    same = [one for one in held if one.body.pdf_sha256 == inspected.opened.sha256]
    if not same:
        told = f"the register has {number}, and this is not the file that was issued"
        return Verdict("no", (told,)), None
    body, last = same[0].body, held[-1].body
    stood = record.journal
    now = next(reader.entries(stood.entries), None)
    if now is None or now[2] != stood.head_sha256:
        told = f"the register has {number}, but entry {stood.entries} of its journal is not the one"
        return Verdict("no", (f"{told} that is printed on it; see `provenance audit`",)), None
    told = f"{number}, revision {body.revision}, issued {same[0].entered.local_date()}"
    if body.state == "issued":
        return Verdict("yes", (f"{told}, is in force",)), same[0]
    says = [f"{told}, was {body.state}: {body.state_why}"]
    if body.state == "superseded":
        says.append(f"revision {last.revision} took its place; ask the studio for it")
    return Verdict(body.state, tuple(says)), same[0]


def changed_since(
    reader: Reader, folder: StudioFolder, certificate: Stored[Certificate], record: bytes
) -> Iterator[str]:
    """What a certificate of the same print would say otherwise today, and what became of it.

    `record` is the record behind the certificate.
    """
    body = certificate.body
    history = print_history(reader, body.print)
    sheet = history.print.body
    if sheet.existence != "exists":
        yield f"the print is {sheet.existence}" + (f": {sheet.gone_why}" if sheet.gone_why else "")
    if not history.scans:
        yield "no picture of it is on record any more"
        return
    wording, layout = load_wording(folder, body.language), load_layout(folder, body.language)
    today = certificate_record(
        reader,
        history,
        edition_today(reader, history),
        worded(history, wording),
        number=body.number,
        revision=body.revision,
        issued_at=body.issued_at,
        head=reader.head(),
    )
    spoken = Spoken(wording, layout, read_settings(folder).units)
    for change in changes(msgspec.json.decode(record), today, spoken):
        if change.topic != "statement":
            yield change.line()
        elif change.before:
            yield f"no longer said: {change.before}"
        else:
            yield f"now said: {change.after}"


def _studio_id(reader: Reader) -> str:
    return reader.all(Studio)[0].body.studio_id
