"""Whatever a studio does, the view made again is the view that grew, and the audit is clean."""

import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import msgspec
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from provenance.errors import Refused
from provenance.model.body import Body
from provenance.model.chemistry import Bath
from provenance.model.custody import CustodyEvent
from provenance.model.edition import Edition
from provenance.model.finish import Finish
from provenance.model.printing import Printing, Step
from provenance.model.prints import Print, Scan
from provenance.model.process import PlannedStep, ProcessSheet
from provenance.model.proof import Test
from provenance.model.run import Override, Run
from provenance.records.act import Act
from provenance.records.audit import audit
from provenance.records.register import Register
from tests.studios import (
    PRINTED_ON,
    WHO,
    Shelf,
    certificate,
    finish,
    furnish,
    new_register,
    release,
    scan,
    sheet,
    signature,
    silver_test,
    step,
)

Fits = Callable[[Any], bool]
Move = tuple[str, int, int]
PRINTS = 6
PLAN = ProcessSheet(
    code="short", name="Short", base="fibre", steps=(PlannedStep(name="wash", role="wash"),)
)


class Day:
    """A studio at work; each move picks among what there is by number."""

    def __init__(self, register: Register, shelf: Shelf) -> None:
        self.register = register
        self.shelf = shelf
        self.done = 0

    def pick(self, kind: type[Body], choice: int, fits: Fits = lambda body: True) -> Any:
        """One live record of the kind that fits; Refused when there is none."""
        found = [stored for stored in self.register.read.all(kind) if fits(stored.body)]
        if not found:
            raise Refused("nothing to choose from")
        return found[choice % len(found)]

    def change(self, act: Act, stored: Any, how: int, **fields: Any) -> None:
        """Write the record with other fields: by a change or by a correction."""
        body = msgspec.structs.replace(stored.body, **fields)
        if how % 2:
            act.change(stored.id, stored.version, body)
        else:
            act.correct(stored.id, stored.version, body, "written down wrongly")

    def expose(self, act: Act, one: int, other: int) -> None:
        act.enter(sheet(self.shelf, f"{one % PRINTS}"))
        if other % 3 == 0:
            act.enter(sheet(self.shelf, f"{other % PRINTS}x", designation=f"{1 + one % 25}/25"))

    def number(self, act: Act, one: int, other: int) -> None:
        written = ("AP I/II", "AP II/II", None, "BAT", "TP")
        designation = written[other] if other < len(written) else f"{other}/25"
        self.change(act, self.pick(Print, one), 1, designation=designation)

    def sign(self, act: Act, one: int, other: int) -> None:
        signed = signature(by="artist" if other % 4 else "other") if other % 5 else None
        numbered = self.pick(Print, one, lambda body: body.designation)
        self.change(act, numbered, other, signature=signed)

    def note(self, act: Act, one: int, other: int) -> None:
        self.change(act, self.pick(Print, one), other, features=f"a crease, {other} mm long")

    def lose(self, act: Act, one: int, other: int) -> None:
        existence = ("exists", "spoiled", "destroyed", "lost")[other % 4]
        gone = None if existence == "exists" else "2031-05-01"
        shown = "" if other // 4 % 2 else "seen torn"
        fields = {"existence": existence, "gone_on": gone, "gone_evidence": shown}
        self.change(act, self.pick(Print, one), 0, **fields)

    def replace(self, act: Act, one: int, other: int) -> None:
        former = self.pick(Print, one, lambda body: body.existence != "exists")
        mark = f"r{other % PRINTS}"
        act.enter(sheet(self.shelf, mark, designation=former.body.designation, replaces=former.id))

    def process(self, act: Act, one: int, other: int) -> None:
        chosen = {self.pick(Print, one).id, self.pick(Print, other).id}
        wash = {"role": "wash", "bath": self.shelf.wash} if other % 2 else {}
        act.enter(step(self.shelf, *sorted(chosen), place=other, **wash))

    def test(self, act: Act, one: int, other: int) -> None:
        kinds: tuple[dict[str, Any], ...] = (
            {},
            {"verdict": "failed"},
            {"question": "thiosulfate", "method": "silver-nitrate spot"},
        )
        act.enter(silver_test(self.pick(Print, one).id, place=other, **kinds[other % 3]))

    def rework(self, act: Act, one: int, other: int) -> None:
        kind = (Step, Test, Finish)[other % 3]
        self.change(act, self.pick(kind, one), other // 3, place=other)

    def hang(self, act: Act, one: int, other: int) -> None:
        chosen = {self.pick(Print, one).id, self.pick(Print, other).id}
        drying = "on screens" if other % 3 else None
        act.enter(finish(*sorted(chosen), drying=drying))

    def dry(self, act: Act, one: int, other: int) -> None:
        drying = "with heat" if other % 2 else None
        self.change(act, self.pick(Finish, one), other // 2, drying=drying, note=f"{other}")

    def photograph(self, act: Act, one: int, other: int) -> None:
        act.enter(scan(self.pick(Print, one).id, b"%d" % other))

    def relabel(self, act: Act, one: int, other: int) -> None:
        self.change(act, self.pick(Scan, one), other, print=self.pick(Print, other).id)

    def certify(self, act: Act, one: int, other: int) -> None:
        act.enter(certificate(self.register, self.pick(Print, one).id, b"%d" % other))

    def move(self, act: Act, one: int, other: int) -> None:
        event = "returned" if other % 3 == 0 else "released"
        act.enter(release(self.pick(Print, one).id, event=event, on=f"2031-04-{1 + other % 28:02}"))

    def rename(self, act: Act, one: int, other: int) -> None:
        edition = self.pick(Edition, one)
        names = {"code": ("QUAY", "Quay", "PIER")[other % 3], "name": f"Quay at {other}"}
        self.change(act, edition, other, **names)

    def promise(self, act: Act, one: int, other: int) -> None:
        bon = self.register.read.all(Print)
        fields = {"bon_a_tirer": bon[one % len(bon)].id if bon else None}
        self.change(act, self.pick(Edition, one), other, numbered=20 + other, **fields)

    def redate(self, act: Act, one: int, other: int) -> None:
        self.change(act, self.pick(Printing, one), other, done_on=f"2031-03-0{1 + other % 3}")

    def retire_bath(self, act: Act, one: int, other: int) -> None:
        day = f"2031-03-{1 + other:02}"
        self.change(act, self.pick(Bath, one), 1, retired_on=day, retired_why="spent")

    def begin(self, act: Act, one: int, other: int) -> None:
        plans = self.register.read.all(ProcessSheet)
        plan = plans[0].id if plans else act.enter(PLAN)
        chosen = {self.pick(Print, one).id, self.pick(Print, other).id}
        act.enter(Run(process=plan, sheets=tuple(sorted(chosen)), began_on=PRINTED_ON))

    def end(self, act: Act, one: int, other: int) -> None:
        run = self.pick(Run, one)
        over = Override(
            finding="Q2",
            step="wash",
            sheets=run.body.sheets[:1],
            why="hurry",
            explained="" if other % 2 else "it was rinsed",
        )
        state = ("finished", "given up", "in hand")[other % 3]
        self.change(act, run, other // 3, state=state, overrides=(over,) * (other % 5))

    def void(self, act: Act, one: int, other: int) -> None:
        kinds = (Print, Step, Test, CustodyEvent, Scan, Finish, Run, Bath)
        stored = self.pick(kinds[other % len(kinds)], one)
        act.void(stored.id, stored.version, "a duplicate")

    def undo(self, act: Act, one: int, other: int) -> None:
        last, _ = self.register.read.head()
        act.undo(max(1, last - (other if one % 2 else 0)), "entered by mistake")

    def do(self, moves: list[Move]) -> None:
        """One act of some moves; when one of them is refused, none is done."""
        before = self.register.read.head()
        try:
            with self.register.act(WHO) as act:
                for name, one, other in moves:
                    getattr(self, name)(act, one, other)
        except Refused:
            assert self.register.read.head() == before
            return
        self.done += 1


NAMES = sorted(
    name
    for name, value in vars(Day).items()
    if isinstance(value, Callable) and name not in ("__init__", "pick", "change", "do")  # type: ignore[arg-type]
)
# sheets and numbers come most often, as in life, or most moves find nothing to move
MOVE = st.tuples(
    st.sampled_from([*NAMES, *["expose", "number", "sign"] * 4, "undo"]),
    st.integers(0, 30),
    st.integers(0, 30),
)
ACTS = st.lists(st.lists(MOVE, min_size=1, max_size=2), min_size=5, max_size=25)


@settings(
    max_examples=60,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)
@given(acts=ACTS)
def test_the_view_is_a_function_of_the_journal(acts: list[list[Move]]) -> None:
    with tempfile.TemporaryDirectory() as place:
        with new_register(Path(place)) as register:
            with register.act(WHO) as act:
                shelf = furnish(act)
                for mark in ("a", "b"):
                    act.enter(sheet(shelf, mark))
            day = Day(register, shelf)
            for moves in acts:
                day.do(moves)
        # the files that the scans and certificates speak of were never made
        elsewhere = ("images/", "certificates/")
        report = audit(Path(place))
        assert [f for f in report.findings if not f.what.startswith(elsewhere)] == []


def test_every_move_is_possible(register: Register, shelf: Shelf) -> None:
    """The histories above are not made of refusals."""
    day = Day(register, shelf)
    moves: list[Move] = [
        ("expose", 1, 3),
        ("expose", 2, 1),
        ("number", 0, 3),
        ("number", 1, 9),
        ("sign", 0, 1),
        ("note", 0, 7),
        ("process", 0, 1),
        ("test", 0, 2),
        ("rework", 0, 6),
        ("hang", 0, 1),
        ("dry", 0, 2),
        ("photograph", 0, 0),
        ("relabel", 0, 1),
        ("begin", 0, 1),
        ("end", 0, 1),
        ("rename", 0, 2),
        ("promise", 0, 5),
        ("redate", 0, 0),
        ("certify", 0, 0),
        ("move", 0, 1),
        ("retire_bath", 0, 9),
        ("lose", 1, 2),
        ("replace", 1, 4),
        ("void", 0, 3),
        ("undo", 0, 0),
    ]
    assert {name for name, _, _ in moves} == set(NAMES)
    for done, move in enumerate(moves, start=1):
        day.do([move])
        assert day.done == done, f"{move} was refused"
