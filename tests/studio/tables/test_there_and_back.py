"""Tables that were exported come into a new studio as they are, and go out again the same."""

import csv
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

from provenance.errors import Refused
from provenance.model.custody import CustodyEvent
from provenance.model.edition import Edition
from provenance.model.printing import Burn, Crop, Exposure, Printing
from provenance.model.prints import Approval, Print
from provenance.model.process import Aim, PlannedStep, ProcessSheet
from provenance.model.quantities import Point
from provenance.records.audit import audit
from provenance.records.register import Register
from provenance.studio.custody import move_prints
from provenance.studio.daysheet.record import Recorded, record_day_sheet
from provenance.studio.folder import StudioFolder
from provenance.studio.handover.exporting import export
from provenance.studio.references import resolve_print
from provenance.studio.settings import Settings
from provenance.studio.tables.importing import KINDS, Kind, import_table
from tests.studio.sheets import Desk
from tests.studio.test_twenty_years import SHEETS
from tests.studios import (
    IMAGE,
    PRINTED_ON,
    WHO,
    enter,
    furnish,
    negative,
    new_register,
    revise,
    sheet,
    signature,
)

LOSS = {"why": "in the post", "evidence": "the carrier's letter"}
PERSON, TERMS = "ab" * 32, "cd" * 32
FORMULA = '=HYPERLINK("http://x")\n second line '
PROCESS = ProcessSheet(
    code="plain",
    name="+two baths",
    base="fibre",
    steps=(
        PlannedStep(name="fix", role="fix", aim=Aim(time_ms=60_000, least_ms=30_000)),
        PlannedStep(name="spot", test="silver", note="-"),
    ),
)
EXPOSURE = Exposure(
    base_ms=14_000,
    grade="2 1/2",
    crop=Crop(left_tenth_mm=0, top_tenth_mm=4, size=IMAGE),
    burns=(Burn(area="@sky", milli_stop=-250, at=Point(across_permille=1, down_permille=2)),),
)


def fill(register: Register) -> None:
    """Everything that a row can say: replacements, sheets without marks, losses and finds."""
    with register.act(WHO) as act:
        shelf = furnish(act)
    revise(register, shelf.edition, unnumbered=3, verb="correct")
    with register.act(WHO) as act:
        act.enter(negative(code="N-2", title=" =Ropes", copy_of="", taken_by="artist", note="'"))
        process = act.enter(PROCESS)
        printing = act.get(Printing, shelf.printing).body
        # two more printings of the same day, paper and printer: only their places differ
        again = Printing(
            negative=shelf.negative,
            done_on=PRINTED_ON,
            paper=shelf.paper,
            process=process,
            exposure=EXPOSURE,
            source="run",
            note=FORMULA,
        )
        second, third = act.enter(again), act.enter(printing)
        gone = {"existence": "destroyed", "gone_on": "2031-04-20", "gone_why": "torn"}
        lost = act.enter(sheet(shelf, "Q1", designation="1/25", inscriptions=FORMULA))
        former = act.enter(
            sheet(shelf, "Q3", designation="2/25", **gone, gone_evidence="seen by the framer")
        )
        later = act.enter(
            sheet(shelf, "Q4", printing=second, designation="2/25", replaces=former, **gone)
        )
        chosen = act.enter(
            sheet(
                shelf,
                "Q5",
                printing=third,
                designation="BAT",
                counted="outside",
                approved=Approval(role="+assistant", on="2031-03-05"),
                signature=signature(),
            )
        )
        for _ in range(2):
            act.enter(sheet(shelf, "", designation="unnumbered", opening=True))
        move_prints(act, [act.get(Print, lost)], "lent", "2031-04-01", party=PERSON, until="2033")
        move_prints(act, [act.get(Print, lost)], "lost", "2031-04-03", **LOSS)
        move_prints(act, [act.get(Print, lost)], "found", "2031-04-05")
        move_prints(act, [act.get(Print, lost)], "returned", "2031-04-06", giver=PERSON)
        move_prints(act, [act.get(Print, lost)], "sold", "2031-05", terms=TERMS, rights="stay")
        for one, event in ((former, "destroyed"), (later, "destroyed")):
            act.enter(CustodyEvent(print=one, event=event, on="2031-04-20"))  # type: ignore[arg-type]
    revise(register, shelf.edition, bon_a_tirer=chosen)
    revise(register, shelf.negative, state="cancelled", state_since="2031-05-01")


@dataclass
class Room:
    """Two studios, and a folder with the tables of the first."""

    one: Register
    two: Register
    tables: Path

    def bring(self, kind: Kind, into: Register, *, rehearse: bool = False) -> Recorded:
        """Import a table of the first studio."""
        return import_table(
            into,
            StudioFolder(into.folder),
            self.tables / f"{kind}.csv",
            kind=kind,
            mapping={},
            fixed={},
            source="notes",
            settings=Settings(),
            rehearse=rehearse,
        )


@pytest.fixture(scope="module")
def room(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Room]:
    path = tmp_path_factory.mktemp("tables")
    with new_register(path / "one") as one, new_register(path / "two") as two:
        fill(one)
        export(StudioFolder(one.folder), path / "csv", "csv")
        made = Room(one, two, path / "csv")
        for kind in KINDS:
            made.bring(kind, two)
        # the bon à tirer is a print, which came after its edition
        made.bring("editions", two)
        yield made


OWN = ("id", "version", "entered", "who", "printing")
"""What is of the studio that a record is in; a printing has no name but its id."""


