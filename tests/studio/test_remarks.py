"""What certificates remark: replacements, posthumous prints, approval, counting, rights."""

import io
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pypdf
import pytest

from provenance.model.prints import Approval
from provenance.studio.certifying.certify import certify
from provenance.studio.certifying.remarks import remark_words
from provenance.studio.certifying.revisions import changes_of, kept_record
from provenance.studio.wordings import load_wording
from tests.studio.finished import Desk, another, desk
from tests.studios import revise

PLAIN: dict[str, Any] = {"posthumous": False, "approved": None, "counted": None, "replaces": None}


@pytest.fixture
def studio(tmp_path: Path) -> Iterator[Desk]:
    held = desk(tmp_path / "studio")
    yield held
    held.register.close()


def text(pdf: bytes) -> str:
    pages = pypdf.PdfReader(io.BytesIO(pdf)).pages
    return " ".join(" ".join(page.extract_text() for page in pages).split())


def test_a_replacement_says_so_on_its_certificate(studio: Desk) -> None:
    gone = {"gone_on": "2031-05-01", "gone_why": "burnt", "gone_evidence": "seen"}
    revise(studio.register, studio.print, existence="destroyed", **gone)
    new = another(studio, "Q8", "8/25")
    revise(studio.register, new, replaces=studio.print, designation="7/25")
    revise(studio.register, studio.shelf.edition, rights="stay")
    page = text(certify(studio.register, studio.folder, new).pdf)
    assert (
        "Takes the place of an earlier print of this number, which was destroyed (1 May 2031);"
        " Rights of reproduction do not pass with the print" in page
    )


def test_an_ordinary_print_has_no_remarks(studio: Desk) -> None:
    assert "Remarks" not in text(certify(studio.register, studio.folder, studio.print).pdf)


def test_a_duplicate_and_what_a_revision_remarks_anew(studio: Desk) -> None:
    certify(studio.register, studio.folder, studio.print)
    revise(studio.register, studio.print, approved=Approval(on="2031-03-10"))
    again = certify(
        studio.register, studio.folder, studio.print, revise="left in a train", duplicate=True
    )
    assert "Duplicate; the paper of revision 1 of" in text(again.pdf)
    assert "is lost: left in a train" in text(again.pdf)
    held = studio.register.read.find(again.record)
    assert held is not None
    (changed,) = changes_of(kept_record(studio.folder, held.body))  # type: ignore[arg-type]
    assert (changed.topic, changed.after) == ("remarks", "Approved by the artist, 10 March 2031")


@pytest.mark.parametrize(
    ("print_", "edition", "said"),
    [
        ({}, {}, ""),
        ({"posthumous": True}, {}, "Posthumous: printed after the artist’s death"),
        ({"posthumous": None}, {}, "Printed about the time of the artist’s death;"),
        ({"replaces": {"existence": "spoiled", "gone_on": None}}, {}, "which was spoiled"),
        (
            {"approved": {"by": "other", "role": "the estate", "on": "2031-05"}},
            {},
            "Approved by the estate, not by the artist, May 2031",
        ),
        ({"counted": "outside"}, {}, "Not counted within the declared total"),
        ({"counted": "inside"}, {}, "Counted within the declared total"),
        ({}, {"rights": "pass"}, "Rights of reproduction pass with the print"),
        ({}, {"disclosed": "A large one, 1998."}, "“A large one, 1998.”"),
    ],
)
def test_each_remark(
    studio: Desk, print_: dict[str, Any], edition: dict[str, Any], said: str
) -> None:
    english, french = (load_wording(studio.folder, language) for language in ("en", "fr"))
    told = remark_words(PLAIN | print_, edition, english)
    assert said in told
    assert bool(told) == bool(said)
    assert bool(remark_words(PLAIN | print_, edition, french)) == bool(said)
