"""A print's life, top to bottom, and what a certificate would say of it today."""

from collections.abc import Iterable, Mapping, Sequence

from textual.containers import Horizontal
from textual.widget import Widget

from provenance.craft.history import Fact
from provenance.errors import ProvenanceError
from provenance.model.certificate import Certificate
from provenance.records.register import Register
from provenance.screens.actions import with_keys
from provenance.screens.bindings import shown_key
from provenance.screens.dialogs.ask import Ask
from provenance.screens.dialogs.revise import ReviseCertificate, WithdrawCertificates
from provenance.screens.issuing import stationery_of
from provenance.screens.mended import against
from provenance.screens.places.answer_page import AnswerPage
from provenance.screens.places.evidence_page import EvidencePage
from provenance.screens.places.history_page import HistoryPage
from provenance.screens.places.print_deeds import PrintDeeds
from provenance.screens.widgets.line_list import Line, LineList
from provenance.screens.widgets.picture import Picture
from provenance.screens.words import in_short
from provenance.studio.print_view import PrintView, view_print

_STATES = {
    "w": "at work",
    "p": "tested",
    "n": "signed",
    "c": "certified",
    "r": "released",
    "x": "gone",
}
_SECTIONS = {
    "made": "how it was made",
    "tested": "what was tested",
    "unknown": "what is not known",
}


class PrintPage(PrintDeeds):
    """One print: everything on record, each entry with its standing."""

    WHERE = "print"

    def __init__(self, record: int) -> None:
        super().__init__()
        self.record = record
        self._view: PrintView | None = None
        self._standings: dict[Line, str] = {}
        """What the short words at the right edge stand for."""

    @property
    def chosen(self) -> Sequence[int]:
        """The print itself."""
        return (self.record,)

    def content(self) -> Iterable[Widget]:
        """The life and the statement, in one list to be read from top to bottom."""
        with Horizontal():
            yield LineList(lead_width=11, id="life")
            yield Picture(columns=32, rows=20, id="picture")

    def refresh_content(self) -> None:
        """Read the print anew."""
        view = view_print(self.studio.register.read, self.studio.folder, self.record)
        self._view = view
        history = view.history
        body = history.print.body
        self.headline(
            f"{history.edition.body.code} {body.designation or body.mark}",
            f"{history.negative.body.title}   back: {body.mark}, pencil",
            _STATES[view.state],
        )
        self.query_one(Picture).show_print(self.studio, self.record)
        self._standings.clear()
        lines = [*self._life(view), *self._statement(view), *_against(view, self._keys)]
        self.query_one(LineList).show(lines)

    @property
    def _keys(self) -> dict[str, str]:
        """The key of each action, as it is printed on the keyboard."""
        return {one.name: shown_key(one.key) for one in with_keys(self.studio.settings.keys)}

    def action_evidence(self) -> None:
        """Go to the records behind the line under the cursor."""
        line = self.query_one(LineList).current
        if line is None or not line.records:
            self.say("No record stands behind this line; it says what is missing.")
            return
        self.studio.push_screen(EvidencePage(line.text, self._standings[line], line.records))

    def action_answer_of(self) -> None:
        """What a collector is told of this print."""
        self.studio.push_screen(AnswerPage(self.record))

    async def action_return(self) -> None:
        """Back to the edition, or wherever the print was opened from."""
        await self.studio.action_back()

    def action_history(self) -> None:
        """Every version of this print's record."""
        self.studio.push_screen(HistoryPage(self.record))

    def action_copy_path(self) -> None:
        """Copy where the certificate in force lies, through the terminal (OSC 52)."""
        path = self._certificate_path()
        if path is None:
            self.say("There is no certificate in force.")
            return
        self.studio.copy_to_clipboard(path)
        self.say(f"copied: {path}")

    def _certificate_path(self) -> str | None:
        held = self._in_force
        return str(self.studio.folder.certificates / held.body.file_name) if held else None

    @property
    def _in_force(self) -> Fact[Certificate] | None:
        held = self._view.history.certificates if self._view else ()
        return next((one for one in reversed(held) if one.body.state == "issued"), None)

    def action_revise(self) -> None:
        """Issue the next revision of the certificate in force."""
        if held := self._in_force_or_say():
            self.studio.push_screen(ReviseCertificate(held.id, self.record, held.body.number))

    def action_withdraw(self) -> None:
        """Withdraw the certificate in force."""
        if held := self._in_force_or_say():
            self.studio.push_screen(WithdrawCertificates([held.id], [held.body.number]))

    def _in_force_or_say(self) -> Fact[Certificate] | None:
        held = self._in_force
        if held is None:
            self.say("There is no certificate in force.")
        return held

    def action_certify(self) -> None:
        """Issue the certificate, or say what stands against it."""
        self.run_worker(self._certify(), exclusive=True)

    async def _certify(self) -> None:
        view = self._view
        if view is None:
            return
        if view.obstacles:
            self.say("\n".join(against(problem, self._keys) for problem in view.obstacles))
            return
        # the question comes first: no passphrase is asked for what nobody wants
        if not await self.studio.push_screen_wait(
            Ask(
                f"Issue a certificate of {len(view.statement)} sentences, as shown here?",
                yes="issue it",
            )
        ):
            return
        folder, record, seen = self.studio.folder, self.record, view.history
        try:
            stationery = await stationery_of(self.studio)
            if stationery is None:
                self.say("Nothing was issued: the key is still locked.")
                return
            # loads what draws pages: only when a certificate is asked for
            from provenance.studio.certifying.certify import certify

            def issue(register: Register) -> str:
                issued = certify(register, folder, record, seen=seen, stationery=stationery)
                return str(issued.path)

            path = await self.studio.writer.do(issue)
        except ProvenanceError as error:
            self.refresh_content()
            self.say(str(error))
            return
        self.refresh_content()
        self.say(f"issued: {path}   {self._keys['copy_path']} copies this")

    def _standing(self, line: Line, standing: str) -> Line:
        self._standings[line] = standing
        return line

    def _life(self, view: PrintView) -> Iterable[Line]:
        day = ""
        for one in view.life:
            shown = one.day if one.day != day else ""
            day = one.day
            right = in_short(one.standing)
            line = Line(one.what, lead=shown, right=right, records=one.records)
            yield self._standing(line, str(one.standing or ""))

    def _statement(self, view: PrintView) -> Iterable[Line]:
        yield Line("", heading=True)
        yield Line("what a certificate would say today", heading=True)
        section = ""
        for claim in view.statement:
            if claim.section != section:
                section = claim.section
                yield Line(_SECTIONS[section], heading=True, quiet=True)
            right = in_short(claim.standing)
            line = Line(claim.sentence, right=right, records=claim.evidence, wide=True)
            yield self._standing(line, str(claim.standing))


def _against(view: PrintView, keys: Mapping[str, str]) -> Iterable[Line]:
    if view.obstacles:
        yield Line("", heading=True)
        yield Line("what stands against certifying it", heading=True)
        for problem in view.obstacles:
            yield Line(against(problem, keys), wide=True)
