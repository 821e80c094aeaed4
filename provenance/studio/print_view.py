"""One print as it is shown to a person: its history, its statement, what stands against it."""

from dataclasses import dataclass

from provenance.craft.history import PrintHistory
from provenance.craft.issuing import obstacles, print_name
from provenance.errors import Problem
from provenance.model.certificate import IssuedClaim
from provenance.records.dossier import print_history
from provenance.records.impressions import state_letter
from provenance.records.reader import Reader
from provenance.studio.certifying.statement import boasts, worded
from provenance.studio.folder import StudioFolder
from provenance.studio.life import LifeLine, life
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
        obstacles=(*obstacles(history), *boasts(claims, print_name(history))),
        state=state_letter(history),
    )
