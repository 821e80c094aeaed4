"""Finding anything as its name is typed: by reference, by words, by a number with a slip in it."""

from array import array
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from provenance.errors import Refused
from provenance.records.aside import Aside
from provenance.records.connection import FILE
from provenance.records.faults import database_faults
from provenance.records.listing import found_ids
from provenance.records.reader import Reader
from provenance.records.register import Register
from provenance.studio.browsing import summary
from provenance.studio.references import looks_like_certificate, near_certificates, resolve
from provenance.studio.rows import SMALL, Sort

MOST = 200
"""More would not be read through; another word finds better."""


@dataclass(frozen=True)
class Findings:
    """Ids of records, the best first, and what has to be said about them."""

    ids: tuple[int, ...]
    note: str = ""


def look_up(reader: Reader, words: str, *, limit: int = MOST) -> Findings:
    """The record that `words` name, then those whose texts hold every one of them.

    A certificate number that is not on record leads to those that one slip of
    the pen would turn into it.
    """
    # half a character, as a terminal may hand on, is nothing that a record could hold
    text = " ".join(words.encode("utf-8", "ignore").decode("utf-8").split())
    ids = [*_named(reader, text)]
    ids += [record for record, _kind in found_ids(reader.connection, text, limit=limit)]
    if ids or not looks_like_certificate(text):
        return Findings(tuple(dict.fromkeys(ids)))
    near = near_certificates(reader, text)
    note = "no certificate has this number"
    if near:
        note += "; one slip away from it " + ("is this one" if len(near) == 1 else "are these")
    return Findings(tuple(record for record, _number in near), note)


def _named(reader: Reader, text: str) -> Iterator[int]:
    # a figure alone is more often part of a number than the id of a record
    if not text or text.isdecimal():
        return
    try:
        yield resolve(reader, text).id
    except Refused:
        return


class FoundRows:
    """What was found, as rows of a table: kind, name, and what it is about."""

    def __init__(self, register: Register) -> None:
        self._reader = register.read
        self._path = register.folder / FILE
        self._aside = Aside(register.folder)
        self.note = ""
        """What has to be said about the last order."""

    @property
    def small(self) -> bool:
        """Whether an order comes at once."""
        with database_faults(self._path):
            (count,) = self._reader.connection.execute(
                "SELECT count(*) FROM (SELECT 1 FROM record LIMIT ?)", (SMALL + 1,)
            ).fetchone()
        return int(count) <= SMALL

    def order(self, sort: Sort, words: str) -> "array[int] | None":
        """The ids of what `words` lead to, the best first, or last when `sort` descends."""
        found = self._aside.ask(lambda connection: look_up(Reader(connection), words))
        if found is None:
            return None
        self.note = found.note
        return array("q", reversed(found.ids) if sort.descending else found.ids)

    def first(self, _count: int) -> "array[int]":
        """Nothing, before anything was asked for."""
        return array("q")

    def rows(self, ids: Sequence[int]) -> dict[int, tuple[str, ...]]:
        """Their texts."""
        rows: dict[int, tuple[str, ...]] = {}
        with database_faults(self._path):
            for record in ids:
                stored = self._reader.find(record)
                if stored is not None:
                    found = summary(self._reader, stored)
                    rows[record] = (found.kind, found.name, found.about)
        return rows

    def stop(self) -> None:
        """Give up an order that is being made."""
        self._aside.stop()
