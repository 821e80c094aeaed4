"""What lies on the desk as rows of tables: prints by where they are, and certificates."""

import sqlite3
from array import array
from collections.abc import Callable, Sequence

from provenance.craft.custody import Move, Whereabouts, whereabouts
from provenance.craft.disclosing import Checked
from provenance.model.certificate import Certificate
from provenance.model.custody import CustodyEvent
from provenance.model.edition import Edition
from provenance.model.negative import Negative
from provenance.model.prints import Print
from provenance.records.aside import Aside
from provenance.records.connection import FILE
from provenance.records.desk_order import certificate_order, whereabouts_order
from provenance.records.edition_order import edition_order
from provenance.records.faults import database_faults
from provenance.records.print_order import print_order
from provenance.records.private import Contacts
from provenance.records.reader import Reader
from provenance.records.register import Register
from provenance.studio.calling import names_of
from provenance.studio.custody import UNREAD
from provenance.studio.editions.disclosing import disclosed_of
from provenance.studio.naming import called
from provenance.studio.rows import SMALL, Sort

AWAY, HERE = "r", "nc"
"""The states of prints that are out of the studio, and of those that could go."""

Order = Callable[..., "array[int]"]


class DeskRows:
    """What the tables of the desk have in common: an order, and rows made one by one."""

    def __init__(self, register: Register) -> None:
        self._reader = register.read
        self._path = register.folder / FILE
        self._aside = Aside(register.folder)
        self._folder = register.folder

    def _ids(self, connection: sqlite3.Connection, **how: object) -> "array[int]":
        raise NotImplementedError

    def _row(self, record: int) -> tuple[str, ...] | None:
        raise NotImplementedError

    @property
    def small(self) -> bool:
        """Whether an order comes at once."""
        with database_faults(self._path):
            return len(self._ids(self._reader.connection, limit=SMALL + 1)) <= SMALL

    def order(self, sort: Sort, words: str) -> "array[int] | None":
        """The ids that `words` leave, in the order of `sort`."""
        return self._aside.ask(
            lambda connection: self._ids(
                connection, key=sort.key, descending=sort.descending, words=words
            )
        )

    def first(self, count: int) -> "array[int]":
        """The first ones in their own order."""
        with database_faults(self._path):
            return self._ids(self._reader.connection, limit=count)

    def rows(self, ids: Sequence[int]) -> dict[int, tuple[str, ...]]:
        """Their texts."""
        with database_faults(self._path):
            return {record: row for record in ids if (row := self._row(record))}

    def stop(self) -> None:
        """Give up an order that is being made."""
        self._aside.stop()


class WhereRows(DeskRows):
    """Prints in some states: name, where, since, until, with whom."""

    def __init__(self, register: Register, states: str) -> None:
        super().__init__(register)
        self._states = states
        self._contacts = Contacts(register.folder)

    def _ids(self, connection: sqlite3.Connection, **how: object) -> "array[int]":
        order: Order = whereabouts_order
        return order(connection, self._states, **how)

    @property
    def small(self) -> bool:
        """Whether there are so few prints in all that those in a state are found at once."""
        with database_faults(self._path):
            return len(print_order(self._reader.connection, limit=SMALL + 1)) <= SMALL

    def first(self, count: int) -> "array[int]":
        """Those of few prints; of many, none is looked for before all are."""
        return super().first(count) if self.small else array("q")

    def _row(self, record: int) -> tuple[str, ...] | None:
        stored = self._reader.find(record)
        if stored is None or not isinstance(stored.body, Print):
            return None
        now = where_is(self._reader, record)
        until = now.move.body.until if now.move and now.away else None
        (name,) = names_of(self._reader, [record])
        person = name_of_person(self._contacts, now.holder)
        return name, now.where, now.since, until or "", person


class CertificateRows(DeskRows):
    """Certificates: number, revision, print, day of issue, state."""

    def _ids(self, connection: sqlite3.Connection, **how: object) -> "array[int]":
        order: Order = certificate_order
        return order(connection, **how)

    def _row(self, record: int) -> tuple[str, ...] | None:
        stored = self._reader.find(record)
        if stored is None or not isinstance(stored.body, Certificate):
            return None
        body = stored.body
        state = "in force" if body.state == "issued" else body.state
        print_ = called(self._reader, body.print)
        return body.number, str(body.revision), print_, body.issued_at[:10], state


def where_is(reader: Reader, record: int) -> Whereabouts:
    """Where a print is by its custody events."""
    moves = (Move(one.id, one.body) for one in reader.linked(record, CustodyEvent, "print"))
    return whereabouts(moves, opening=reader.get(Print, record).body.opening)


def name_of_person(contacts: Contacts, key: str | None) -> str:
    """Who stands on a page of the contact book; says why where that cannot be read."""
    if key is None:
        return ""
    standing = contacts.standing(key)
    return contacts.get(key).name if standing == "whole" else UNREAD[standing]


class DisclosureRows(DeskRows):
    """Editions: code, image, and how much of their disclosure is open, answered, recorded."""

    def _ids(self, connection: sqlite3.Connection, **how: object) -> "array[int]":
        order: Order = edition_order
        return order(connection, **how)

    def _row(self, record: int) -> tuple[str, ...] | None:
        stored = self._reader.find(record)
        if stored is None or not isinstance(stored.body, Edition):
            return None
        title = self._reader.get(Negative, stored.body.negative).body.title
        items = disclosed_of_edition(self._reader, record)
        if items is None:
            return stored.body.code, title, "", "", "no print yet"
        open_ = sum(one.reply == "open" for one in items)
        recorded = sum(one.recorded for one in items)
        answered = len(items) - open_ - recorded
        return stored.body.code, title, str(open_), str(answered), str(recorded)


def specimen(reader: Reader, edition: int) -> int | None:
    """The print that stands for its edition: the first by number; None where there is none."""
    first = print_order(reader.connection, edition=edition, limit=1)
    return first[0] if first else None


def disclosed_of_edition(reader: Reader, edition: int) -> tuple[Checked, ...] | None:
    """The checklist of an edition, read of its first print; None before there is one."""
    record = specimen(reader, edition)
    return None if record is None else disclosed_of(reader, record)


def edition_of(reader: Reader, record: int) -> int | None:
    """The edition that a print, a certificate or an edition belongs to."""
    body = stored.body if (stored := reader.find(record)) else None
    if isinstance(body, Certificate):
        body = reader.get(Print, body.print).body
    if isinstance(body, Print):
        return body.edition
    return record if isinstance(body, Edition) else None


def asked_about(reader: Reader, record: int) -> int:
    """What a question about a record is about: a certificate's print, a negative's edition."""
    stored = reader.find(record)
    body = stored.body if stored else None
    if isinstance(body, Certificate):
        return body.print
    editions = reader.linked(record, Edition, "negative") if isinstance(body, Negative) else []
    return editions[0].id if editions else record
