"""Certificates before the validators of archives, and spoilt ones that must not pass."""

import re
import subprocess
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from unittest.mock import patch

from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from provenance.documents.certificate import draw_certificate
from provenance.documents.content import CertificatePage, StudioMark
from provenance.documents.label import draw_labels
from provenance.documents.letter import draw_letter
from provenance.documents.match_sheet import draw_match_sheet
from provenance.documents.page import Attachment
from provenance.documents.pdf import PdfFile
from provenance.documents.roll import draw_roll
from provenance.documents.worksheet import draw_worksheet
from tests.documents import labels, letters, rolls, worksheets
from tests.documents.pages import ORDINARY, page, picture
from tests.tools import need
from tests.validators.verapdf import FLAVOURS, validate

LATIN = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ 0123456789.,;:()&<>/\\%{}’“”–×°µ"
DIACRITICS = "àáâãäåæçèéêëìíîïñòóôõöøùúûüýÿœšžřčďťňěůąęłńśźżőűăâîșțāēīōūḿạảấầẩẫậắặẹẻẽếềểễệ"
GREEK = "αβγδεζηθικλμνξοπρστυφχψωάἀἁἂἃἄἅἆἇὰᾀᾁᾂᾃᾄᾅᾆᾇᾳᾲᾴᾶᾷὠὡὢὣὤὥὦὧῶῳῷ"
CYRILLIC = "абвгдежзийклмнопрстуфхцчшщъыьэюяёіїєґўђћљњќџ"

words = st.text(st.sampled_from(LATIN + DIACRITICS + GREEK + CYRILLIC), min_size=1, max_size=60)
said = words.filter(lambda text: text.strip())
pairs = st.tuples(said, said)
contents = st.builds(
    lambda **changes: page(**changes),
    title=st.one_of(said, st.lists(said, min_size=8, max_size=12).map(" ".join)),
    designation=st.one_of(st.just(""), said),
    artist=said,
    place=st.one_of(st.just(""), said),
    particulars=st.lists(pairs, max_size=9).map(tuple),
    sections=st.lists(
        st.tuples(said, st.lists(pairs, min_size=1, max_size=30).map(tuple)), max_size=4
    ).map(tuple),
    care=st.lists(said, max_size=3).map(tuple),
    page=st.sampled_from(["A4", "letter"]),
    attachments=st.sampled_from([ORDINARY.attachments, ()]),
)
LONG = tuple((heading, sentences * 5) for heading, sentences in ORDINARY.sections)
SHORT_ROWS = page(
    picture_jpeg=picture(1200, 300), picture_px=(1200, 300), particulars=ORDINARY.particulars[:7]
)
"""Particulars two in a row, and one alone in the last."""
CHOSEN = (
    ORDINARY,
    page(page="letter"),
    page(sections=LONG),
    page(sections=LONG, page="letter"),
    page(particulars=(), sections=(), care=(), place="", designation=""),
    page(title="An endless title " * 12),
    page(title="Ἀρχὴ ἥμισυ παντός", artist="Ольга Пример", place="Řečiště, Žďár"),
    replace(SHORT_ROWS, sections=()),
)

ROLLS = {
    "short": rolls.roll(chapters=(rolls.chapter(3),)),
    "long": rolls.roll(chapters=(rolls.chapter(90),), page="letter"),
    "studio": rolls.roll(chapters=(rolls.chapter(30), rolls.chapter(2)), seal="For the heirs."),
    "heirs": rolls.roll(chapters=(replace(rolls.chapter(2), title=""), rolls.chapter(2))),
    "bare": rolls.roll(chapters=(), place="", note="Nothing."),
}

SEALED = page(
    revision=2,
    replaces="Replaces revision 1 of 20 March 2026: a slip of the pen",
    key_sha256="9a" * 32,
    attachments=(
        *ORDINARY.attachments,
        Attachment("record.sig", "application/octet-stream", bytes(64), "Signature", "Supplement"),
        Attachment("studio.pub.pem", "application/x-pem-file", b"key", "Key", "Supplement"),
    ),
)


def drawn(folder: Path, *contents: CertificatePage) -> list[Path]:
    paths = []
    for at, content in enumerate(contents):
        paths.append(folder / f"{at}.pdf")
        paths[-1].write_bytes(draw_certificate(content))
    return paths


