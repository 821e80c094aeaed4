"""Finishing: prints grouped by what they owe; mark many, answer once."""

from collections.abc import Iterable

from textual.widget import Widget

from provenance.errors import ProvenanceError
from provenance.records.register import Register
from provenance.screens.dialogs.ask import Ask
from provenance.screens.frame import Frame
from provenance.screens.places.answers import form_for
from provenance.screens.widgets.line_list import Line, LineList
from provenance.studio.owing import Owing, owing


class Finishing(Frame):
    """What each print still owes, in the order in which it is done."""

    WHERE = "finishing"

    def __init__(self) -> None:
        super().__init__()
        self._owed: list[Owing] = []
        self._marked: set[tuple[str, int]] = set()
        """(what, print): a print is marked for one thing at a time."""

    def content(self) -> Iterable[Widget]:
        """One list, grouped."""
        yield LineList(lead_width=4, id="owed")

    def refresh_content(self) -> None:
        """Read what is owed anew."""
        self._owed = owing(self.studio.register.read)
        prints = {record for one in self._owed for record, _name in one.prints}
        self.headline("Finishing", "", f"{len(prints)} prints owe something")
        self._marked &= {(one.what, record) for one in self._owed for record, _name in one.prints}
        lines: list[Line] = []
        for one in self._owed:
            lines.append(Line(f"{one.about}   {len(one.prints)}", heading=True))
            lines += [
                Line(
                    name,
                    lead="  +" if (one.what, record) in self._marked else "",
                    records=(record,),
                    group=one.what,
                )
                for record, name in one.prints
            ]
            lines.append(Line("", heading=True))
        if not lines:
            lines = [Line("Nothing is owed.", quiet=True)]
        self.query_one(LineList).show(lines)

    def action_open_owing(self) -> None:
        """Open the print under the cursor."""
        line = self.query_one(LineList).current
        if line is not None and line.records:
            self.studio.go_to(line.records[0])

    def action_mark_owing(self) -> None:
        """Mark or unmark the print under the cursor for what it owes here, and go on."""
        listed = self.query_one(LineList)
        line = listed.current
        if line is not None and line.records:
            self._marked ^= {(line.group, line.records[0])}
            self.refresh_content()
            listed.action_move(1)

    def action_mark_group(self) -> None:
        """Mark everything that owes the same, or unmark it."""
        line = self.query_one(LineList).current
        group = next((one for one in self._owed if line and one.what == line.group), None)
        if group is not None:
            every = {(group.what, record) for record, _name in group.prints}
            self._marked = self._marked - every if every <= self._marked else self._marked | every
            self.refresh_content()

    def action_answer(self) -> None:
        """Answer once for the marked prints of this group, or for the one under the cursor."""
        line = self.query_one(LineList).current
        if line is None or not line.records:
            return
        prints = tuple(record for what, record in self._in_order() if what == line.group)
        self.run_worker(self._answer(line.group, prints or line.records), exclusive=True)

    def _in_order(self) -> list[tuple[str, int]]:
        return [
            (one.what, record)
            for one in self._owed
            for record, _name in one.prints
            if (one.what, record) in self._marked
        ]

    async def _answer(self, what: str, prints: tuple[int, ...]) -> None:
        if what == "certificate":
            await self._certify(prints)
            return
        form = form_for(self.studio.register.read, what, prints)
        saved = await self.studio.push_screen_wait(form)
        if saved:
            self._marked -= {(what, record) for record in prints}
            self.refresh_content()

    async def _certify(self, prints: tuple[int, ...]) -> None:
        if not await self.studio.push_screen_wait(
            Ask(f"Issue {len(prints)} certificates?", yes="issue them")
        ):
            return
        # loads what draws pages: only when a certificate is asked for
        from provenance.studio.certifying.certify import certify

        folder = self.studio.folder
        issued, refused = 0, []
        for record in prints:

            def issue(register: Register, record: int = record) -> str:
                return certify(register, folder, record).number

            try:
                self.say(f"issued {await self.studio.writer.do(issue)}")
                issued += 1
            except ProvenanceError as error:
                refused.append(str(error))
        self.refresh_content()
        self.say("\n".join([f"{issued} issued, in {folder.certificates}", *refused]))
