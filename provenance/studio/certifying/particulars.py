"""The particulars of a certificate: what the sheet is, beside how it was treated."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import msgspec

from provenance.craft.history import PrintHistory
from provenance.craft.wording import Wording
from provenance.model.chemistry import TONERS
from provenance.model.edition import Edition
from provenance.model.evidence import Term
from provenance.model.negative import Negative
from provenance.model.paper import Paper
from provenance.model.prints import Signature, on_the_back
from provenance.model.quantity_text import Units
from provenance.records.reader import Reader
from provenance.studio.certifying.remarks import remark_words, standing_of_print
from provenance.studio.editions.counts import count_edition


@dataclass(frozen=True)
class EditionToday:
    """How far an edition has come, and the other editions of its negative."""

    given: int
    """Impressions on record that count towards what was declared; a print and its
    replacement are one, and unnumbered ones are counted singly."""
    declared: int
    others: tuple[Edition, ...]


def edition_today(reader: Reader, history: PrintHistory) -> EditionToday:
    """The edition of a print as the register has it now."""
    counts = count_edition(reader, reader.get(Edition, history.edition.id))
    others = tuple(other.body for other in counts.others)
    return EditionToday(counts.edition.given, history.edition.body.declared, others)


def particulars(
    history: PrintHistory, today: EditionToday, wording: Wording, units: Units, issued_on: str
) -> dict[str, str]:
    """The value of each particular, by its name in the layout; empty where there is none."""
    body, edition = history.print.body, history.edition.body
    return {
        "process": wording.phrase("process", toners=_toners(history, wording)),
        "paper": paper_words(history.paper.body if history.paper else None, wording),
        "negative": negative_words(history.negative.body, wording, units),
        "printed": wording.phrase(
            "printed",
            day=wording.date(history.printing.body.done_on),
            printer=history.printing.body.printer,
        ),
        "edition_promised": promise_words(msgspec.structs.asdict(edition), wording),
        "edition_today": wording.phrase(
            "today", given=today.given, declared=today.declared, day=wording.date(issued_on)
        ),
        "signed": signature_words(body.signature, wording),
        "marked": mark_words(body.mark, body.designation, body.inscriptions, wording),
        "other_editions": _others(today, wording, units),
        "remarks": remark_words(
            standing_of_print(history), msgspec.structs.asdict(edition), wording
        ),
    }


def promise_words(edition: Mapping[str, Any], wording: Wording) -> str:
    """What was promised of an edition, whose fields are given by name."""
    proofs = ("artist_proofs", "printers_proofs", "hors_commerce", "unnumbered")
    return wording.phrase(
        "promised",
        promise=edition["promise"],
        numbered=edition["numbered"],
        **{name: str(edition[name] or "") for name in proofs},
    )


def negative_words(negative: Negative, wording: Wording, units: Units) -> str:
    """Code, date, format and state of a negative."""
    return wording.phrase(
        "negative",
        code=negative.code,
        made=wording.date(negative.made) if negative.made else "",
        format=wording.size(negative.format, units) if negative.format else "",
        state=Term("negative_state", negative.state),
    )


def paper_words(paper: Paper | None, wording: Wording) -> str:
    """Base, qualities, maker and batch of a paper; empty where it is not on record."""
    if paper is None:
        return ""
    text = wording.phrase(
        "paper",
        base=Term("base_explained", paper.base),
        qualities=tuple(filter(None, (paper.weight, paper.surface, paper.tone))),
        maker=paper.maker,
        batch=paper.batch,
    )
    return text[:1].upper() + text[1:]


def signature_words(signature: Signature | None, wording: Wording) -> str:
    """How a print is signed; empty where it is not."""
    if signature is None:
        return ""
    name = "signed"
    if signature.means != "hand":
        name = f"signed.{signature.means}"
    elif signature.by != "artist":
        name = "signed.other"
    return wording.phrase(
        name, medium=signature.medium, where=signature.where, day=wording.date(signature.on)
    )


def mark_words(mark: str, designation: str | None, inscriptions: str, wording: Wording) -> str:
    """What is written on a print beside number and signature; empty where nothing is on record."""
    pencilled = on_the_back(mark, designation)
    if not pencilled:
        return inscriptions
    return wording.phrase("marked", mark=pencilled, inscriptions=inscriptions)


def _toners(history: PrintHistory, wording: Wording) -> str:
    roles = dict.fromkeys(step.body.role for step in history.steps if step.body.role in TONERS)
    names = [wording.term("toner", role) for role in roles]
    return wording.listed(names)


def _others(today: EditionToday, wording: Wording, units: Units) -> str:
    editions = tuple(
        wording.phrase("other_edition", name=other.name, image=wording.size(other.image, units))
        for other in today.others
    )
    if not editions:
        return wording.term("gap", "no other editions")
    return wording.phrase("other_editions", editions=editions)
