"""Which moves the rows of a table have spoken of: a move answers for one row."""

from provenance.errors import Problem, Refused
from provenance.model.custody import CustodyEvent
from provenance.records.reader import Stored
from provenance.studio.tables.row import Row

Moves = list[Stored[CustodyEvent]]


class Answered:
    """The moves of each print that have answered for a row, in the order of the rows."""

    def __init__(self) -> None:
        self._lines: dict[int, dict[int, int]] = {}
        """Of each print the lines of the rows, by the moves."""

    def note(self, row: Row, move: Stored[CustodyEvent]) -> None:
        """Note that `move` is the one that `row` speaks of."""
        self._lines.setdefault(move.body.print, {})[move.id] = row.line

    def left(self, moves: Moves) -> Moves:
        """Of moves those that no row has spoken of."""
        return [one for one in moves if one.id not in self._lines.get(one.body.print, {})]

    def spoken_of(self, moves: Moves) -> Moves:
        """Of moves of one print those that a row has spoken of, the one of the last row first."""
        by_id = {one.id: one for one in moves}
        lines = self._lines.get(moves[0].body.print, {}) if moves else {}
        return [by_id[one] for one in reversed(lines) if one in by_id]

    def is_last(self, move: Stored[CustodyEvent]) -> bool:
        """Whether no row has told of another move of the print since."""
        return next(reversed(self._lines[move.body.print])) == move.id

    def repeated(self, row: Row, move: Stored[CustodyEvent]) -> Refused:
        """Refuses a row that tells of `move` again."""
        line = self._lines[move.body.print][move.id]
        return Refused(
            Problem(
                f"stands in line {line} already: the same move, on the same day",
                row.get("print"),
                "event",
                "take one of the two out; if it was made twice, bring in what was between",
            )
        )
