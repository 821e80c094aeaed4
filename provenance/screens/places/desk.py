"""Desk: what is away, what could go, certificates, disclosure; and questions."""

from collections.abc import Iterable

from textual.widget import Widget
from textual.widgets import Static

from provenance.model.certificate import Certificate
from provenance.model.edition import Edition
from provenance.model.prints import Print
from provenance.records.newest import newest
from provenance.screens.actions import with_keys
from provenance.screens.bindings import shown_key
from provenance.screens.dialogs.custody import RecordCustody
from provenance.screens.dialogs.question import Question
from provenance.screens.dialogs.revise import ReviseCertificate, WithdrawCertificates
from provenance.screens.frame import Frame, Rule
from provenance.screens.places.answer_page import AnswerPage
from provenance.screens.places.desk_about import about_certificate, about_edition, about_print
from provenance.screens.places.disclosure_page import DisclosurePage
from provenance.screens.places.roll_page import RollPage
from provenance.screens.widgets.record_table import RecordTable
from provenance.screens.widgets.tables import CERTIFICATES, DISCLOSURE, WHERE
from provenance.screens.widgets.tabs import Tabs
from provenance.studio.desk_rows import (
    AWAY,
    HERE,
    CertificateRows,
    DisclosureRows,
    WhereRows,
    asked_about,
    edition_of,
)
from provenance.studio.handover.last_backup import backup_due

LISTS = ("away", "here", "certificates", "disclosure")