def cells(path: Path) -> list[dict[str, str]]:
    """What a table says, whichever studio it is of."""
    with path.open(encoding="utf-8", newline="") as file:
        return [
            {
                head: cell
                for head, cell in row.items()
                if head not in OWN and not head.endswith("_id")
            }
            for row in csv.DictReader(file)
        ]


@pytest.mark.parametrize("kind", KINDS)
def test_every_cell_comes_back(room: Room, tmp_path: Path, kind: Kind) -> None:
    export(StudioFolder(room.two.folder), tmp_path / "csv", "csv")
    first = cells(room.tables / f"{kind}.csv")
    assert first
    assert cells(tmp_path / "csv" / f"{kind}.csv") == first


def test_of_a_print_that_was_found_nothing_says_that_it_is_gone(room: Room) -> None:
    for studio in (room.one, room.two):
        found = resolve_print(studio.read, "QUAY Q1").body
        assert (found.existence, found.gone_on) == ("exists", None)
        assert (found.gone_why, found.gone_evidence) == ("", "")
    # how it was lost is in the history of the studio that it was lost in
    record = resolve_print(room.one.read, "QUAY Q1").id
    bodies = [one.body for one in room.one.read.versions(record) if isinstance(one.body, Print)]
    assert [body.gone_evidence for body in bodies if body.existence == "lost"] == [LOSS["evidence"]]


def test_each_print_has_its_own_printing_again(room: Room) -> None:
    def said(register: Register) -> list[tuple[str, str]]:
        return [
            (one.body.mark, register.read.get(Printing, one.body.printing).body.note)
            for one in register.read.all(Print)
        ]

    assert said(room.two) == said(room.one)
    assert not audit(room.two.folder).damaged


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("into", ["one", "two"])
def test_given_again_nothing_is_new(room: Room, kind: Kind, into: str) -> None:
    register: Register = getattr(room, into)
    head = register.read.head()
    assert room.bring(kind, register).act == 0
    assert register.read.head() == head


def test_no_cell_is_a_formula(room: Room) -> None:
    for path in room.tables.glob("*.csv"):
        with path.open(encoding="utf-8", newline="") as file:
            for row in csv.reader(file):
                assert not [cell for cell in row if cell[:1] in ("=", "+", "-", "@", "\t", " ")]


def test_before_its_prints_an_edition_waits_for_its_bon_a_tirer(room: Room, tmp_path: Path) -> None:
    with new_register(tmp_path / "three") as three:
        room.bring("negatives", three)
        told = room.bring("editions", three)
        assert [one.field for one in told.warnings] == ["bon_a_tirer"]
        assert three.read.all(Edition)[0].body.bon_a_tirer is None
        # without its printings a print makes them, one for each place
        room.bring("papers", three)
        room.bring("prints", three)
        assert len(three.read.all(Printing)) == 3
        told = room.bring("editions", three)
        assert told.entered[-1] == "0 editions entered, 1 added to"


def test_a_print_is_not_put_with_a_printing_on_other_paper(room: Room, tmp_path: Path) -> None:
    with new_register(tmp_path / "three") as three:
        for kind in ("negatives", "editions", "papers"):
            room.bring(kind, three)
        (first, *_) = three.read.all(Edition)
        enter(three, Printing(negative=first.body.negative, done_on=PRINTED_ON))
        with pytest.raises(Refused, match=r"line 2 paper: printing 1 of .* is on record otherwise"):
            room.bring("prints", three)


def test_twenty_years_with_a_changed_promise_come_back_in_two_steps(tmp_path: Path) -> None:
    """As docs/notebooks.md says: the prints of the earlier promise, the correction, the others."""
    old = Desk(tmp_path)
    for day in SHEETS:
        old.day = day.stem
        record_day_sheet(old.folder, day, clock=old.evening())
    export(old.folder, tmp_path / "csv", "csv")
    table = tmp_path / "csv" / "prints.csv"
    whole = table.read_text()
    with new_register(tmp_path / "two") as two:
        room = Room(two, two, tmp_path / "csv")
        for kind in ("negatives", "editions", "papers", "printings"):
            room.bring(kind, two)
        with pytest.raises(Refused, match="1/25 does not say that 10 are declared"):
            room.bring("prints", two)
        ebb = two.read.by_code(Edition, "EBB")
        assert ebb is not None
        revise(two, ebb.id, numbered=25, verb="correct")
        table.write_text("".join(row for row in whole.splitlines(True) if "/10" not in row))
        room.bring("prints", two)
        revise(two, ebb.id, numbered=10, verb="correct")
        table.write_text(whole)
        for kind in ("prints", "editions", "custody"):
            room.bring(kind, two)
        export(StudioFolder(two.folder), tmp_path / "again", "csv")
    for kind in KINDS:
        assert cells(tmp_path / "again" / f"{kind}.csv") == cells(tmp_path / "csv" / f"{kind}.csv")


def test_moves_come_in_whichever_way_the_list_runs(room: Room, tmp_path: Path) -> None:
    with new_register(tmp_path / "three") as three:
        with three.act(WHO) as act:
            print_ = act.enter(sheet(furnish(act), "Q1"))
        path = tmp_path / "custody.csv"
        path.write_text(
            "print,event,on\nQUAY Q1,returned,2031-05-02\nQUAY Q1,lent,2031-05-01\n"
            "QUAY Q1,returned,2031-04-02\nQUAY Q1,lent,2031-04-01\n"
        )
        Room(three, three, tmp_path).bring("custody", three)
        moves = three.read.linked(print_, CustodyEvent, "print")
        assert [one.body.event for one in moves] == ["lent", "returned"] * 2
