"""Prints that change hands, or come to light, or are no more."""

from collections.abc import Callable, Iterable, Sequence
from typing import cast, get_args

from textual.suggester import SuggestFromList

from provenance.errors import Problem, Refused
from provenance.model.custody import OUT, OWNED, CustodyKind
from provenance.model.dates import parse_edtf
from provenance.model.evidence import Source
from provenance.records.act import Act
from provenance.records.private import Contacts
from provenance.screens.dialogs.pieces import (
    count_of,
    date_field,
    print_names,
    prints_field,
    source_field,
)
from provenance.screens.widgets.fields import ChoiceField, Field, Row, TextField
from provenance.screens.widgets.form import Form
from provenance.studio.custody import People, move_prints, terms_key
from provenance.studio.daysheet.record import Recorded
from provenance.studio.desk_rows import where_is
from provenance.studio.last_time import last_custody
from provenance.studio.references import resolve_print

EVENTS: tuple[CustodyKind, ...] = get_args(CustodyKind)
_UNSAID = "not said"
_RIGHTS = (_UNSAID, "stay", "pass")
_PERSON = "right takes a name over; a new one begins a page"


class RecordCustody(Form):
    """One event for all the prints, begun as the last one was."""

    KIND = "custody"
    TITLE = "Custody"
    AUTO_FOCUS = "#field-event Options"

    def __init__(self, prints: Sequence[int]) -> None:
        super().__init__(about=count_of(prints), concerns=prints)
        self._prints = tuple(prints)

    def rows(self) -> Iterable[Row]:
        """Which prints, what happened, and who has them now."""
        contacts = Contacts(self.studio_folder.path)
        names = SuggestFromList([page.name for _key, page in contacts.list()], case_sensitive=False)
        away = all(where_is(self.read, one).away for one in self._prints)
        last = last_custody(self.read)
        begun = last.event if last is not None and last.event in OWNED | OUT else "sold"
        yield Row(prints_field(self, self._prints))
        yield Row(
            ChoiceField("event", "What happened", EVENTS, value="returned" if away else begun)
        )
        yield Row(date_field(self, "On"), source_field())
        yield Row(
            TextField("to", "To whom", hint=_PERSON, suggester=names, width=2),
            TextField("until", "Until", check=parse_edtf, hint="a loan, a consignment"),
        )
        yield Row(
            TextField("giver", "From whom", suggester=names, hint="empty: from the studio"),
            ChoiceField(
                "rights", "Rights of reproduction", (_UNSAID, "stay", "pass"), value=_UNSAID
            ),
        )
        yield Row(
            TextField("price", "Price"),
            TextField("place", "Where it went"),
        )
        yield Row(
            TextField("conditions", "Conditions", hint="price, place, conditions: kept apart")
        )
        yield Row(
            TextField("condition", "Condition of the prints", hint="in the register: name nobody")
        )

    def typed(self, field: Field) -> None:
        """Propose who had it, where that is one person and it comes back or goes on."""
        if field.key == "event":
            self.fields["giver"].propose(self._holder() if field.value == "returned" else "")

    def opened(self) -> None:
        """Propose who brings it back."""
        self.typed(self.fields["event"])

    def _holder(self) -> str:
        held = {where_is(self.read, one).holder for one in self._prints}
        if len(held) != 1:
            return ""
        (key,) = held
        contacts = Contacts(self.studio_folder.path)
        legible = key is not None and contacts.standing(key) == "whole"
        return contacts.get(key).name if key is not None and legible else ""

    async def enter(self) -> Recorded:
        """Enter the events in one act."""
        names = print_names(self)
        if not names:
            raise Refused(Problem("no print is named", field="prints", mend="name one"))
        prints = [resolve_print(self.read, name) for name in names]
        rights = self.value("rights")
        said = {key: self.value(key) for key in ("price", "place", "conditions")}
        event, on = cast("CustodyKind", self.value("event")), self.value("date")
        to, giver, until = self.value("to"), self.value("giver"), self.value("until")
        condition, source = self.value("condition"), cast("Source", self.value("from"))
        folder = self.studio_folder

        def work(act: Act) -> None:
            keep: list[Callable[[], object]] = []
            people = People(folder, keep)
            move_prints(
                act,
                prints,
                event,
                on,
                condition=condition,
                source=source,
                party=people.key(to, field="to") if to else None,
                giver=people.key(giver, field="giver") if giver else None,
                until=until or None,
                terms=terms_key(folder, keep, **said),
                rights=None if rights == _UNSAID else rights,
            )
            # what may be refused is behind us; the pages come before the act is written
            act.keep(keep)

        await self.host.act(work)
        told = f"{event} {', '.join(names)}"
        return Recorded(act=self.host.acts[-1], entered=(told,), entries=len(prints))
