"""A certificate that is replaced by a corrected one, or withdrawn; why is asked for."""

from collections.abc import Iterable, Sequence

from provenance.craft.history import PrintHistory
from provenance.errors import Conflict, Problem, Refused
from provenance.model.certificate import Certificate
from provenance.records.act import Act
from provenance.records.dossier import print_history
from provenance.records.register import Register
from provenance.screens.issuing import stationery_of
from provenance.screens.widgets.fields import Row, TextField
from provenance.screens.widgets.form import Form
from provenance.studio.daysheet.record import Recorded


class _Why(Form):
    """A form of one line: the reason."""

    ASKED: str
    HINT: str

    def rows(self) -> Iterable[Row]:
        """The reason."""
        yield Row(TextField("reason", self.ASKED, hint=self.HINT))

    @property
    def _reason(self) -> str:
        reason = self.value("reason")
        if not reason:
            raise Refused(Problem("a reason is needed", field="reason", mend=self.HINT))
        return reason


class ReviseCertificate(_Why):
    """Issues the next revision for one print; the one before stays on record."""

    KIND = "revise"
    TITLE = "Revise"
    ASKED = "What was corrected"
    HINT = "it stands on the revision, below its number"

    def __init__(self, certificate: int, print_: int, number: str) -> None:
        super().__init__(about=number, concerns=(certificate, print_))
        self._print = print_
        self._seen: PrintHistory | None = None
        """The print as it was when the form was opened."""

    def opened(self) -> None:
        """Read what the revision is decided on."""
        self._seen = print_history(self.read, self._print)

    async def enter(self) -> Recorded:
        """Issue the revision."""
        reason = self._reason
        stationery = await stationery_of(self.host)
        if stationery is None:
            raise Refused("nothing was issued: the key is still locked")
        from provenance.studio.certifying.certify import Issued, certify

        folder, record, seen = self.host.folder, self._print, self._seen

        def issue(register: Register) -> Issued:
            return certify(
                register, folder, record, seen=seen, revise=reason, stationery=stationery
            )

        try:
            issued = await self.host.writer.do(issue)
        except Conflict:
            self._seen = print_history(self.read, record)
            raise
        said = f"issued: {issued.number}, revision {issued.revision}, {issued.path}"
        self.host.news = said
        return Recorded(act=0, entered=(said,), entries=2)


class WithdrawCertificates(_Why):
    """Withdraws certificates, all for one reason; they stay on record with it."""

    KIND = "withdraw"
    TITLE = "Withdraw"
    ASKED = "Why it no longer stands"
    HINT = "the print was destroyed; the numbers were mistaken"

    def __init__(self, certificates: Sequence[int], numbers: Sequence[str]) -> None:
        named = numbers[0] if len(numbers) == 1 else f"{len(numbers)} certificates"
        super().__init__(about=named, concerns=certificates)
        self._certificates = tuple(certificates)

    async def enter(self) -> Recorded:
        """Withdraw them in one act."""
        reason = self._reason
        from provenance.studio.certifying.revisions import withdraw

        numbers = [self.read.get(Certificate, one).body.number for one in self._certificates]

        def work(act: Act) -> None:
            for number in numbers:
                withdraw(act, number, reason)

        await self.host.act(work)
        said = tuple(f"withdrew {number}" for number in numbers)
        return Recorded(act=self.host.acts[-1], entered=said, entries=len(numbers))
