"""Issues a certificate: one function for a person, whole or not at all."""

import hashlib
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from msgspec.structs import replace

from provenance.craft.history import PrintHistory
from provenance.craft.issuing import obstacles, print_name
from provenance.documents.certificate import draw_certificate
from provenance.documents.content import CertificatePage, StudioMark
from provenance.errors import Conflict, Problem, Refused
from provenance.model.certificate import Certificate, IssuedClaim, Page
from provenance.model.check_characters import with_check_characters
from provenance.records.act import Act
from provenance.records.clock import Moment
from provenance.records.dossier import print_history
from provenance.records.entry import digest, encode
from provenance.records.files import write_whole
from provenance.records.images import load_thumbnail
from provenance.records.register import Register
from provenance.studio.certifying.attached import attachments
from provenance.studio.certifying.changes import Change, Spoken, changes, on_the_page
from provenance.studio.certifying.code import code_text
from provenance.studio.certifying.particulars import edition_today, particulars
from provenance.studio.certifying.record import certificate_record
from provenance.studio.certifying.revisions import Replaced, kept_record, replaced_by
from provenance.studio.certifying.statement import boasts, worded
from provenance.studio.certifying.stationery import Stationery, gather
from provenance.studio.editions.disclosing import open_items
from provenance.studio.folder import StudioFolder, make_folders
from provenance.studio.keys.ring import Ask


@dataclass(frozen=True)
class Issued:
    """A certificate that was issued."""

    record: int
    number: str
    revision: int
    path: Path
    pdf: bytes
    claims: tuple[IssuedClaim, ...]


def certify(
    register: Register,
    folder: StudioFolder,
    print_id: int,
    *,
    who: str | None = None,
    page: Page | None = None,
    seen: PrintHistory | None = None,
    revise: str | None = None,
    duplicate: bool = False,
    ask: Ask | None = None,
    stationery: Stationery | None = None,
) -> Issued:
    """Issue a certificate for a print; sealed, where the studio has a key.

    `revise` says what was corrected: the revision takes the place of the
    certificate in force, which stays on record.  With `duplicate` it is said to
    stand for a paper that is lost, and `revise` says how.  `ask` asks a person for the
    passphrase of the key.  Who issues many gives their `stationery`.

    The evidence is read, the page drawn and the file written while the register
    is held, so that none of it can change meanwhile.  `seen` is the history
    that a person decided on: Raises Conflict when it has changed since.  Raises
    Refused with every obstacle and what would mend it.
    """
    held = stationery or gather(folder, ask)
    with register.act(who or held.settings.who) as act:
        history = print_history(act, print_id)
        name = print_name(history)
        if seen is not None and seen != history:
            raise Conflict(
                Problem(
                    what="its record has changed since it was read",
                    record=name,
                    mend="read the statement again, then certify",
                )
            )
        replaced = None if revise is None else replaced_by(history, name, revise)
        problems = [
            *(
                problem
                for problem in obstacles(history, held.rules)
                if replaced is None or problem.field != "certificate"
            ),
            *boasts(worded(history, held.wording), name),
            *open_items(act, folder, history, held.settings.disclosure),
        ]
        if problems:
            raise Refused(*problems)
        return _Draft(
            act,
            folder,
            history,
            stationery=held,
            page=page or held.settings.page,
            replaced=replaced,
            duplicate=duplicate,
        ).issue()


