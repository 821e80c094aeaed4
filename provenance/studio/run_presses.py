"""The keys that were pressed in a run, read back from the journal."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import timedelta

from provenance.model.printing import Step
from provenance.model.prints import Print
from provenance.model.quantity_text import format_clock
from provenance.model.run import Run
from provenance.records.clock import Moment
from provenance.records.entry import Entry, decode
from provenance.records.forms import read_body
from provenance.records.reader import Reader, Stored


@dataclass(frozen=True)
class Press:
    """One key and what it did."""

    act: int
    """The act that it wrote, which takes it back when it is undone."""
    at: str
    """The local time of day."""
    said: str


def presses(reader: Reader, run: Stored[Run]) -> list[Press]:
    """Every press that stands, oldest first; what was taken back is not among them."""
    acts: dict[int, list[Entry]] = {}
    undoing: dict[int, int] = {}
    for _seq, data, _digest in reader.entries(run.id + 1):
        entry = decode(data)
        if entry.undoes is not None:
            undoing[entry.act] = entry.undoes
        acts.setdefault(entry.act, []).append(entry)
    taken_back: set[int] = set()
    for number in reversed(undoing):
        # what was taken back by an act that was itself taken back stands again
        if number not in taken_back:
            taken_back.add(undoing[number])
    found = []
    for number, entries in acts.items():
        gone = number in taken_back or number in undoing
        said = [] if gone else [*_said(reader, run, entries)]
        if said:
            found.append(Press(number, _time(entries[0].moment), "; ".join(dict.fromkeys(said))))
    return found


def _time(moment: Moment) -> str:
    return f"{moment.utc() + timedelta(minutes=moment.offset_min):%H:%M:%S}"


def _said(reader: Reader, run: Stored[Run], entries: list[Entry]) -> Iterator[str]:
    for entry in entries:
        if entry.retires or entry.kind not in (Step.KIND, Run.KIND, Print.KIND):
            continue
        body = read_body(entry.kind, entry.form, entry.body)
        former = None if entry.base is None else reader.entry(entry.base)
        before = None if former is None else read_body(former.kind, former.form, former.body)
        if isinstance(body, Step) and body.run == run.id:
            yield _step(reader, body, before if isinstance(before, Step) else None)
        elif isinstance(body, Run) and isinstance(before, Run) and entry.record == run.id:
            yield from _run(reader, body, before)
        elif isinstance(body, Print) and entry.record in run.body.sheets:
            was = before.existence if isinstance(before, Print) else body.existence
            if body.existence != was:
                yield f"{body.mark} {body.existence}: {body.gone_why}"


def _step(reader: Reader, body: Step, before: Step | None) -> str:
    name = body.name or body.role
    if before is None:
        return f"{_marks(reader, body.sheets)}: {name} began"
    left = [one for one in body.sheets if before.duration_for(one) != body.duration_for(one)]
    time = format_clock(round(body.duration_for(left[0]) or 0, -3)) if left else ""
    return f"{_marks(reader, left)}: {name} ended, {time}"


def _run(reader: Reader, body: Run, before: Run) -> Iterator[str]:
    if body.state != before.state:
        yield f"the run is {body.state}"
    changed = [one for one in body.aims if one not in before.aims]
    for aim in changed:
        yield f"{_marks(reader, [aim.sheet])}: {aim.step} aims at {format_clock(aim.aim_ms)}"
    for one in body.overrides[len(before.overrides) :]:
        yield f"{one.finding} overridden: {one.why}"


def _marks(reader: Reader, sheets: list[int] | tuple[int, ...]) -> str:
    return ", ".join(reader.get(Print, sheet).body.mark for sheet in sheets)
