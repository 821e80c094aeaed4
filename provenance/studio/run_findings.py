"""What the rules say of the step that sheets are about to go into."""

from collections.abc import Iterable, Sequence
from dataclasses import replace

from msgspec.structs import replace as restated

from provenance.craft.history import Fact, PrintHistory
from provenance.craft.running import baths_of
from provenance.craft.sequence.deeds import Load
from provenance.craft.sequence.finding import LEVELS, Finding
from provenance.craft.sequence.review import about_to
from provenance.model.chemistry import Bath
from provenance.model.dates import latest
from provenance.model.formula import Formula
from provenance.model.printing import Step
from provenance.model.process import PlannedStep
from provenance.records.dossier import print_history
from provenance.records.reader import Reader
from provenance.studio.folder import StudioFolder
from provenance.studio.run_carried import Carried
from provenance.studio.running import RunView
from provenance.studio.sequences import bath_contents, bath_loads, load_ground
from provenance.studio.settings import Settings
from provenance.studio.shelf.passes import Pass, Passes, ledger_of
from provenance.studio.shelf.trays import limit_of

_ORDER = list(LEVELS)


def findings_before(
    reader: Reader,
    folder: StudioFolder,
    settings: Settings,
    view: RunView,
    sheets: Sequence[int],
    planned: PlannedStep,
    carried: Iterable[Carried] = (),
) -> tuple[Finding, ...]:
    """What would be wrong if `sheets` went into `planned` next, the gravest first.

    A sheet that is still in a tray is taken to stay there until its aim.  A bath
    is judged by all sheets of the run that are still to go through it, and by
    what others have `carried` into it.
    """
    if planned.role is None:
        return ()
    run = view.run
    step = Step(
        role=planned.role,
        name=planned.name,
        sheets=tuple(sheets),
        bath=run.body.bath_for(planned.name),
        agent=planned.agent,
        done_on=str(view.read_at.local_date()),
        place=0,
        temperature_tenth_c=run.body.temperature_tenth_c,
        source="run",
        run=run.id,
    )
    bath = reader.get(Bath, step.bath).body if step.bath is not None else None
    steps = baths_of(view.plan)
    after = [one.name for one in steps].index(planned.name) + 1 if planned in steps else len(steps)
    coming = tuple(one.role for one in steps[after:] if one.role is not None)
    ground, found = load_ground(folder), dict[Finding, None]()
    for sheet in sheets:
        history = _until_its_aim(print_history(reader, sheet), view)
        loads, holds = bath_loads(reader, history, settings), bath_contents(reader, history)
        if step.bath is not None and bath is not None:
            going = _still_to_go(view, planned, sheets)
            loads[step.bath] = _load_with(reader, step.bath, bath, going, view, settings)
            holds |= _holds(reader, step.bath, bath)
        found |= dict.fromkeys(
            about_to(history, step, ground, bath=bath, coming=coming, loads=loads, holds=holds)
        )
        found |= dict.fromkeys(
            one.finding
            for one in carried
            if one.sheet != sheet and (one.bath, one.step) == (step.bath, planned.name)
        )
    return _once(found)


def _still_to_go(view: RunView, planned: PlannedStep, sheets: Sequence[int]) -> list[int]:
    """`sheets`, and those of the run that follow them into the same step."""
    been = {sheet for one in view.begun if one.name == planned.name for sheet in one.sheets}
    here = [one.print.id for one in view.in_hand]
    return [*sheets, *(one for one in here if one not in been and one not in sheets)]


def _once(found: Iterable[Finding]) -> tuple[Finding, ...]:
    """The same thing said of several sheets is said once."""
    told = {(one.case, one.what): one for one in found}
    return tuple(sorted(told.values(), key=lambda one: _ORDER.index(one.level)))


def _until_its_aim(history: PrintHistory, view: RunView) -> PrintHistory:
    sheet = history.print.id
    aims = {step.name: view.aim_for(step, sheet) for step in view.plan.steps}

    def ended(fact: Fact[Step]) -> Fact[Step]:
        body = fact.body
        if body.run != view.run.id or body.duration_for(sheet) is not None:
            return fact
        return replace(fact, body=restated(body, duration_ms=aims.get(body.name)))

    return replace(history, steps=tuple(ended(fact) for fact in history.steps))


def _load_with(
    reader: Reader,
    record: int,
    bath: Bath,
    sheets: Sequence[int],
    view: RunView,
    settings: Settings,
) -> Load:
    """What the ledger of a bath will say when `sheets` have gone through as well."""
    passes = Passes(reader, settings.coating)
    through = passes.of(record)
    today = view.read_at.local_date()
    formula = reader.get(Formula, bath.formula).body if bath.formula is not None else None
    volume, limit = bath.volume_hundredth_ml, limit_of(bath, settings)
    # ledgers count sheets, and what was fixed before brings no silver of its own
    new = [_pass(reader, view, sheet) for sheet in sheets]
    silver = None
    if volume and limit is not None:
        silver = ledger_of([*through, *new], volume, settings.coating).dissolved_mg_per_l
    return Load(
        dissolved_mg_per_l=silver,
        limit=limit,
        sheets=len({one.print for one in (*through, *new)}),
        most_sheets=settings.sheet_limits.get(bath.role),
        earlier_uses=sum(latest(one.done_on) < today for one in through),
        keeps_days=None if formula is None or bath.role == "fix" else formula.tray_days,
        awaited=len(new),
    )


def _pass(reader: Reader, view: RunView, sheet: int) -> Pass:
    size = next(one.print.body.sheet for one in view.sheets if one.print.id == sheet)
    fixed = any(step.body.role == "fix" for step in reader.linked(sheet, Step, "sheets"))
    return Pass(sheet, 0, str(view.read_at.local_date()), size, fixed, 0.0, 0.0)


def _holds(reader: Reader, record: int, bath: Bath) -> dict[int, frozenset[str]]:
    if bath.formula is None:
        return {}
    inside = reader.get(Formula, bath.formula).body.ingredients
    return {record: frozenset(one.substance for one in inside)}
