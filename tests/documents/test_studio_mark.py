"""The studio's own mark on the page: where it stands, and how large."""

import io
import re
import subprocess
from pathlib import Path

import pypdf
import pytest

from provenance.documents.certificate import draw_certificate
from provenance.documents.content import CertificatePage, StudioMark
from provenance.documents.page import MM
from tests.documents.pages import ORDINARY, page, picture
from tests.tools import need

SIZE_MM = {"A4": (210, 297), "letter": (215.9, 279.4)}


def marked(px: tuple[int, int] = (400, 200), height_mm: float = 8, **other: object) -> StudioMark:
    fields = {"jpeg": picture(*px), "px": px, "height_mm": height_mm, "alternative": "A lantern"}
    return StudioMark(**(fields | other))  # type: ignore[arg-type]


def leaf(content: CertificatePage) -> pypdf.PageObject:
    (only,) = pypdf.PdfReader(io.BytesIO(draw_certificate(content)), strict=True).pages
    return only


def box_mm(drawn: pypdf.PageObject) -> tuple[float, float, float, float]:
    """Width, height, left and lower edge of the first picture of the page, which is the mark."""
    code = drawn.get_contents()
    assert code is not None
    found = re.search(rb"([\d.]+) 0 0 ([\d.]+) ([\d.]+) ([\d.]+) cm\s+/\S+ Do", code.get_data())
    assert found is not None
    wide, high, left, low = (float(one) / MM for one in found.groups())
    return wide, high, left, low


@pytest.mark.parametrize("size", ["A4", "letter"])
@pytest.mark.parametrize(
    ("px", "height_mm", "seen_mm"),
    [((400, 200), 8, (16, 8)), ((200, 200), 20, (20, 20)), ((100, 400), 3, (0.75, 3))],
)
def test_it_stands_at_the_right_of_the_head_in_true_proportion(
    size: str, px: tuple[int, int], height_mm: float, seen_mm: tuple[float, float]
) -> None:
    wide, high, left, low = box_mm(leaf(page(page=size, mark=marked(px, height_mm))))
    assert (wide, high) == pytest.approx(seen_mm, abs=0.01)
    whole_mm = SIZE_MM[size]
    assert left + wide == pytest.approx(whole_mm[0] - 25, abs=0.01)
    assert whole_mm[1] - 25 - low - high == pytest.approx(0, abs=1)


def test_a_wide_one_leaves_the_name_its_room() -> None:
    wide, high, left, _ = box_mm(leaf(page(mark=marked((1200, 100), 20))))
    assert wide / high == pytest.approx(12, rel=0.001)
    assert left > 210 / 2


def test_the_name_of_the_studio_stays_beside_it() -> None:
    ends = list[float]()

    def note(said: str, _: object, matrix: list[float], *__: object) -> None:
        if said.strip() == ORDINARY.place:
            ends.append(matrix[4] / MM)

    for mark in (None, marked()):
        leaf(page(mark=mark)).extract_text(visitor_text=note)
    assert ends[0] - ends[1] == pytest.approx(16 + 4.5, abs=0.1)


@pytest.mark.parametrize("size", ["A4", "letter"])
def test_an_ordinary_print_still_fits_one_page(size: str) -> None:
    text = " ".join(leaf(page(page=size, mark=marked(height_mm=20))).extract_text().split())
    assert ORDINARY.title in text
    assert ORDINARY.journal_note in text


def test_it_has_words_for_who_cannot_see_it(tmp_path: Path) -> None:
    pdf = draw_certificate(page(mark=marked()))
    assert b"/Alt <feff" + "A lantern".encode("utf-16-be").hex().encode() in pdf
    (tmp_path / "c.pdf").write_bytes(pdf)
    told = subprocess.run(
        [need("pdfinfo"), "-struct-text", tmp_path / "c.pdf"],
        capture_output=True, check=True, text=True,
    ).stdout  # fmt: skip
    assert len(re.findall(r"^\s*Figure", told, re.MULTILINE)) == 3


def test_equal_marks_give_equal_bytes_and_others_do_not() -> None:
    first, again = (draw_certificate(page(mark=marked())) for _ in range(2))
    assert first == again
    assert draw_certificate(page(mark=marked((200, 200)))) != first


def test_a_caller_that_errs_is_told() -> None:
    with pytest.raises(ValueError, match=r"mark\.px"):
        draw_certificate(page(mark=marked(jpeg=picture(10, 20))))
    with pytest.raises(ValueError, match="must be a JPEG"):
        draw_certificate(page(mark=marked(jpeg=b"\x89PNG")))
