"""One print as it is shown to a person: its history, its statement, what stands against it."""

from dataclasses import dataclass

from provenance.craft.history import PrintHistory
from provenance.craft.issuing import obstacles, print_name
from provenance.craft.sequence.finding import Finding
from provenance.errors import Problem
from provenance.model.certificate import IssuedClaim
from provenance.records.dossier import print_history
from provenance.records.impressions import state_letter
from provenance.records.reader import Reader
from provenance.studio.certifying.statement import boasts, worded
from provenance.studio.editions.disclosing import open_items
from provenance.studio.folder import StudioFolder
from provenance.studio.life import LifeLine, life
from provenance.studio.sequences import load_rules, print_findings
from provenance.studio.settings import read_settings
from provenance.studio.wordings import load_wording


@dataclass(frozen=True)
class PrintView:
    """A print as the register has it now."""

    history: PrintHistory
    life: tuple[LifeLine, ...]
    statement: tuple[IssuedClaim, ...]
    """What a certificate would say today."""
    obstacles: tuple[Problem, ...]
    """What stands against issuing one."""
    findings: tuple[Finding, ...]
    """What the rules of the trade find in what it went through, the gravest first."""
    state: str
    """The letter that lists show."""


def view_print(reader: Reader, folder: StudioFolder, record: int) -> PrintView:
    """The print with id `record`.  Raises NotFound."""
    settings = read_settings(folder)
    history = print_history(reader, record)
    claims = worded(history, load_wording(folder, settings.language))
    return PrintView(
        history=history,
        life=tuple(life(history, settings.units)),
        statement=claims,
        obstacles=(
            *obstacles(history, load_rules(folder)),
            *boasts(claims, print_name(history)),
            *open_items(reader, folder, history, settings.disclosure),
        ),
        findings=print_findings(reader, folder, history, settings),
        state=state_letter(history),
    )
