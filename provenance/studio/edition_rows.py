"""Editions as rows of a table."""

from array import array
from collections.abc import Sequence

from provenance.model.edition import Edition
from provenance.model.negative import Negative
from provenance.records.aside import Aside
from provenance.records.connection import FILE
from provenance.records.edition_order import edition_order
from provenance.records.faults import database_faults
from provenance.records.register import Register
from provenance.studio.drawer import promise_in_short, view_edition
from provenance.studio.rows import SMALL, Sort


class EditionRows:
    """Every edition: code, image, promise, made, out, left to make, last printed.

    Sorts by ``code`` and ``date``, the day of the last printing.
    """

    def __init__(self, register: Register) -> None:
        self._reader = register.read
        self._path = register.folder / FILE
        self._aside = Aside(register.folder)

    @property
    def small(self) -> bool:
        """Whether an order comes at once."""
        return len(self.first(SMALL + 1)) <= SMALL

    def order(self, sort: Sort, words: str) -> "array[int] | None":
        """The ids that `words` leave, in the order of `sort`."""
        return self._aside.ask(
            lambda connection: edition_order(
                connection, sort.key, descending=sort.descending, words=words
            )
        )

    def first(self, count: int) -> "array[int]":
        """The first editions in the order of their codes."""
        with database_faults(self._path):
            return edition_order(self._reader.connection, limit=count)

    def rows(self, ids: Sequence[int]) -> dict[int, tuple[str, ...]]:
        """Their texts."""
        with database_faults(self._path):
            return {record: row for record in ids if (row := self._row(record))}

    def _row(self, record: int) -> tuple[str, ...] | None:
        stored = self._reader.find(record)
        if stored is None:
            return None
        view = view_edition(self._reader, self._reader.get(Edition, record))
        body = view.edition.body
        return (
            body.code,
            self._reader.get(Negative, body.negative).body.title,
            promise_in_short(body),
            str(view.made),
            str(view.out),
            str(view.left),
            view.last_printed,
        )

    def stop(self) -> None:
        """Give up an order that is being made."""
        self._aside.stop()
