"""Finishing: prints grouped by what they owe; mark many, answer once."""

from collections.abc import Iterable
from dataclasses import dataclass

from textual.widget import Widget

from provenance.records.reader import Reader
from provenance.screens.issuing import issue_each
from provenance.screens.places.answers import form_for
from provenance.screens.places.finishing_lines import LEAD_WIDTH, group_lines, lead_width
from provenance.screens.reads_aside import ReadsAside
from provenance.screens.widgets.line_list import Line, LineList
from provenance.screens.widgets.record_table import READING
from provenance.studio.owing import (
    Debtor,
    Owed,
    Owing,
    debtor_ids,
    debtors,
    names_in_drawer,
    owing_no_more,
    read_owed,
)

UNFOLDED = 200
"""How many prints of one thing are shown one by one."""
AT_ONCE = 500
"""How many prints a form answers for; certificates are issued one after the other."""


@dataclass(frozen=True)
class _Seen:
    """The register as the page shows it."""

    owed: Owed
    unfolded: dict[str, tuple[Debtor, ...]]
    done: dict[str, set[int]]
    """Which of the marked prints owe a thing no longer."""


class Finishing(ReadsAside):
    """What each print still owes, in the order in which it is done."""

    WHERE = "finishing"

    def __init__(self) -> None:
        super().__init__()
        self._owed: dict[str, Owing] = {}
        self._left_out = 0
        self._prints: dict[str, tuple[Debtor, ...]] = {}
        """Those that are shown one by one, by the key of what they owe."""
        self._unfolded: set[str] = set()
        self._marked: dict[str, set[int]] = {}
        """Prints by what they are marked for: a print is marked for one thing at a time."""

    def content(self) -> Iterable[Widget]:
        """One list; a line for each thing that is owed, and when it is unfolded for each print."""
        yield LineList(lead_width=LEAD_WIDTH, id="owed")

    # reading

    def refresh_content(self) -> None:
        """Read what is owed anew."""
        unfolded = set(self._unfolded)
        marked = {key: frozenset(prints) for key, prints in self._marked.items()}

        def look(reader: Reader) -> _Seen:
            connection = reader.connection
            owed = read_owed(connection)
            things = {one.key: one for one in owed.things}
            return _Seen(
                owed,
                {
                    key: tuple(debtors(connection, one, UNFOLDED))
                    for key, one in things.items()
                    if key in unfolded
                },
                {
                    key: owing_no_more(connection, things[key].what, prints)
                    for key, prints in marked.items()
                    if key in things
                },
            )

        if not self._owed and not self.reads_at_once:
            self.headline("Finishing")
            self.query_one(LineList).show([Line(READING, quiet=True, wide=True)])
        self.read_aside(look, self._show_seen)

    def _show_seen(self, seen: _Seen) -> None:
        self._owed = {one.key: one for one in seen.owed.things}
        self._left_out, self._prints = seen.owed.editions_left_out, seen.unfolded
        owe = "print owes" if seen.owed.prints == 1 else "prints owe"
        self.headline("Finishing", "", f"{seen.owed.prints:,} {owe} something")
        self._marked = {
            key: prints - seen.done.get(key, set())
            for key, prints in self._marked.items()
            if key in self._owed
        }
        self._show()

    # what is shown

    def _show(self) -> None:
        listed = self.query_one(LineList)
        listed.lead_width = lead_width(self._owed.values())
        lines = [line for key, one in self._owed.items() for line in self._group(key, one)]
        nothing = Line("Nothing is owed.", quiet=True, wide=True)
        listed.show(lines or [nothing])

    def _group(self, key: str, one: Owing) -> Iterable[Line]:
        lead = self.query_one(LineList).lead_width
        unfolded = self._prints.get(key, ()) if key in self._unfolded else None
        yield from group_lines(one, self._marked.get(key, set()), unfolded, lead)
        if self._left_out and one.edition and key == self._last_of_editions:
            told = f"{one.about}, in {self._left_out:,} more editions"
            yield Line(" " * lead + told, heading=True, quiet=True)
            yield Line("", heading=True)

    @property
    def _last_of_editions(self) -> str:
        return next(key for key in reversed(self._owed) if self._owed[key].edition)

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
        self.refresh_content()

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

    # marking

    def action_mark_owing(self) -> None:
        """Mark or unmark the print under the cursor and go on, or all that owe the same."""
        key, owed, record = self._here
        if owed is not None and record is None:
            self.run_worker(self._mark_all(owed), exclusive=True, group="mark")
            return
        if record is not None:
            self._marked.setdefault(key, set())
            self._marked[key] ^= {record}
        self._show()
        listed = self.query_one(LineList)
        following = listed.lines[listed.cursor + 1 : listed.cursor + 2]
        if record is not None and any(line.group == key for line in following):
            listed.action_move(1)

    async def _mark_all(self, owed: Owing) -> None:
        every = await self.answer_to(lambda reader: set(debtor_ids(reader.connection, owed)))
        if every is not None:
            here = self._marked.get(owed.key, set())
            self._marked[owed.key] = here - every if every <= here else here | every
            self._show()

    # answering

    def action_answer(self) -> None:
        """Answer once: for the marked, else for the print under the cursor, else for all."""
        _key, owed, record = self._here
        if owed is not None:
            self.run_worker(self._answer(owed, record), exclusive=True, group="answer")

    async def _prints_for(self, owed: Owing, record: int | None) -> tuple[int, ...]:
        marked = frozenset(self._marked.get(owed.key, ()))
        if not marked and record is not None:
            return (record,)
        every = await self.answer_to(lambda reader: debtor_ids(reader.connection, owed))
        return tuple(one for one in every or () if not marked or one in marked)

    async def _answer(self, owed: Owing, record: int | None) -> None:
        prints = await self._prints_for(owed, record)
        if owed.what == "scan":
            # a picture is of one print
            prints = prints[:1]
        if not prints:
            return
        if owed.what == "certificate":
            await self._certify(prints)
        elif len(prints) > AT_ONCE:
            self.say(
                f"One answer is for at most {AT_ONCE} prints, and these are {len(prints):,}:"
                " unfold them and mark those that it is true of."
            )
        elif await self.studio.push_screen_wait(
            form_for(self.studio.register.read, owed.what, prints)
        ):
            self._unmark(owed.key, prints)

    def _unmark(self, key: str, prints: Iterable[int]) -> None:
        if key in self._marked:
            self._marked[key] -= set(prints)
        self.refresh_content()

    async def _certify(self, prints: tuple[int, ...]) -> None:
        names: tuple[str, ...] = ()
        if len(prints) > AT_ONCE:
            named = await self.answer_to(lambda reader: names_in_drawer(reader.connection, prints))
            # those alone that are still on record, each with its name
            prints, names = zip(*named, strict=True) if named else ((), ())
            if not prints:
                return
        done = await issue_each(self.studio, prints, names=names)
        if isinstance(done, str):
            self.say(done)
            return
        self._unmark("certificate", prints)
        self.say(done.told(str(self.studio.folder.certificates)))