def invented(count: int) -> list[CertificatePage]:
    """Contents as hypothesis invents them, always the same."""
    found: list[CertificatePage] = []

    @given(contents)
    @settings(
        max_examples=count,
        derandomize=True,
        database=None,
        deadline=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    def gather(content: CertificatePage) -> None:
        found.append(content)

    gather()
    return found


def test_every_paper_is_fit_for_the_archive_and_for_who_cannot_see_it(tmp_path: Path) -> None:
    paths = drawn(tmp_path, *CHOSEN, *invented(60))
    paths.append(tmp_path / "sealed.pdf")
    paths[-1].write_bytes(draw_certificate(SEALED, None, lambda _: bytes(range(64))))
    for height_mm, size in ((3, (200, 900)), (20, (900, 100))):
        mark = StudioMark(picture(*size), size, height_mm, "Mark of the studio")
        paths.append(tmp_path / f"marked-{height_mm}.pdf")
        paths[-1].write_bytes(draw_certificate(page(mark=mark)))
    for name, held in ROLLS.items():
        paths.append(tmp_path / f"roll-{name}.pdf")
        paths[-1].write_bytes(draw_roll(held))
    paths.append(tmp_path / "labels.pdf")
    paths[-1].write_bytes(draw_labels(labels.sheet(*[labels.ORDINARY] * 3)).pdf)
    for at, told in enumerate((letters.ORDINARY, letters.LONG, letters.letter(picture=None))):
        paths.append(tmp_path / f"letter-{at}.pdf")
        paths[-1].write_bytes(draw_letter(told))
    for at, sheet in enumerate((worksheets.FULL, worksheets.crowded())):
        paths.append(tmp_path / f"worksheet-{at}.pdf")
        paths[-1].write_bytes(draw_worksheet(sheet))
    paths.append(tmp_path / "match.pdf")
    paths[-1].write_bytes(draw_match_sheet(worksheets.MATCH))
    for path, verdict in zip(paths, validate(paths), strict=True):
        assert verdict.broken == {flavour: [] for flavour in FLAVOURS}, path
        assert verdict.holds == dict.fromkeys(FLAVOURS, True)
    for path in paths:
        subprocess.run([need("qpdf"), "--check", path], check=True, capture_output=True)


Spoil = Callable[[bytes], bytes]


def without(pattern: bytes) -> Spoil:
    """Write spaces over what matches, so that everything else stays where it is."""

    def spoil(pdf: bytes) -> bytes:
        spoilt, count = re.subn(pattern, lambda found: b" " * len(found[0]), pdf, flags=re.DOTALL)
        assert count
        return spoilt

    return spoil


def with_other(old: bytes, new: bytes) -> Spoil:
    """Put `new` in place of `old`, of the same length."""

    def spoil(pdf: bytes) -> bytes:
        assert len(old) == len(new)
        assert old in pdf
        return pdf.replace(old, new)

    return spoil


def with_code(old: bytes, new: bytes) -> Spoil:
    """Draw the page anew with other code."""

    def spoil(_: bytes) -> bytes:
        put = PdfFile.put_stream

        def changed(file: PdfFile, data: bytes, entries: bytes = b"", **how: bool) -> int:
            if b"/MCID" in data:
                assert old in data
                data = data.replace(old, new, 1)
            return put(file, data, entries, **how)

        with patch.object(PdfFile, "put_stream", changed):
            return draw_certificate(ORDINARY)

    return spoil


SPOILT: dict[str, tuple[Spoil, str, str]] = {
    "no output intent": (without(rb"/OutputIntents \[.*?\]"), "3a", "6.2.4.3-"),
    "no words for the picture": (without(rb"/Alt <feff[0-9a-f]*>"), "ua1", "7.3-1"),
    "no relation of the attachment": (without(rb"/AFRelationship /Data"), "3a", "6.8-3"),
    "attachment not named": (without(rb"/AF \[[^]]*\]"), "3a", "6.8-"),
    "attachment of no type": (without(rb"/Subtype /application#2Fjson"), "3a", "6.8-1"),
    "an action in JavaScript": (
        with_other(
            b"/ViewerPreferences << /DisplayDocTitle true >>",
            b"/OpenAction << /S /JavaScript /JS (app) >>    ",
        ),
        "3a",
        "6.5.1-1",
    ),
    "no language": (without(rb"/Lang <feff[0-9a-f]*>"), "ua1", "7.2-"),
    "no structure": (without(rb"/StructTreeRoot \d+ 0 R"), "3a", "6.7.3.3-1"),
    "not marked": (without(rb"/MarkInfo << /Marked true >>"), "3a", "6.7.2.2-1"),
    "no title in its bar": (without(rb"/DisplayDocTitle true"), "ua1", "7.1-10"),
    "no ID": (without(rb"/ID \[<\w+> <\w+>\]"), "3a", "6.1.3-1"),
    "other conformance": (
        with_other(b"<pdfaid:conformance>A<", b"<pdfaid:conformance>X<"),
        "3a",
        "6.6.4-",
    ),
    "stream without a last line break": (
        with_other(b"\nendstream", b" endstream"),
        "3a",
        "6.1.7.1-",
    ),
    "more after the end": (lambda pdf: pdf + b"more", "3a", "6.1.3-3"),
    "content that is not marked": (with_code(b"EMC", b"EMC 0 0 9 9 re f"), "ua1", "7.1-3"),
    "a character without a sign": (with_code(b" Tj", b" Tj <fe> Tj"), "3a", "6.2.11.4.1-"),
}
"""How a file is spoilt, the flavour that it must fail, and the clause that must say so."""


def test_every_spoilt_file_fails_by_its_own_clause(tmp_path: Path) -> None:
    pdf = draw_certificate(ORDINARY)
    paths = []
    for at, (spoil, _, _) in enumerate(SPOILT.values()):
        paths.append(tmp_path / f"{at}.pdf")
        paths[-1].write_bytes(spoil(pdf))
    passed = {}
    for (name, (_, flavour, clause)), verdict in zip(SPOILT.items(), validate(paths), strict=True):
        broken = verdict.broken[flavour]
        if verdict.holds[flavour] or not any(rule.startswith(clause) for rule in broken):
            passed[name] = broken
    assert passed == {}
