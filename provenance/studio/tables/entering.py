"""What enters the rows of a table, whatever they are of."""

from abc import ABC, abstractmethod

from provenance.records.progress import Progress
from provenance.studio.notebook import Rows
from provenance.studio.tables.mapping import Mapped
from provenance.studio.tables.row import Row, Took


class Entering(ABC):
    """Enters rows of one kind; one that is on record already, and the same, is passed over."""

    def arrange(self, rows: Rows, mapped: Mapped) -> Rows:
        """The rows in an order in which each finds what it refers to: as they come."""
        return rows

    @abstractmethod
    def take(self, row: Row) -> Took:
        """Enter one row.  Raises Refused."""

    def close(self) -> None:
        """Say what only all rows together tell.  Raises Refused."""
        return

    def finish(self, progress: Progress | None) -> None:
        """Put on disk what belongs beside the register, before the act is closed."""
        return
