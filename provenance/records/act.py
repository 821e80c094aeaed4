"""The door: the only code that writes the journal.

An act is one person's one action.  It is open only inside a transaction that
began IMMEDIATE, so its sequence numbers are taken with the write lock held.
"""

import re
import sqlite3
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress

import msgspec

from provenance.errors import Conflict, Problem, Refused
from provenance.model.body import Body, links_of
from provenance.records.clock import Moment
from provenance.records.entry import (
    GENESIS,
    NOTHING,
    Entry,
    Verb,
    body_bytes,
    check_words,
    digest,
    encode,
)
from provenance.records.forms import read_body
from provenance.records.private_pages import NewPage
from provenance.records.projection import Projection
from provenance.records.reader import Reader
from provenance.records.rules import check, check_retiring

_WHO = re.compile(r"[^\W_][\w .&-]{0,23}")


class Act(Reader):
    """An open act.  Reads see what the act has written so far."""

    def __init__(self, connection: sqlite3.Connection, *, who: str, moment: Moment) -> None:
        super().__init__(connection, still=True)
        if not _WHO.fullmatch(who):
            raise Refused(
                Problem(
                    what=f"{who!r} does not say who did it",
                    field="who",
                    mend="give a role or initials, at most 24 letters",
                )
            )
        self.who = check_words(who, "who")
        self.moment = moment
        self._last, previous = self.head()
        self._previous = previous or GENESIS
        self._first = self._last + 1
        self._projection = Projection(self)
        self._pages: list[NewPage] = []
        self.warnings: list[Problem] = []
        """What the rules found worth saying that forbids nothing."""

    @property
    def wrote(self) -> bool:
        """Whether the act has written anything."""
        return self._last >= self._first

    @property
    def number(self) -> int:
        """The number of the act: that of its first entry."""
        return self._first

    def head(self) -> tuple[int, str]:
        """The number and digest of the last entry, this act's included."""
        return super().head()

    def keep(
        self,
        files: Sequence[Callable[[], object]],
        told: Callable[[int], object] = lambda _done: None,
    ) -> None:
        """Put on disk what the act names, before it is written; `told` how many are done.

        Pages of persons and terms are erased again when the act is not written
        after all.  A picture stays: it bears its digest for a name, and another
        record may have the same one.
        """
        self._pages += [one for one in files if isinstance(one, NewPage)]
        for done, put in enumerate(files, start=1):
            put()
            told(done)

    def take_back(self) -> None:
        """Erase the pages again of an act that was not written."""
        for page in self._pages:
            # what cannot be erased now is told by the audit, since no entry names it
            with suppress(Refused):
                page.take_back()

    def enter(self, body: Body) -> int:
        """Write a new record and return its id."""
        return self._write("enter", body, record=None, base=None)

    def change(self, record: int, base: int, body: Body) -> int:
        """Write the next version of a record, as work on it goes on.

        `base` is the version that was read.  Raises Conflict when it is no
        longer the present one.  Returns the new version.
        """
        return self._write("change", body, record=record, base=base)

    def correct(self, record: int, base: int, body: Body, reason: str) -> int:
        """Replace what was wrongly recorded; what it was stays readable."""
        return self._write("correct", body, record=record, base=base, reason=_given(reason))

    def void(self, record: int, base: int, reason: str) -> int:
        """Retire a record that should not be there; nothing may refer to it."""
        return self._retire("void", record, base, reason=_given(reason))

    def undo(self, act: int, reason: str) -> int:
        """Take an earlier act back by new entries, last entry first.

        Raises Conflict when something it wrote has been changed since.
        """
        entries = self.act_entries(act)
        if not entries:
            raise Refused(
                Problem(
                    what=f"no act begins with entry {act}",
                    mend="see `provenance history` for the numbers of acts",
                )
            )
        reason = _given(reason)
        for record, last in {entry.record: entry.seq for entry in entries}.items():
            way = list(self._way_back(record))
            stands = way[-1].seq if way[-1].undoes is None else None
            if last not in (way[0].seq, stands):
                raise _passed(act, record, way)
        for entry in reversed(entries):
            self._undo_entry(entry, act, reason)
        return self._last

    def _way_back(self, record: int) -> Iterator[Entry]:
        """The last entry of a record, and those that what was undone leads back to.

        The last of them is the one whose words hold, or undoes that the record was entered.
        """
        version: int | None = self._version(record)
        while version is not None:
            entry = self.entry(version)
            yield entry
            if entry.undoes is None:
                return
            taken_back = (one for one in self.act_entries(entry.undoes) if one.record == record)
            version = next(taken_back).base

    def _version(self, record: int) -> int:
        (version,) = self.connection.execute(
            "SELECT version FROM record WHERE id = ?", (record,)
        ).fetchone()
        return int(version)

    def _undo_entry(self, entry: Entry, act: int, reason: str) -> None:
        # an act may have written a record twice: what it holds now is then our own undoing
        base = self._version(entry.record)
        former = None if entry.base is None else self.entry(entry.base)
        if former is None or former.retires:
            self._retire("undo", entry.record, base, reason=reason, undoes=act)
            return
        body = read_body(former.kind, former.form, former.body)
        self._write("undo", body, record=entry.record, base=base, reason=reason, undoes=act)

    def _write(
        self,
        verb: Verb,
        body: Body,
        *,
        record: int | None,
        base: int | None,
        reason: str = "",
        undoes: int | None = None,
    ) -> int:
        data = body_bytes(body)
        before: Body | None = None
        if record is not None and verb == "undo":
            standing = self.find(record)
            before = standing.body if standing else None
        elif record is not None and base is not None:
            before = self.at_base(record, base).body
            if type(before) is not type(body):
                raise Refused(
                    Problem(what=f"it is a {before.KIND}, not a {body.KIND}", record=f"#{record}")
                )
            if before == body:
                raise Refused(Problem(what="nothing would change", record=f"#{record}"))
        links = links_of(body)
        self.warnings += check(self, verb, record, body, links, before)
        return self._append(
            verb,
            kind=body.KIND,
            form=body.FORM,
            data=data,
            body=body,
            links=links,
            record=record,
            base=base,
            reason=reason,
            undoes=undoes,
        )

    def _retire(
        self, verb: Verb, record: int, base: int, *, reason: str, undoes: int | None = None
    ) -> int:
        stored = self.at_base(record, base)
        check_retiring(self, record, stored.body)
        return self._append(
            verb,
            kind=stored.body.KIND,
            form=stored.body.FORM,
            data=bytes(NOTHING),
            body=None,
            links=(),
            record=record,
            base=base,
            reason=reason,
            undoes=undoes,
        )

    def _append(
        self,
        verb: Verb,
        *,
        kind: str,
        form: int,
        data: bytes,
        body: Body | None,
        links: tuple[tuple[str, int], ...],
        record: int | None,
        base: int | None,
        reason: str,
        undoes: int | None,
    ) -> int:
        seq = self._last + 1
        record = record or seq
        stored = encode(
            Entry(
                seq=seq,
                act=self._first,
                verb=verb,
                moment=self.moment,
                who=self.who,
                record=record,
                base=base,
                kind=kind,
                form=form,
                body=msgspec.Raw(data),
                reason=reason,
                undoes=undoes,
                previous=self._previous,
            )
        )
        mark = digest(stored)
        self.connection.execute("INSERT INTO journal VALUES (?, ?, ?)", (seq, stored, mark))
        self._last, self._previous = seq, mark
        self._held.pop(record, None)
        self._projection.take(seq, record, kind, body, links)
        return seq

    def finish(self) -> None:
        """Bring the derived rows of the view up to what the act has written."""
        self._projection.settle()


def _passed(act: int, record: int, way: Sequence[Entry]) -> Conflict:
    """Why `act` cannot be undone: it was already, or its record was changed after it."""
    by = next((entry.act for entry in way if entry.undoes == act), None)
    if by is None:
        return Conflict(
            Problem(
                what=f"it was changed after act {act}",
                record=f"#{record}",
                mend="take the later act back first",
            )
        )
    return Conflict(
        Problem(
            what=f"act {act} was taken back already, by act {by}",
            record=f"#{record}",
            mend=f"to have what it wrote again, take act {by} back",
        )
    )


def _given(reason: str) -> str:
    reason = check_words(reason.strip(), "reason")
    if not reason:
        raise Refused(
            Problem(what="a reason is needed", field="reason", mend="say why, in a few words")
        )
    return reason
