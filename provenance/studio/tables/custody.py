"""A table of moves: which print went where, or came back, a move a row.

Names, prices and places go into pages beside the register, never into it.
"""

from collections.abc import Callable
from typing import Literal

from provenance.errors import Damaged, NotFound
from provenance.model.custody import CustodyEvent, CustodyKind
from provenance.model.evidence import Source
from provenance.records.act import Act
from provenance.records.private import KEY, Contacts
from provenance.records.terms import Terms, TermsBook
from provenance.studio.custody import People, move_prints
from provenance.studio.folder import StudioFolder
from provenance.studio.references import resolve_print
from provenance.studio.tables.mapping import Fields
from provenance.studio.tables.row import Row

Rights = Literal["stay", "pass"]
_TERMS = ("price", "place", "conditions")
FIELDS = Fields(
    alike={
        "print": "",
        "event": "what",
        "on": "date",
        "party": "to buyer",
        "giver": "from",
        "until": "",
        **dict.fromkeys(_TERMS, ""),
        "terms": "",
        "rights": "",
        "why": "",
        "evidence": "",
        "source": "",
    },
    needed=("print", "event", "on"),
)


class Moves:
    """Enters moves; one that is on record already, and the same, is passed over."""

    def __init__(
        self, act: Act, folder: StudioFolder, source: Source, keep: list[Callable[[], object]]
    ) -> None:
        self._act = act
        self._folder = folder
        self._source = source
        self._keep = keep
        self._people = People(folder, keep)

    def take(self, row: Row) -> bool:
        """Enter one row; whether it was new.  Raises Refused."""
        held = row.read("print", lambda text: resolve_print(self._act, text))
        event: CustodyKind = row.choice("event", CustodyKind)
        on = row.date("on")
        for move in self._act.linked(held.id, CustodyEvent, "print"):
            body = move.body
            if (body.event, body.on) == (event, on) and self._names(body.party, row.get("party")):
                return False
        terms = row.get("terms") if KEY.fullmatch(row.get("terms")) else None
        said = Terms(**{name: row.get(name) for name in _TERMS})
        if said != Terms():
            terms, keep = TermsBook(self._folder.path).prepare(said)
            self._keep.append(keep)
        move_prints(
            self._act,
            [held],
            event,
            on,
            why=row.get("why"),
            evidence=row.get("evidence"),
            source=row.choice("source", Source) if row.get("source") else self._source,
            party=self._person(row, "party"),
            giver=self._person(row, "giver"),
            until=row.date("until") if row.get("until") else None,
            terms=terms,
            rights=row.choice("rights", Rights) if row.get("rights") else None,
        )
        return True

    def _person(self, row: Row, field: str) -> str | None:
        name = row.get(field)
        return self._people.key(name, field=field) if name else None

    def _names(self, key: str | None, text: str) -> bool:
        """Whether the page with that key is of the person called `text`."""
        if key is None or not text or key == text:
            return (key or "") == text
        try:
            return Contacts(self._folder.path).get(key).name.casefold() == text.casefold()
        except NotFound:
            # the page was erased: who it was cannot be told any more
            return True
        except Damaged:
            return False
