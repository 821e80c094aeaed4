"""Finishing: prints grouped by what they owe; mark many, answer once."""

from collections import Counter
from collections.abc import Iterable

from textual.widget import Widget

from provenance.screens.dialogs.ask import Ask
from provenance.screens.dialogs.issue import IssueCertificates
from provenance.screens.frame import Frame
from provenance.screens.issuing import stationery_of
from provenance.screens.places.answers import form_for
from provenance.screens.widgets.line_list import Line, LineList
from provenance.studio.calling import names_of
from provenance.studio.owing import Owing, owing

_WHY = "a test does not count: {}"


def _discounted(owed: Owing) -> Iterable[str]:
    """Which tests were done for nothing, and why."""
    whys = Counter(debtor.discounted for debtor in owed.prints if debtor.discounted)
    for why, count in whys.items():
        yield f"of {count}, {_WHY.format(why)}"


class Finishing(Frame):
    """What each print still owes, in the order in which it is done."""

    WHERE = "finishing"

    def __init__(self) -> None:
        super().__init__()
        self._owed: dict[str, Owing] = {}
        self._unfolded: set[str] = set()
        self._marked: set[tuple[str, int]] = set()
        """(what is owed, print): a print is marked for one thing at a time."""

    def content(self) -> Iterable[Widget]:
        """One list; a line for each thing that is owed, and when it is unfolded for each print."""
        yield LineList(lead_width=5, id="owed")

    def refresh_content(self) -> None:
        """Read what is owed anew."""
        self._owed = {one.key: one for one in owing(self.studio.register.read)}
        prints = {debtor.record for one in self._owed.values() for debtor in one.prints}
        owe = "prints owe" if len(prints) != 1 else "print owes"
        self.headline("Finishing", "", f"{len(prints)} {owe} something")
        self._marked &= {
            (key, debtor.record) for key, one in self._owed.items() for debtor in one.prints
        }
        self._show()

    def _show(self) -> None:
        lines = [line for key, one in self._owed.items() for line in self._group(key, one)]
        nothing = Line("Nothing is owed.", quiet=True, wide=True)
        self.query_one(LineList).show(lines or [nothing])

    def _group(self, key: str, one: Owing) -> Iterable[Line]:
        marked = sum((key, debtor.record) in self._marked for debtor in one.prints)
        about = f"{one.about}, {marked} marked" if marked else one.about
        folded = key not in self._unfolded
        yield Line(
            about,
            lead=f"{len(one.prints):>3}",
            note="\n".join([one.in_short(), *_discounted(one)]) if folded else "",
            group=key,
            strong=True,
        )
        for debtor in () if folded else one.prints:
            yield Line(
                f"{debtor.edition} {debtor.name}",
                lead="  •" if (key, debtor.record) in self._marked else "",
                note=_WHY.format(debtor.discounted) if debtor.discounted else "",
                records=(debtor.record,),
                group=key,
            )
        yield Line("", heading=True)

    @property
    def _here(self) -> tuple[str, Owing | None, int | None]:
        """What is owed at the cursor: its key, all of it, and the print, if it is on one."""
        line = self.query_one(LineList).current
        if line is None:
            return "", None, None
        return line.group, self._owed.get(line.group), next(iter(line.records), None)

    def action_unfold(self) -> None:
        """Show the prints one by one."""
        self._unfolded.add(self._here[0])
        self._show()

    def action_fold(self) -> None:
        """Show them in one line."""
        key = self._here[0]
        self._unfolded.discard(key)
        self._show()
        listed = self.query_one(LineList)
        listed.cursor = next((at for at, one in enumerate(listed.lines) if one.group == key), 0)

    def action_open_owing(self) -> None:
        """Open the print under the cursor."""
        key, _owed, record = self._here
        if record is not None:
            self.studio.go_to(record)
        elif key:
            self.action_unfold()

    def action_mark_owing(self) -> None:
        """Mark or unmark the print under the cursor and go on, or all that owe the same."""
        key, owed, record = self._here
        if record is not None:
            self._marked ^= {(key, record)}
        elif owed is not None:
            every = {(key, debtor.record) for debtor in owed.prints}
            self._marked = self._marked - every if every <= self._marked else self._marked | every
        self._show()
        listed = self.query_one(LineList)
        following = listed.lines[listed.cursor + 1 : listed.cursor + 2]
        if record is not None and any(line.group == key for line in following):
            listed.action_move(1)

    def action_answer(self) -> None:
        """Answer once: for the marked, else for the print under the cursor, else for all."""
        key, owed, record = self._here
        if owed is None:
            return
        every = tuple(debtor.record for debtor in owed.prints)
        marked = tuple(one for one in every if (key, one) in self._marked)
        prints = marked or ((record,) if record is not None else every)
        if owed.what == "scan":
            # a picture is of one print
            prints = prints[:1]
        self.run_worker(self._answer(key, owed.what, prints), exclusive=True, group="answer")

    async def _answer(self, key: str, what: str, prints: tuple[int, ...]) -> None:
        if what == "certificate":
            await self._certify(prints)
            return
        form = form_for(self.studio.register.read, what, prints)
        saved = await self.studio.push_screen_wait(form)
        if saved:
            self._marked -= {(key, record) for record in prints}
            self.refresh_content()

    def _asked(self, prints: tuple[int, ...]) -> str:
        names = ", ".join(names_of(self.studio.register.read, prints))
        many = f"{len(prints)} certificates, of" if len(prints) > 1 else "a certificate of"
        return f"Issue {many} {names}?"

    async def _certify(self, prints: tuple[int, ...]) -> None:
        if not await self.studio.push_screen_wait(
            Ask(self._asked(prints), yes="issue them" if len(prints) > 1 else "issue it")
        ):
            return
        stationery = await stationery_of(self.studio)
        if stationery is None:
            self.say("Nothing was issued: the key is still locked.")
            return
        from provenance.studio.certifying.batch import Owing as Uncertified

        names = names_of(self.studio.register.read, prints)
        asked = [Uncertified(*one) for one in zip(prints, names, strict=True)]
        done = await self.studio.push_screen_wait(IssueCertificates(asked, stationery))
        self._marked -= {("certificate", record) for record in prints}
        self.refresh_content()
        self.say(done.told(str(self.studio.folder.certificates)))
