"""Certificates issued one after the other, with how far it has come; it can be stopped."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar, cast

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Static

from provenance.errors import ProvenanceError
from provenance.records.register import Register
from provenance.screens.guard import Guarded
from provenance.screens.mended import against

if TYPE_CHECKING:
    from provenance.screens.app import StudioApp
    from provenance.studio.certifying.batch import Outcome, Owing
    from provenance.studio.certifying.stationery import Stationery

BAR = 40
"""Cells of the bar."""
TOLD = 4
"""So many reasons are said, where more prints were refused."""


@dataclass(frozen=True)
class Issuance:
    """What became of the prints that were asked for."""

    outcomes: "tuple[Outcome, ...]"
    left: int
    """How many were not begun: a person stopped it, or the register failed."""
    fault: str = ""
    """What ended it, where nobody stopped it."""

    @property
    def issued(self) -> int:
        """How many certificates were issued."""
        return sum(one.issued is not None for one in self.outcomes)

    def told(self, where: str, keys: Mapping[str, str] | None = None) -> str:
        """What is said afterwards: a line each for what was refused, of many the first.

        `keys` are those that mend something on the page that is gone back to.
        """
        said = [f"{self.issued} issued, in {where}" if self.issued else "None was issued."]
        if self.left:
            said.append(f"{self.left} not begun")
        if self.fault:
            said.append(self.fault)
        refused = [
            f"{problem.record}: {against(problem, keys)}" if keys else str(problem)
            for one in self.outcomes
            for problem in one.problems
        ]
        said += refused[:TOLD]
        if len(refused) > TOLD:
            said.append(f"and {len(refused) - TOLD} more; the page of each print says what")
        return "\n".join(said)


class IssueCertificates(Guarded, ModalScreen[Issuance]):
    """Issues the certificate of each print; escape stops between two of them."""

    DEFAULT_CSS = """
    IssueCertificates { align: left bottom; background: transparent; }
    IssueCertificates Vertical { height: auto; border-top: solid $accent; padding: 1;
                                 background: $background; }
    IssueCertificates #bar { color: $accent; }
    IssueCertificates .answers { color: $quiet; margin-top: 1; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,q", "stop", "stop", show=False),
    ]

    def __init__(self, prints: "Sequence[Owing]", stationery: "Stationery") -> None:
        super().__init__()
        self._prints, self._stationery = tuple(prints), stationery
        self._stopped = False

    def compose(self) -> ComposeResult:
        """Which print, a bar, and what the key means."""
        with Vertical():
            yield Static(id="which", markup=False)
            yield Static(id="bar", markup=False)
            yield Static("esc  stop after this one", classes="answers", markup=False)

    def on_mount(self) -> None:
        """Begin."""
        self.run_worker(self._issue(), group="issue")

    def action_stop(self) -> None:
        """Begin no other."""
        self._stopped = True
        self.query_one(".answers", Static).update("stopping once this one is whole")

    async def _issue(self) -> None:
        from provenance.studio.certifying.batch import certify_each

        app = cast("StudioApp", self.app)
        outcomes: list[Outcome] = []
        fault = ""
        for one in self._prints:
            if self._stopped:
                break
            self._show(one.name, len(outcomes))

            def issue(register: Register, one: "Owing" = one) -> "Outcome":
                return next(certify_each(register, app.folder, [one], self._stationery))

            try:
                outcomes.append(await app.writer.do(issue))
            except ProvenanceError as error:
                fault = str(error)
                break
        self.dismiss(Issuance(tuple(outcomes), len(self._prints) - len(outcomes), fault))

    def _show(self, name: str, done: int) -> None:
        whole = len(self._prints)
        self.query_one("#which", Static).update(f"Issuing {done + 1} of {whole}: {name}")
        full = BAR * done // whole
        self.query_one("#bar", Static).update("▄" * full + "·" * (BAR - full))
