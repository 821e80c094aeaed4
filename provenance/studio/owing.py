"""What each print still owes before it can leave the studio."""

from collections.abc import Iterator
from dataclasses import dataclass

from provenance.craft.proof import judge
from provenance.model.chemistry import TONING
from provenance.model.process import Question
from provenance.records.dossier import print_history
from provenance.records.reader import Reader

_QUESTIONS: tuple[Question, ...] = ("silver", "thiosulfate")

OWES: dict[str, str] = {
    "silver": "residual-silver test, before toning",
    "thiosulfate": "residual-thiosulfate test, last of all",
    "number": "number",
    "signature": "signature",
    "scan": "picture",
    "certificate": "certificate",
}
"""What a print can owe, in the order in which it is done."""


@dataclass(frozen=True)
class Owing:
    """One thing that is owed, and by which prints."""

    what: str
    about: str
    prints: tuple[tuple[int, str], ...]
    """(id, name) of each."""


def owing(reader: Reader) -> list[Owing]:
    """Everything owed by prints that exist and are in the studio, grouped by what it is."""
    owed: dict[str, list[tuple[int, str]]] = {what: [] for what in OWES}
    for record, name, things in _prints(reader):
        for what in things:
            owed[what].append((record, name))
    return [Owing(what, OWES[what], tuple(prints)) for what, prints in owed.items() if prints]


def _prints(reader: Reader) -> Iterator[tuple[int, str, list[str]]]:
    rows = reader.connection.execute(
        "SELECT id, edition_code, coalesce(designation, mark), state FROM impression"
        " WHERE state IN ('w', 'p', 'n') ORDER BY edition_code, position, id"
    ).fetchall()
    for record, edition, name, _state in rows:
        history = print_history(reader, record)
        body = history.print.body
        things: list[str] = []
        # after toning a silver test tells nothing; it is no longer owed
        toned = any(step.body.role in TONING for step in history.steps)
        for question in _QUESTIONS:
            finding = judge(history, question)
            late = question == "silver" and toned and finding.failed is None
            if finding.passed is None and not late:
                things.append(question)
        if body.designation is None:
            things.append("number")
        elif body.signature is None:
            things.append("signature")
        if not history.scans:
            things.append("scan")
        if not things:
            things.append("certificate")
        yield record, f"{edition} {name}", things
