"""One item of disclosure, answered for all prints of an edition."""

from collections.abc import Iterable
from typing import cast, get_args

from provenance.craft.disclosing import ASKED, Checked
from provenance.errors import Problem, Refused
from provenance.model.disclosure import Answer, Reply
from provenance.model.edition import Edition
from provenance.screens.widgets.fields import ChoiceField, Row, TextField
from provenance.screens.widgets.form import Form
from provenance.studio.daysheet.record import Recorded
from provenance.studio.editions.disclosing import answer

REPLIES: tuple[Reply, ...] = get_args(Reply)


class AnswerItem(Form):
    """Stated, not applicable, or knowledge disclaimed; each item by itself."""

    KIND = "answer-item"
    TITLE = "Disclosure"
    AUTO_FOCUS = "#field-reply Options"

    def __init__(self, edition: int, checked: Checked) -> None:
        super().__init__(about=ASKED[checked.item], concerns=(edition,))
        self._edition, self._checked = edition, checked

    def rows(self) -> Iterable[Row]:
        """The reply and its words."""
        held = self._checked
        reply = held.reply if held.reply in REPLIES else "stated"
        yield Row(ChoiceField("reply", "This item is", REPLIES, value=reply))
        yield Row(
            TextField("words", "In these words", value=held.words, hint="needed where it is stated")
        )

    async def enter(self) -> Recorded:
        """Enter the answer in place of an earlier one."""
        reply, words = cast("Reply", self.value("reply")), self.value("words")
        if reply == "stated" and not words:
            raise Refused(Problem("stated in no words", field="words", mend="write them"))
        given = Answer(item=self._checked.item, reply=reply, words=words)
        record = self._edition
        await self.host.act(lambda act: answer(act, act.get(Edition, record), (given,)))
        told = f"answered: {given.item}, {reply}"
        return Recorded(act=self.host.acts[-1], entered=(told,), entries=1)
