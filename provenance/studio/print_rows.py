"""Prints as rows of a table."""

from array import array
from collections.abc import Sequence

from provenance.records.aside import Aside
from provenance.records.connection import FILE
from provenance.records.faults import database_faults
from provenance.records.print_order import print_order, prints_by_id
from provenance.records.register import Register
from provenance.studio.rows import SMALL, Sort

STATES = {
    "w": "at work",
    "p": "tested",
    "n": "signed",
    "c": "certified",
    "r": "released",
    "x": "gone",
}
"""The letters of the state of a print, and the words for them."""


class PrintRows:
    """Every print: edition, number, mark, state, date, certificate.

    Those of one edition, when it is given by its id, do without the first.
    Sorts by ``edition``, ``number``, ``mark``, ``state``, ``date`` and
    ``certificate``.
    """

    def __init__(self, register: Register, *, edition: int | None = None) -> None:
        self._connection = register.read.connection
        self._path = register.folder / FILE
        self._aside = Aside(register.folder)
        self._edition = edition

    @property
    def small(self) -> bool:
        """Whether an order comes at once."""
        return len(self.first(SMALL + 1)) <= SMALL

    def order(self, sort: Sort, words: str) -> "array[int] | None":
        """The ids that `words` leave, in the order of `sort`."""
        return self._aside.ask(
            lambda connection: print_order(
                connection,
                sort.key,
                descending=sort.descending,
                words=words,
                edition=self._edition,
            )
        )

    def first(self, count: int) -> "array[int]":
        """The first prints in the order of their editions and numbers."""
        with database_faults(self._path):
            return print_order(self._connection, edition=self._edition, limit=count)

    def rows(self, ids: Sequence[int]) -> dict[int, tuple[str, ...]]:
        """Their texts."""
        with database_faults(self._path):
            found = prints_by_id(self._connection, ids)
        texts: dict[int, tuple[str, ...]] = {
            record: (edition, number, mark, f"{state} {STATES[state]}", printed, certificate)
            for record, (edition, number, mark, state, printed, certificate) in found.items()
        }
        if self._edition is None:
            return texts
        return {record: row[1:] for record, row in texts.items()}

    def stop(self) -> None:
        """Give up an order that is being made."""
        self._aside.stop()
