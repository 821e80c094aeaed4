"""The terminal application is killed as soon as it says that something is saved."""

import re
import shutil
from collections.abc import Iterator

from provenance.errors import ProvenanceError
from provenance.records.audit import audit
from provenance.records.register import Register
from tests.faults.ground import Ground
from tests.faults.outcome import Came, Outcome
from tests.faults.registry import HARMLESS, fault
from tests.screens.house import house
from tests.screens.terminal import in_a_terminal

_SAVED = re.compile(rb"saved: act (\d+)")


@fault("the screen is killed as it says saved", long=12, short=1, allowed=HARMLESS)
def killed(ground: Ground, times: int) -> Iterator[Outcome]:
    """What stood on the screen as saved is in the register."""
    for turn in range(times):
        folder = ground.place / f"house-{turn}"
        house(folder, ground.place / "built")
        with in_a_terminal(folder) as terminal:
            terminal.until("QUAY")
            terminal.send(f"/Q{8 + turn % 2}\r")
            terminal.until("back: Q")
            terminal.send("n")
            terminal.until("umber")
            terminal.send("\x13")
            terminal.until("saved: act")
            terminal.kill()
            terminal.status()
        acts = [int(number) for number in _SAVED.findall(terminal.stream)]
        try:
            with Register.open(folder) as register:
                there = [act for act in acts if register.read.act_entries(act)]
        except ProvenanceError as error:
            yield Outcome(Came.FAULT, str(error))
            continue
        # the house has a certificate without its files
        amiss = [one for one in audit(folder).findings if not one.record.startswith("certificate")]
        lost = not acts or there != acts or amiss
        yield Outcome(Came.SILENT if lost else Came.WHOLE, f"{acts} {there} {amiss}")
        shutil.rmtree(folder)
