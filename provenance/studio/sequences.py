"""What the rules of the trade find in a print's history and in a plan."""

from functools import lru_cache

from provenance.craft.hazards.tables import read_hazards
from provenance.craft.history import PrintHistory
from provenance.craft.sequence.deeds import Load
from provenance.craft.sequence.finding import Finding
from provenance.craft.sequence.review import Ground, review, review_plan
from provenance.craft.sequence.texts import Rules, read_rules
from provenance.craft.substance_rows import read_substances
from provenance.model.chemistry import Bath
from provenance.model.dates import earliest, latest
from provenance.model.formula import Formula
from provenance.model.process import ProcessSheet
from provenance.records.reader import Reader
from provenance.studio.chemicals import table_text
from provenance.studio.folder import StudioFolder
from provenance.studio.settings import Settings
from provenance.studio.shelf.passes import Pass, Passes, ledger_of
from provenance.studio.shelf.trays import limit_of


def load_rules(folder: StudioFolder | None = None) -> Rules:
    """The texts of the rules: the studio's own where it has them.  Raises Refused."""
    return _rules(table_text(folder, "rules.toml"))


def load_ground(folder: StudioFolder | None = None) -> Ground:
    """What sequences are judged by: rules and hazards.  Raises Refused."""
    return _ground(
        table_text(folder, "rules.toml"),
        table_text(folder, "substances.csv"),
        table_text(folder, "hazards.toml"),
    )


@lru_cache(maxsize=2)
def _rules(text: str) -> Rules:
    return read_rules(text)


@lru_cache(maxsize=2)
def _ground(rules: str, substances: str, hazards: str) -> Ground:
    return Ground(_rules(rules), read_hazards(hazards, read_substances(substances)))


def print_findings(
    reader: Reader, folder: StudioFolder, history: PrintHistory, settings: Settings
) -> tuple[Finding, ...]:
    """What the rules find in what a print went through, the gravest first.

    The ledgers of its baths are read as they stood when it was in them.
    """
    return review(
        history,
        load_ground(folder),
        loads=bath_loads(reader, history, settings),
        holds=bath_contents(reader, history),
    )


def plan_findings(folder: StudioFolder, process: ProcessSheet) -> tuple[Finding, ...]:
    """What the rules find in a process sheet, the gravest first."""
    return review_plan(process, load_ground(folder))


def bath_contents(reader: Reader, history: PrintHistory) -> dict[int, frozenset[str]]:
    """The substances in each bath of a print, where its formula is on record."""
    return {
        fact.id: frozenset(
            one.substance for one in reader.get(Formula, fact.body.formula).body.ingredients
        )
        for fact in history.baths
        if fact.body.formula is not None
    }


def bath_loads(reader: Reader, history: PrintHistory, settings: Settings) -> dict[int, Load]:
    """What the ledger of each bath of a print said when the print had gone through."""
    passes = Passes(reader, settings.coating)
    return {
        fact.id: _load(reader, history, fact.body, passes.of(fact.id), settings)
        for fact in history.baths
        if fact.body.role in {"fix", *settings.sheet_limits}
        or fact.body.one_shot
        or fact.body.formula is not None
    }


def _load(
    reader: Reader, history: PrintHistory, bath: Bath, passes: list[Pass], settings: Settings
) -> Load:
    mine = [place for place, one in enumerate(passes) if one.print == history.print.id]
    until = passes[: max(mine, default=-1) + 1]
    volume, limit = bath.volume_hundredth_ml, limit_of(bath, settings)
    silver = None
    if volume and limit is not None and until:
        silver = ledger_of(until, volume, settings.coating).dissolved_mg_per_l
    first = earliest(passes[mine[0]].done_on) if mine else None
    formula = reader.get(Formula, bath.formula).body if bath.formula is not None else None
    return Load(
        dissolved_mg_per_l=silver,
        limit=limit,
        sheets=len({one.print for one in until}),
        most_sheets=settings.sheet_limits.get(bath.role),
        earlier_uses=sum(first is not None and latest(one.done_on) < first for one in until),
        keeps_days=None if formula is None or bath.role == "fix" else formula.tray_days,
    )