class _Draft:
    """One certificate in the making."""

    def __init__(
        self,
        act: Act,
        folder: StudioFolder,
        history: PrintHistory,
        *,
        stationery: Stationery,
        page: Page,
        replaced: Replaced | None,
        duplicate: bool,
    ) -> None:
        self._duplicate = duplicate
        self._act, self._folder, self._history = act, folder, history
        self._settings, self._wording = stationery.settings, stationery.wording
        self._layout, self._mark = stationery.layout, stationery.mark
        self._signer = stationery.signer
        self._page: Page = page
        self._moment: Moment = act.moment
        self._head = act.head()
        self._replaced = replaced
        if replaced is None:
            self._number = _next_number(act, history.studio.body.mark, self._moment)
            self._revision = 1
        else:
            self._number = replaced.certificate.body.number
            self._revision = replaced.certificate.body.revision + 1
        self._claims = worded(history, self._wording)
        self._today = edition_today(act, history)

    def issue(self) -> Issued:
        """Draw the page, write the record and the page, enter the certificate."""
        told = certificate_record(
            self._act,
            self._history,
            self._today,
            self._claims,
            number=self._number,
            revision=self._revision,
            issued_at=self._moment.at,
            head=self._head,
            key_sha256=self._signer.public.fingerprint if self._signer else None,
            studio_mark_sha256=self._mark.sha256 if self._mark else None,
        )
        changed = self._changed(told)
        if self._replaced is not None:
            told["certificate"]["replaces"] = self._replaced.as_data(changed)
        record = encode(told)
        pdf = draw_certificate(
            self._content(record, changed),
            self._layout,
            self._signer.sign if self._signer else None,
        )
        make_folders(self._folder)
        later = "" if self._revision == 1 else f".r{self._revision}"
        path = self._folder.certificates / f"{self._number}{later}.pdf"
        write_whole(path.with_suffix(".json"), record)
        write_whole(path, pdf)
        self._supersede()
        held = self._act.enter(
            Certificate(
                number=self._number,
                revision=self._revision,
                print=self._history.print.id,
                issued_at=self._moment.at,
                page=self._page,
                language=self._wording.language,
                statement=self._claims,
                record_sha256=digest(record),
                pdf_sha256=hashlib.sha256(pdf).hexdigest(),
                file_name=path.name,
                head_seq=self._head[0],
                head_sha256=self._head[1],
                duplicate=self._duplicate,
            )
        )
        return Issued(held, self._number, self._revision, path, pdf, self._claims)

    def _changed(self, told: dict[str, Any]) -> tuple[Change, ...]:
        """What it says otherwise than the revision that it replaces."""
        if self._replaced is None:
            return ()
        spoken = Spoken(self._wording, self._layout, self._settings.units)
        old = kept_record(self._folder, self._replaced.certificate.body)
        return changes(old, told, spoken)

    def _supersede(self) -> None:
        if self._replaced is not None:
            old = self._replaced.certificate
            body = replace(old.body, state="superseded", state_why=self._replaced.why)
            self._act.change(old.id, old.version, body)

    def _content(self, record: bytes, changed: tuple[Change, ...]) -> CertificatePage:
        record_sha256 = digest(record)
        history, wording, layout = self._history, self._wording, self._layout
        body, studio, units = history.print.body, history.studio.body, self._settings.units
        scan = history.scans[-1].body
        issued_on = str(self._moment.local_date())
        values = particulars(history, self._today, wording, units, issued_on)
        return CertificatePage(
            title=history.negative.body.title,
            designation=body.designation or "",
            artist=studio.artist,
            place=", ".join(filter(None, (studio.name, studio.place))),
            picture_jpeg=load_thumbnail(self._folder.images, scan.thumbnail_sha256),
            picture_px=(scan.thumbnail_width_px, scan.thumbnail_height_px),
            picture_caption=wording.phrase(
                "caption",
                image=wording.size(body.image, units),
                sheet=wording.size(body.sheet, units),
            ),
            particulars=tuple(
                (layout.particular_labels[name], values[name])
                for name in layout.particulars
                if values[name]
            ),
            sections=tuple(
                (layout.labels[label], said)
                for section, label in _SECTION_LABELS.items()
                if (said := self._section(section))
            ),
            care=wording.advice(history.paper.body.base if history.paper else None),
            number=self._number,
            revision=self._revision,
            replaces=self._replaces(),
            changed=on_the_page(changed, layout) if self._replaced else "",
            mark=self._studio_mark(),
            key_sha256=self._signer.public.fingerprint if self._signer else "",
            record_sha256=record_sha256,
            journal_head_seq=self._head[0],
            journal_head_sha256=self._head[1],
            journal_note=wording.phrase("journal_note"),
            issued_on=wording.date(issued_on),
            issued_at_utc=self._moment.utc(),
            labels=layout.labels,
            code=code_text(self._number, record_sha256, self._settings.address),
            attachments=attachments(record, self._signer, layout),
            page=self._page,
            language=wording.language,
        )

    def _replaces(self) -> str:
        if self._replaced is None:
            return ""
        old, why = self._replaced.certificate, self._replaced.why
        day = self._wording.date(str(old.entered_on))
        label = self._layout.labels["duplicate" if self._duplicate else "replaces"]
        said = label.replace("{revision}", str(old.body.revision))
        # The reason comes last: what a person typed is never searched for words in braces.
        return said.replace("{day}", day).replace("{why}", why)

    def _studio_mark(self) -> StudioMark | None:
        place, mark = self._layout.mark, self._mark
        if place is None or mark is None:
            return None
        label = self._layout.labels["studio_mark"]
        said = label.replace("{studio}", self._history.studio.body.name)
        return StudioMark(mark.jpeg, mark.px, place.height_mm, said)

    def _section(self, section: str) -> tuple[tuple[str, str], ...]:
        return tuple(
            (claim.sentence, self._wording.standing(claim.standing))
            for claim in self._claims
            if claim.section == section
        )


_SECTION_LABELS = {"made": "how_made", "tested": "tested", "unknown": "not_known"}


def _next_number(act: Act, mark: str, moment: Moment) -> str:
    (issued,) = act.connection.execute(
        "SELECT count(*) FROM record WHERE kind = 'certificate'"
        " AND coalesce(code, '') NOT GLOB '*.r*'"
    ).fetchone()
    return with_check_characters(f"{mark}-{moment.local_date().year}-{issued + 1:04d}")
