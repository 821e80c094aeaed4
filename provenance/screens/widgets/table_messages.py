"""What a table of records says; handled as `on_record_table_opened` and so on."""

from typing import TYPE_CHECKING

from textual.message import Message

from provenance.errors import ProvenanceError

if TYPE_CHECKING:
    from provenance.screens.widgets.record_table import RecordTable


class TableMessage(Message):
    """Something a table says; `table` is the one that says it."""

    def __init__(self, table: "RecordTable") -> None:
        super().__init__()
        self.table = table

    @property
    def control(self) -> "RecordTable":
        """The table, for handlers that ask for one of several."""
        return self.table


class Opened(TableMessage, namespace="record_table"):
    """Enter was pressed on `record`, or the mouse clicked it twice."""

    def __init__(self, table: "RecordTable", record: int) -> None:
        super().__init__(table)
        self.record = record


class Moved(TableMessage, namespace="record_table"):
    """The cursor is on another record; None in an empty table."""

    def __init__(self, table: "RecordTable", record: int | None) -> None:
        super().__init__(table)
        self.record = record


class Marked(TableMessage, namespace="record_table"):
    """The marks have changed; `records` are all that are marked, shown or not."""

    def __init__(self, table: "RecordTable", records: frozenset[int]) -> None:
        super().__init__(table)
        self.records = records


class Arranged(TableMessage, namespace="record_table"):
    """The order that was asked for is shown: all `count` rows of it."""

    def __init__(self, table: "RecordTable", count: int) -> None:
        super().__init__(table)
        self.count = count


class Failed(TableMessage, namespace="record_table"):
    """The register could not be read."""

    def __init__(self, table: "RecordTable", error: ProvenanceError) -> None:
        super().__init__(table)
        self.error = error
