"""The sheets of editions that are on record, found without asking the register for each row."""

from provenance.records.act import Act


class Sheets:
    """Prints by edition and pencil mark; those without a mark by their number, each given once."""

    def __init__(self, act: Act) -> None:
        self._act = act
        self._marked: dict[int, dict[str, int]] = {}
        self._bare: dict[tuple[int, str], list[int]] = {}

    def find(self, edition: int, mark: str, designation: str) -> int | None:
        """The print that a row speaks of."""
        marked = self._of(edition)
        if mark:
            return marked.get(_folded(mark))
        waiting = self._bare.get((edition, designation), [])
        return waiting.pop(0) if waiting else None

    def add(self, edition: int, mark: str, record: int) -> None:
        """Note a print that was entered."""
        if mark:
            self._of(edition)[_folded(mark)] = record

    def _of(self, edition: int) -> dict[str, int]:
        if edition not in self._marked:
            marked = self._marked[edition] = {}
            for record, mark, designation in self._act.connection.execute(
                "SELECT id, mark, designation FROM print_key WHERE edition = ? ORDER BY id",
                (edition,),
            ):
                if mark:
                    marked[_folded(mark)] = record
                else:
                    self._bare.setdefault((edition, designation or ""), []).append(record)
        return self._marked[edition]


_LOWER = {upper: upper + 32 for upper in range(ord("A"), ord("Z") + 1)}


def _folded(mark: str) -> str:
    """A mark as the register compares it: the case of a to z does not count."""
    return mark.lower() if mark.isascii() else mark.translate(_LOWER)
