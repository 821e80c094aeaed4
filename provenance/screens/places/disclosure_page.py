"""What is disclosed of an edition, item by item."""

from collections.abc import Iterable

from textual.widget import Widget

from provenance.craft.disclosing import ASKED, Checked
from provenance.model.edition import Edition
from provenance.screens.dialogs.answer_item import AnswerItem
from provenance.screens.frame import Frame
from provenance.screens.widgets.line_list import Line, LineList
from provenance.studio.calling import names_of
from provenance.studio.desk_rows import disclosed_of_edition, specimen

_NOTE = (
    "Items that statutes of the United States ask of a print that is offered, taken together;"
    " not legal advice, local law decides. Knowledge is disclaimed one item at a time."
)


class DisclosurePage(Frame):
    """The checklist, read of the first print; enter answers what the record does not say."""

    WHERE = "disclosure"

    def __init__(self, edition: int) -> None:
        super().__init__()
        self.edition = edition
        self._items: dict[str, Checked] = {}

    def content(self) -> Iterable[Widget]:
        """One list."""
        yield LineList(id="disclosure")

    def refresh_content(self) -> None:
        """Read what is stated and answered."""
        reader = self.studio.register.read
        code = reader.get(Edition, self.edition).body.code
        items = disclosed_of_edition(reader, self.edition) or ()
        self._items = {one.item: one for one in items}
        missing = sum(one.reply == "open" for one in items)
        record = specimen(reader, self.edition)
        read_of = f"read of {names_of(reader, [record])[0]}" if record is not None else ""
        self.headline(f"Disclosure   {code}", read_of, f"{missing} open" if items else "")
        lines = [_line(one) for one in items]
        nothing = Line("Nothing is disclosed of an edition before its first print.", wide=True)
        note = [Line("", heading=True), Line(_NOTE, quiet=True, wide=True)]
        self.query_one(LineList).show([*(lines or [nothing]), *note])

    def on_mount(self) -> None:
        """Begin at the first item that is open."""
        super().on_mount()
        at = next((at for at, one in enumerate(self._items.values()) if one.reply == "open"), 0)
        self.query_one(LineList).cursor = at

    def action_answer_item(self) -> None:
        """Answer the item under the cursor."""
        line = self.query_one(LineList).current
        held = self._items.get(line.group) if line is not None else None
        if held is None:
            self.say("There is no item under the cursor.")
        elif held.recorded:
            self.say("The record says this; correct the record where it is wrong.")
        else:
            self.studio.push_screen(AnswerItem(self.edition, held))

    def on_line_list_opened(self) -> None:
        """A double click answers, like enter."""
        self.action_answer_item()

    async def action_return(self) -> None:
        """Back to the desk."""
        await self.studio.action_back()


def _line(one: Checked) -> Line:
    known = "on record" if one.recorded else one.reply
    return Line(
        ASKED[one.item],
        right=known,
        note=one.words,
        group=one.item,
        strong=one.reply == "open",
        wide=True,
    )
