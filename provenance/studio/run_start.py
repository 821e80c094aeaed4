"""Beginning a run: which sheets are at work, which trays stand ready for which step."""

from collections.abc import Iterable, Sequence

from provenance.craft.units import parse_temperature_tenth_c
from provenance.errors import Problem, Refused
from provenance.model.chemistry import Bath
from provenance.model.printing import Printing, Step
from provenance.model.prints import Print
from provenance.model.process import ProcessSheet
from provenance.model.quantity_text import format_temperature
from provenance.model.run import Run, Tray
from provenance.records.act import Act
from provenance.records.at_hand import baths_in_use, runs_in_hand
from provenance.records.impressions import DEBTS
from provenance.records.newest import newest
from provenance.records.reader import Reader, Stored
from provenance.studio.folder import StudioFolder
from provenance.studio.processes import use_process
from provenance.studio.references import resolve_as, resolve_print
from provenance.studio.run_board import MOST_SHEETS
from provenance.studio.running import begin_run

_NEWEST = 200
"""Among how many of the newest sheets at work those for a run are looked for."""


def sheets_at_work(reader: Reader) -> list[int]:
    """The sheets of the last printing that are free for a run, as many as a run holds."""
    taken = {sheet for run in runs_in_hand(reader) for sheet in run.body.sheets}
    for printing in _printings_at_work(reader):
        free = [
            one.id
            for one in reader.linked(printing, Print, "printing")
            if one.body.existence == "exists"
            and one.body.designation is None
            and one.id not in taken
        ]
        if free:
            return free[:MOST_SHEETS]
    return []


def _printings_at_work(reader: Reader) -> list[int]:
    """The printings of the newest sheets that bear no number yet, the latest first."""
    rows = reader.connection.execute(
        "SELECT id FROM impression WHERE instr(owes, ?) ORDER BY id DESC LIMIT ?",
        (DEBTS["number"], _NEWEST),
    ).fetchall()
    return sorted({reader.get(Print, row[0]).body.printing for row in rows}, reverse=True)


def process_last_used(reader: Reader) -> str:
    """The code of the process sheet of the last run, or of the last printing; else empty."""
    run = newest(reader, Run)
    if run is not None:
        return reader.get(ProcessSheet, run.body.process).body.code
    (last,) = reader.connection.execute(
        "SELECT max(l.source) FROM record r JOIN link l ON l.target = r.id AND l.kind = 'printing'"
        " AND l.field = 'process' WHERE r.kind = 'process'"
    ).fetchone()
    used = reader.get(Printing, last).body.process if last is not None else None
    return reader.get(ProcessSheet, used).body.code if used is not None else ""


def temperature_last(reader: Reader) -> str:
    """The temperature of the last run; empty where there is none."""
    run = newest(reader, Run)
    tenths = run.body.temperature_tenth_c if run else None
    return "" if tenths is None else format_temperature(tenths)


def propose_trays(reader: Reader, plan: ProcessSheet) -> dict[str, str]:
    """The code of a bath for each step that one stands ready for: as last time, else the newest.

    The second of two fixing steps takes the second bath of the pair.
    """
    ready: list[Stored[Bath]] = []
    for bath in reversed(baths_in_use(reader)):
        used_up = bath.body.one_shot and reader.linked(bath.id, Step, "bath")
        if not used_up:
            ready.append(bath)
    before = _last_trays(reader, plan.code)
    found: dict[str, Stored[Bath]] = {}
    for step in plan.steps:
        fit = [bath for bath in ready if bath.body.role == step.role]
        if not fit:
            continue
        same = next((bath for bath in fit if bath.id == before.get(step.name)), None)
        pair = _second(fit, found.values()) if step.role == "fix" else None
        first = next((bath for bath in fit if bath.body.second_of is None), fit[0])
        found[step.name] = same or pair or first
    return {name: bath.body.code for name, bath in found.items()}


def _second(fit: Sequence[Stored[Bath]], standing: Iterable[Stored[Bath]]) -> Stored[Bath] | None:
    """The second bath of the pair whose first stands in a tray already."""
    firsts = {bath.id for bath in standing if bath.body.role == "fix"}
    return next((bath for bath in fit if bath.body.second_of in firsts), None)


def _last_trays(reader: Reader, process: str) -> dict[str, int]:
    (last,) = reader.connection.execute(
        "SELECT max(l.source) FROM record r JOIN link l ON l.target = r.id AND l.kind = 'run'"
        " AND l.field = 'process' WHERE r.kind = 'process' AND r.code = ?",
        (process,),
    ).fetchone()
    trays = reader.get(Run, last).body.trays if last is not None else ()
    return {tray.step: tray.bath for tray in trays}


def start_run(
    act: Act,
    folder: StudioFolder,
    *,
    process: str,
    sheets: Sequence[str],
    trays: dict[str, str],
    temperature: str = "",
) -> int:
    """Begin a run in the words of a form; returns its id.

    Raises Refused or NotFound, naming the field: process, sheets, baths or temperature.
    """
    problems: list[Problem] = []
    if not sheets:
        problems.append(Problem("names no sheets", field="sheets", mend="say which are in hand"))
    if len(sheets) > MOST_SHEETS:
        problems.append(
            Problem(
                f"a run holds {MOST_SHEETS} sheets, a digit for each; these are {len(sheets)}",
                field="sheets",
                mend="begin a second run for the others",
            )
        )
    if not process:
        problems.append(Problem("is not answered", field="process", mend="name a process sheet"))
    if problems:
        raise Refused(*problems)
    record, plan = use_process(act, folder, process)
    steps = {" ".join(step.name.split()).casefold(): step.name for step in plan.steps}
    standing = [
        Tray(step=steps.get(name.casefold(), name), bath=resolve_as(act, Bath, code).id)
        for name, code in trays.items()
    ]
    return begin_run(
        act,
        act.get(ProcessSheet, record),
        [resolve_print(act, name).id for name in sheets],
        standing,
        temperature_tenth_c=parse_temperature_tenth_c(temperature) if temperature else None,
    )
