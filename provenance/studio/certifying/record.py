"""The record behind a certificate: what it says, as data, with the evidence of each sentence.

Its canonical bytes (RFC 8785) are what the printed digest is of.  It holds
whole numbers only, no person but the artist, and no place but the studio's.
"""

from typing import Any

import msgspec

from provenance.craft.history import Fact, PrintHistory
from provenance.model.body import Body
from provenance.model.certificate import IssuedClaim
from provenance.records.entry import digest
from provenance.records.reader import Reader
from provenance.studio.certifying.particulars import EditionToday
from provenance.studio.certifying.remarks import standing_of_print

FORM = "certificate-record/1"


def certificate_record(
    reader: Reader,
    history: PrintHistory,
    today: EditionToday,
    claims: tuple[IssuedClaim, ...],
    *,
    number: str,
    revision: int,
    issued_at: str,
    head: tuple[int, str],
    key_sha256: str | None = None,
    studio_mark_sha256: str | None = None,
) -> dict[str, Any]:
    """The record as plain values.

    `head` is where the journal stood, `key_sha256` the fingerprint of the key that
    seals it, `studio_mark_sha256` the digest of the studio's mark on the page.
    It replaces nothing: a revision says so itself.
    """
    scan = history.scans[-1].body
    body = msgspec.to_builtins
    print_ = history.print.body
    return {
        "form": FORM,
        "certificate": {
            "number": number,
            "revision": revision,
            "issued_at": issued_at,
            "replaces": None,
            "key_sha256": key_sha256,
        },
        "studio": {
            key: value
            for key, value in body(history.studio.body).items()
            if key in ("studio_id", "name", "artist", "place")
        },
        "print": {
            "designation": print_.designation,
            "mark": print_.mark,
            "image": body(print_.image),
            "sheet": body(print_.sheet),
            "signature": body(print_.signature),
            "inscriptions": print_.inscriptions,
            "features": print_.features,
            **standing_of_print(history),
        },
        "edition": {
            key: value
            for key, value in body(history.edition.body).items()
            if key not in ("negative", "bon_a_tirer", "closed_why", "exhibition_only")
        }
        | {"numbered_today": today.given, "other_editions": [one.code for one in today.others]},
        "negative": {
            key: value
            for key, value in body(history.negative.body).items()
            if key not in ("note", "state_why", "taken_by")
        },
        "paper": body(history.paper.body) if history.paper else None,
        "printed_on": history.printing.body.done_on,
        "printed_by": history.printing.body.printer,
        "picture": {
            "scan_sha256": scan.file_sha256,
            "thumbnail_sha256": scan.thumbnail_sha256,
            "studio_mark_sha256": studio_mark_sha256,
        },
        "statement": [body(claim) for claim in claims],
        "evidence": _evidence(reader, history, claims),
        "journal": {"entries": head[0], "head_sha256": head[1]},
    }


def _evidence(
    reader: Reader, history: PrintHistory, claims: tuple[IssuedClaim, ...]
) -> list[dict[str, Any]]:
    """Every record that a sentence or particular rests on: its entry and that entry's digest."""
    records: dict[int, int] = {}
    facts: tuple[Fact[Body] | None, ...] = (
        history.print,
        history.edition,
        history.negative,
        history.printing,
        history.paper,
        history.scans[-1],
        *history.baths,
        *history.steps,
        *history.tests,
    )
    versions = {fact.id: fact.version for fact in facts if fact is not None}
    cited = {record for claim in claims for record in claim.evidence}
    always = {history.print.id, history.edition.id, history.negative.id, history.scans[-1].id}
    for record in sorted(cited | always):
        # what a match rests on is of another print, and not in this one's history
        found = reader.find(record) if record not in versions else None
        records[record] = found.version if found is not None else versions[record]
    return [
        {"record": record, "entry": entry, "entry_sha256": _entry_digest(reader, entry)}
        for record, entry in records.items()
    ]


def _entry_digest(reader: Reader, seq: int) -> str:
    (data,) = reader.connection.execute(
        "SELECT entry FROM journal WHERE seq = ?", (seq,)
    ).fetchone()
    return digest(data)