class Desk(Frame):
    """One list at a time; left and right go from one to the next."""

    WHERE = "desk"
    DEFAULT_CSS = """
    Desk Tabs { margin-bottom: 1; }
    Desk RecordTable { display: none; }
    Desk RecordTable.shown { display: block; }
    Desk #more { height: 3; color: $quiet; }
    """

    def __init__(self) -> None:
        super().__init__()
        self._at = 0

    def content(self) -> Iterable[Widget]:
        """The names of the lists, one of them, and more about what the cursor is on."""
        register = self.studio.register
        keyed = {one.name: shown_key(one.key) for one in with_keys(self.studio.settings.keys)}
        yield Tabs(f"{keyed['list_before']} {keyed['next_list']}")
        sources = {
            "away": (WhereRows(register, AWAY), WHERE, "Every print on record is in the studio."),
            "here": (WhereRows(register, HERE), WHERE, "No numbered and signed print lies here."),
            "certificates": (CertificateRows(register), CERTIFICATES, "None was issued yet."),
            "disclosure": (DisclosureRows(register), DISCLOSURE, "There is no edition yet."),
        }
        for name, (source, columns, empty) in sources.items():
            yield RecordTable(
                source, columns, empty=empty, marks=name != "disclosure", id=f"desk-{name}"
            )
        yield Rule(id="between")
        yield Static(id="more", markup=False)

    def on_mount(self) -> None:
        """Begin with the first list that holds something."""
        super().on_mount()
        tables = list(self.query(RecordTable))
        self._at = next((at for at, table in enumerate(tables) if table.count), 0)
        self._show()

    def refresh_content(self) -> None:
        """Read every list anew."""
        due = backup_due(self.studio.folder, self.studio.register.clock().local_date())
        self.headline("Desk", due.line if due else "", self.studio.studio_name)
        for table in self.query(RecordTable):
            table.reload()
        self._tell()

    @property
    def _list(self) -> str:
        return LISTS[self._at]

    @property
    def _table(self) -> RecordTable:
        return self.query_one(f"#desk-{self._list}", RecordTable)

    def _show(self) -> None:
        for table in self.query(RecordTable):
            table.set_class(table is self._table, "shown")
        self._table.focus()
        self._tell()

    def _tell(self) -> None:
        counted = [(name, self.query_one(f"#desk-{name}", RecordTable).count) for name in LISTS]
        self.query_one(Tabs).show(counted, self._at)
        record, more = self._table.cursor, ""
        if record is not None:
            reader, folder = self.studio.register.read, self.studio.folder
            if self._list == "certificates":
                more = about_certificate(reader, record)
            elif self._list == "disclosure":
                more = about_edition(reader, record)
            else:
                more = about_print(reader, folder, record)
        self.query_one("#more", Static).update(more)
        self.query_one("#between").display = bool(more)
        self.refresh_bindings()

    def action_next_list(self) -> None:
        """The list to the right."""
        self._at = (self._at + 1) % len(LISTS)
        self._show()

    def action_list_before(self) -> None:
        """The list to the left."""
        self._at = (self._at - 1) % len(LISTS)
        self._show()

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """Keys stand in the line where they do something."""
        if not self.is_mounted:
            return True
        if action in ("withdraw_marked", "revise_one", "copy_certificate"):
            return self._list == "certificates"
        if action == "custody":
            return self._list in ("away", "here")
        return True

    def on_record_table_moved(self) -> None:
        """Say more about what the cursor is on."""
        self._tell()

    def on_record_table_arranged(self) -> None:
        """A list was read."""
        self._tell()

    def on_record_table_opened(self, message: RecordTable.Opened) -> None:
        """Open a print, a certificate, or the answers of an edition."""
        if self._list == "disclosure":
            self.studio.push_screen(DisclosurePage(message.record))
        else:
            self.studio.go_to(message.record)

    def on_record_table_failed(self, message: RecordTable.Failed) -> None:
        """The register could not be read."""
        self.say(str(message.error))

    def _done(self, saved: object) -> None:
        if saved:
            self._table.clear_marks()

    def action_custody(self) -> None:
        """Enter what happened to the marked prints."""
        if chosen := self._table.marked_in_order():
            self.studio.push_screen(RecordCustody(chosen), self._done)
        else:
            self.say("There is no print in this list.")

    def action_withdraw_marked(self) -> None:
        """Withdraw the marked certificates that are in force."""
        if held := self._in_force():
            self.studio.push_screen(
                WithdrawCertificates([one for one, _body in held], [b.number for _id, b in held]),
                self._done,
            )

    def action_revise_one(self) -> None:
        """Issue the certificate under the cursor anew."""
        if held := self._in_force():
            record, body = held[0]
            self.studio.push_screen(ReviseCertificate(record, body.print, body.number), self._done)

    def _in_force(self) -> list[tuple[int, Certificate]]:
        reader = self.studio.register.read
        chosen = [(one, reader.get(Certificate, one).body) for one in self._table.marked_in_order()]
        held = [(one, body) for one, body in chosen if body.state == "issued"]
        if not held:
            self.say("No certificate in force is chosen.")
        return held

    def action_copy_certificate(self) -> None:
        """Copy where the certificate under the cursor lies."""
        record = self._table.cursor
        if record is not None:
            body = self.studio.register.read.get(Certificate, record).body
            path = str(self.studio.folder.certificates / body.file_name)
            self.studio.copy_to_clipboard(path)
            self.say(f"copied: {path}")

    def action_edition_list(self) -> None:
        """The list of the edition that the cursor leads to."""
        record = self._table.cursor
        edition = edition_of(self.studio.register.read, record) if record is not None else None
        if edition is None:
            self.say("There is no edition under the cursor.")
            return
        self.studio.push_screen(RollPage(edition))

    def action_heirs_page(self) -> None:
        """What an heir has to know of the whole studio."""
        if newest(self.studio.register.read, Edition) is None:
            self.say("There is no edition on record yet.")
            return
        self.studio.push_screen(RollPage(None))

    def action_question(self) -> None:
        """Ask about a print."""

        def go(record: int | None) -> None:
            if record is not None:
                about = asked_about(self.studio.register.read, record)
                held = self.studio.register.read.find(about)
                if held is not None and isinstance(held.body, Print):
                    self.studio.push_screen(AnswerPage(about))
                else:
                    self.studio.go_to(about)

        self.studio.push_screen(Question(), go)
