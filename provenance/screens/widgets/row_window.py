"""The order of a table's rows, and the few pages of them that were looked at lately."""

from array import array
from collections import OrderedDict

from provenance.studio.rows import RowSource

PAGE = 60
"""Rows that are fetched together."""
KEPT = 20
"""Pages that are kept."""


class RowWindow:
    """Rows by their place; only the ids of all of them are held."""

    def __init__(self, source: RowSource) -> None:
        self._source = source
        self._order: array[int] = array("q")
        self._pages: OrderedDict[int, dict[int, tuple[str, ...]]] = OrderedDict()

    def __len__(self) -> int:
        return len(self._order)

    def arrange(self, order: "array[int]") -> None:
        """Show the rows in `order`; what was fetched before is fetched again."""
        self._order = order
        self._pages.clear()

    def id_at(self, place: int) -> int:
        """The record at `place`, counted from 0."""
        return self._order[place]

    def place_of(self, record: int) -> int | None:
        """Where a record stands; None when it is not among the rows."""
        try:
            return self._order.index(record)
        except ValueError:
            return None

    def among(self, records: "set[int]") -> list[int]:
        """Those of `records` that are shown, in the order in which they are shown."""
        return [record for record in self._order if record in records] if records else []

    def row_at(self, place: int) -> tuple[str, ...] | None:
        """The texts of a row; None when its record was retired.  Raises what the source raises."""
        number = place // PAGE
        page = self._pages.get(number)
        if page is None:
            ids = self._order[number * PAGE : (number + 1) * PAGE]
            page = self._pages[number] = self._source.rows(ids)
            if len(self._pages) > KEPT:
                self._pages.popitem(last=False)
        self._pages.move_to_end(number)
        return page.get(self._order[place])
