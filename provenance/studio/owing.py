"""What each print still owes before it can leave the studio."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from provenance.craft.proof import judge
from provenance.model.chemistry import TONING
from provenance.model.process import Question
from provenance.records.dossier import print_history
from provenance.records.reader import Reader

_QUESTIONS: tuple[Question, ...] = ("silver", "thiosulfate")

OWES: dict[str, str] = {
    "silver": "residual-silver test, before toning",
    "thiosulfate": "residual-thiosulfate test, last of all",
    "finish": "drying, spotting, mount",
    "number": "number",
    "signature": "signature",
    "scan": "picture",
    "certificate": "certificate",
}
"""What a print can owe, in the order in which it is done."""
OF_ONE_EDITION = frozenset({"number"})
"""What is answered for the prints of one edition at a time."""


@dataclass(frozen=True)
class Debtor:
    """A print that owes something: its edition, and its number or its mark on the back."""

    record: int
    edition: str
    name: str
    discounted: str = ""
    """Why a test that was done does not count."""


@dataclass(frozen=True)
class Owing:
    """One thing that is owed, and by which prints; one answer may serve them all."""

    what: str
    about: str
    prints: tuple[Debtor, ...]

    @property
    def key(self) -> str:
        """Tells what is owed from everything else that is."""
        return f"{self.what} {self.prints[0].edition}" if self.what in OF_ONE_EDITION else self.what

    def in_short(self) -> str:
        """``QUAY Q10, Q11   SLIP 4/15``: the prints under the codes of their editions."""
        said = []
        for edition, prints in groupby(self.prints, key=lambda one: one.edition):
            said.append(f"{edition} {', '.join(one.name for one in prints)}")
        return "   ".join(said)


def owing(reader: Reader) -> list[Owing]:
    """Everything owed by prints that exist and are in the studio, grouped by what it is."""
    owed: dict[str, list[Debtor]] = {what: [] for what in OWES}
    for what, debtor in _prints(reader):
        owed[what].append(debtor)
    return [
        Owing(what, OWES[what], tuple(group))
        for what, prints in owed.items()
        for _edition, group in groupby(
            prints, key=lambda one: one.edition if what in OF_ONE_EDITION else ""
        )
    ]


def _prints(reader: Reader) -> Iterator[tuple[str, Debtor]]:
    rows = reader.connection.execute(
        "SELECT id, edition_code, coalesce(designation, mark), state FROM impression"
        " WHERE state IN ('w', 'p', 'n') ORDER BY edition_code, position, id"
    ).fetchall()
    for record, edition, name, _state in rows:
        history = print_history(reader, record)
        body = history.print.body
        things: dict[str, str] = {}
        # after toning a silver test tells nothing; it is no longer owed
        toned = any(step.body.role in TONING for step in history.steps)
        for question in _QUESTIONS:
            finding = judge(history, question)
            late = question == "silver" and toned and finding.failed is None
            if finding.passed is None and not late:
                whys = [one.why for one in finding.discounted if one.test.body.verdict == "passed"]
                things[question] = whys[-1] if whys else ""
        if body.designation is None:
            things["number"] = ""
        elif body.signature is None:
            things["signature"] = ""
        if not history.scans:
            things["scan"] = ""
        if not things:
            things["certificate"] = ""
        # asked once it is washed; a certificate says that it is not on record, and does not wait
        if "thiosulfate" not in things and not any(one.body.drying for one in history.finishes):
            things["finish"] = ""
        for what, why in things.items():
            yield what, Debtor(record, edition, name, why)
