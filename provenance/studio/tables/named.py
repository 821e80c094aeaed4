"""Records that rows refer to by their codes, each looked up once in a table."""

from typing import Any, TypeVar

from provenance.model.body import Body
from provenance.records.reader import Reader, Stored
from provenance.studio.references import resolve_as
from provenance.studio.tables.row import Row

B = TypeVar("B", bound=Body)


class Named:
    """Looks records up by their codes."""

    def __init__(self, reader: Reader) -> None:
        self._reader = reader
        self._found: dict[tuple[type[Body], str], Stored[Any]] = {}

    def record(self, row: Row, field: str, kind: type[B]) -> Stored[B]:
        """The record of `kind` that a field names.  Raises Refused."""
        key = (kind, row.get(field))
        if key not in self._found:
            self._found[key] = row.read(field, lambda text: resolve_as(self._reader, kind, text))
        return self._found[key]

    def id(self, row: Row, field: str, kind: type[Body]) -> int:
        """Its id.  Raises Refused."""
        return self.record(row, field, kind).id
