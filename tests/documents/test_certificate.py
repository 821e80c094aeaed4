import hashlib
import io
import os
import re
import subprocess
import sys
from dataclasses import replace
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path
from typing import Any

import pypdf
import pytest

from provenance.documents.certificate import draw_certificate
from provenance.documents.page import MM
from provenance.documents.seal import find
from provenance.documents.template import shipped_layout
from provenance.errors import Refused
from tests.documents.pages import LAYOUT, ORDINARY, page, picture
from tests.tools import need

LONG = tuple((heading, sentences * 5) for heading, sentences in ORDINARY.sections)


def reader(pdf: bytes) -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(pdf), strict=True)


def text(pdf: bytes) -> str:
    """All text, with white space of any length as one space."""
    return " ".join(" ".join(leaf.extract_text() for leaf in reader(pdf).pages).split())


def baselines_mm(pdf: bytes) -> list[tuple[str, float]]:
    """How high each text stands above the lower edge of its page."""
    found: list[tuple[str, float]] = []

    def note(said: str, _: object, matrix: list[float], *__: object) -> None:
        if said.strip():
            found.append((said.strip(), matrix[5] / MM))

    for leaf in reader(pdf).pages:
        leaf.extract_text(visitor_text=note)
    return found


def picture_mm(pdf: bytes) -> tuple[float, float]:
    """Width and height at which the picture stands on the first page."""
    code = reader(pdf).pages[0].get_contents()
    assert code is not None
    scaled = re.search(rb"([\d.]+) 0 0 ([\d.]+) [\d.]+ [\d.]+ cm\s+/\S+ Do", code.get_data())
    assert scaled is not None
    return float(scaled[1]) / MM, float(scaled[2]) / MM


def code_mm(pdf: bytes) -> tuple[float, float]:
    """The side of the QR code and how high its lower edge stands, on the only page."""
    code = reader(pdf).pages[-1].get_contents()
    assert code is not None
    placed = re.search(rb"g\s+([\d.]+) 0 0 -[\d.]+ [\d.]+ ([\d.]+) cm (.*) re", code.get_data())
    assert placed is not None
    rows = 1 + max(int(down) for down in re.findall(rb"\d+ (\d+) \d+ 1 re", placed[0]))
    side_mm = float(placed[1]) * rows / MM
    return side_mm, float(placed[2]) / MM - side_mm


@pytest.mark.parametrize(
    ("size", "edges_pt", "picture_at_least_mm"),
    [("A4", (595.28, 841.89), 70), ("letter", (612, 792), 60)],
)
def test_an_ordinary_print_fits_one_page(
    size: str, edges_pt: tuple[float, float], picture_at_least_mm: float
) -> None:
    pdf = draw_certificate(page(page=size))
    (leaf,) = reader(pdf).pages
    assert (leaf.mediabox.width, leaf.mediabox.height) == pytest.approx(edges_pt, abs=0.01)
    assert "page 1" not in text(pdf)
    assert picture_mm(pdf)[1] >= picture_at_least_mm


@pytest.mark.parametrize("size", ["A4", "letter"])
@pytest.mark.parametrize(
    "change",
    [
        {"title": "The old harbour wall at low water, seen from the ferry landing in the rain"},
        {"designation": "AP II/III"},
        {"picture_px": (1200, 800), "picture_jpeg": picture(1200, 800)},
        {"picture_px": (1200, 400), "picture_jpeg": picture(1200, 400)},
    ],
)
def test_so_do_its_neighbours(change: dict[str, Any], size: str) -> None:
    pdf = draw_certificate(page(page=size, **change))
    assert len(reader(pdf).pages) == 1
    assert change.get("title", "") in text(pdf)
    assert change.get("designation", "") in text(pdf)


def test_everything_is_on_the_page() -> None:
    told = text(draw_certificate(ORDINARY))
    said = [ORDINARY.title, ORDINARY.designation, ORDINARY.artist, ORDINARY.place]
    said += [ORDINARY.picture_caption, ORDINARY.number, ORDINARY.journal_note, "revision 1"]
    said += [ORDINARY.issued_on, "Journal, entry 412", *ORDINARY.care]
    said += [words for pair in ORDINARY.particulars for words in pair]
    for heading, sentences in ORDINARY.sections:
        said += [heading, *(f"{sentence} {standing}" for sentence, standing in sentences)]
    said += ["Signature of the artist", "Date", "Name of the owner"]
    assert [words for words in said if words not in told] == []


@pytest.mark.parametrize("size", ["A4", "letter"])
def test_what_an_eye_compares_or_reads_at_once_is_one_line(size: str) -> None:
    (leaf,) = reader(draw_certificate(page(page=size))).pages
    lines = leaf.extract_text().splitlines()
    for digest in (ORDINARY.record_sha256, ORDINARY.journal_head_sha256):
        assert any(" ".join(re.findall("....", digest)) in line for line in lines)
    assert all(any(advice in line for line in lines) for advice in ORDINARY.care)


def test_a_reader_copies_the_sentences_in_order(tmp_path: Path) -> None:
    (tmp_path / "c.pdf").write_bytes(draw_certificate(page(sections=LONG)))
    run = subprocess.run(
        [need("pdftotext"), "-raw", tmp_path / "c.pdf", "-"], capture_output=True, check=True
    )
    told = " ".join(run.stdout.decode().split())
    at = 0
    for heading, sentences in LONG:
        for words in (heading, *(f"{sentence} {standing}" for sentence, standing in sentences)):
            # The foot of a page may stand between two sentences, never inside one.
            at = told.index(words, at) + len(words)


def test_only_embedded_typefaces_are_used(tmp_path: Path) -> None:
    (tmp_path / "c.pdf").write_bytes(draw_certificate(page(sections=LONG)))
    run = subprocess.run(
        [need("pdffonts"), tmp_path / "c.pdf"], capture_output=True, check=True, text=True
    )
    fonts = [line.split() for line in run.stdout.splitlines()[2:]]
    assert {font[0].split("+")[1] for font in fonts} == {
        "EBGaramond-Regular",
        "SourceSans3-Regular",
        "SourceSans3-SemiBold",
    }
    assert all(font[-5:-2] == ["yes", "yes", "yes"] for font in fonts)  # embedded, subset, Unicode


def test_the_file_is_sound(tmp_path: Path) -> None:
    (tmp_path / "c.pdf").write_bytes(draw_certificate(page(sections=LONG)))
    subprocess.run([need("qpdf"), "--check", tmp_path / "c.pdf"], check=True, capture_output=True)


def test_equal_content_gives_equal_bytes_in_another_process_and_time_zone() -> None:
    code = (
        "import hashlib; from tests.documents.pages import ORDINARY;"
        "from provenance.documents.certificate import draw_certificate;"
        "print(hashlib.sha256(draw_certificate(ORDINARY)).hexdigest())"
    )
    here = hashlib.sha256(draw_certificate(ORDINARY)).hexdigest()
    for changed in ({"TZ": "Pacific/Auckland", "PYTHONHASHSEED": "7"}, {"PYTHONHASHSEED": "8"}):
        run = subprocess.run(
            [sys.executable, "-c", code],
            cwd=Path(__file__).parents[2],
            env=os.environ | changed,
            capture_output=True,
            check=True,
            text=True,
        )
        assert run.stdout.strip() == here


def test_the_same_moment_in_another_zone_gives_the_same_date() -> None:
    east = ORDINARY.issued_at_utc.astimezone(timezone(timedelta(hours=13)))
    for moment in (ORDINARY.issued_at_utc, east):
        about = reader(draw_certificate(page(issued_at_utc=moment))).metadata
        assert about is not None
        assert about.creation_date == about.modification_date == ORDINARY.issued_at_utc


def test_the_file_says_what_it_is() -> None:
    about = reader(draw_certificate(ORDINARY)).metadata
    assert about is not None
    assert (about.title, about.author) == ("Quay steps, low water 7/25", "Ida Example")
    assert about.subject == ORDINARY.number


@pytest.mark.parametrize(
    "change",
    [
        {"title": "Quay steps, high water"},
        {"revision": 2},
        {"record_sha256": "0" * 64},
        {"issued_at_utc": datetime(2026, 3, 21, tzinfo=UTC)},
        {"picture_jpeg": picture(480, 600), "picture_px": (480, 600)},
    ],
)
def test_other_content_gives_another_file_id(change: dict[str, Any]) -> None:
    ids = [
        reader(draw_certificate(content)).trailer["/ID"] for content in (ORDINARY, page(**change))
    ]
    assert ids[0] != ids[1]


MARKUP = 'A & B <b>bold</b> <img src="/etc/hostname" width="10"/> &amp; %(x)s {page} \\n (a)'


def test_markup_in_a_field_is_printed_as_it_was_typed() -> None:
    pdf = draw_certificate(
        page(
            title=MARKUP,
            artist=MARKUP,
            particulars=(("Paper", MARKUP),),
            sections=(("How it was made", ((MARKUP, "logged"),)),),
            care=(MARKUP,),
        )
    )
    assert text(pdf).count(MARKUP) == 5
    assert len(reader(pdf).pages[0].images) == 1


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"title": "Quay 写"}, "title"),
        ({"artist": "Quay 写"}, "artist"),
        ({"particulars": (("Paper", "写"),)}, "Paper"),
        ({"sections": (("How it was made", (("写", "logged"),)),)}, "How it was made"),
        ({"care": ("写",)}, "care"),
        ({"issued_on": "写"}, "issued on"),
    ],
)
def test_a_character_that_cannot_be_printed_is_refused(change: dict[str, Any], field: str) -> None:
    with pytest.raises(Refused, match="U\\+5199") as refusal:
        draw_certificate(page(**change))
    (problem,) = refusal.value.problems
    assert (problem.record, problem.field) == (ORDINARY.number, field)


def test_text_is_composed_before_it_is_set() -> None:
    assert "Café" in text(draw_certificate(page(title="Cafe\N{COMBINING ACUTE ACCENT}")))


def test_a_long_statement_runs_on_and_every_page_says_so() -> None:
    leaves = reader(draw_certificate(page(sections=LONG))).pages
    assert len(leaves) > 1
    for at, leaf in enumerate(leaves, 1):
        told = " ".join(leaf.extract_text().split())
        assert f"{ORDINARY.number} page {at} of {len(leaves)}" in told


def test_a_section_that_runs_over_has_its_heading_again() -> None:
    made = ((LONG[0][0], LONG[0][1] * 3),)
    first, second, *_ = reader(draw_certificate(page(sections=made))).pages
    again = f"{LONG[0][0]} {LAYOUT.labels['continued']}"
    assert " ".join(second.extract_text().split()).startswith(again)
    assert again not in " ".join(first.extract_text().split())


def test_a_short_page_ends_at_its_foot() -> None:
    bare = page(sections=((ORDINARY.sections[0][0], ORDINARY.sections[0][1][:1]),))
    for content in (ORDINARY, bare):
        pdf = draw_certificate(content)
        assert code_mm(pdf)[1] == pytest.approx(25, abs=0.01)
        # The lines to sign on stand with the marks, not half-way up the page.
        assert dict(baselines_mm(pdf))[LAYOUT.labels["artist_signature"]] <= 60


def test_nothing_is_lost_or_leaves_the_paper_however_long() -> None:
    word = "unbroken" * 60
    sentence = " ".join(f"w{at}" for at in range(3000))
    pdf = draw_certificate(
        page(
            title="A title without an end " * 12,
            designation="artist’s proof number III of III, for the printer",
            particulars=(("Inscriptions", sentence), ("A label longer than its column", word)),
            sections=(("A heading that needs several lines", ((sentence, "logged"),)),),
        )
    )
    told = text(pdf)
    assert all(told.count(f"w{at} ") == 2 for at in range(2999))
    assert word in told.replace(" ", "")
    heights_mm = [height_mm for _, height_mm in baselines_mm(pdf)]
    assert min(heights_mm) >= 10
    assert max(heights_mm) <= 297 - 25


def test_a_page_without_particulars_sections_and_care_is_drawn() -> None:
    assert ORDINARY.title in text(draw_certificate(page(particulars=(), sections=(), care=())))


@pytest.mark.parametrize(
    "pixels", [(1200, 960), (960, 1200), (1200, 1200), (1200, 300), (200, 1200)]
)
@pytest.mark.parametrize("size", ["A4", "letter"])
def test_the_picture_keeps_its_proportion_and_its_bounds(
    pixels: tuple[int, int], size: str
) -> None:
    short = tuple((heading, sentences[:1]) for heading, sentences in ORDINARY.sections)
    for sections in (ORDINARY.sections, short, LONG):
        pdf = draw_certificate(
            page(page=size, picture_jpeg=picture(*pixels), picture_px=pixels, sections=sections)
        )
        width_mm, height_mm = picture_mm(pdf)
        assert width_mm / height_mm == pytest.approx(pixels[0] / pixels[1], rel=0.001)
        assert width_mm <= {"A4": 160, "letter": 165.9}[size] + 0.001
        assert height_mm <= 95.01
        assert height_mm >= 55 or width_mm > 108


def test_a_wide_picture_is_larger_where_there_is_room_for_it() -> None:
    wide = page(picture_jpeg=picture(1200, 800), picture_px=(1200, 800))
    full = draw_certificate(wide)
    short = draw_certificate(replace(wide, sections=()))
    columns_mm = (160 - 5 * 4.5) / 6 * 3 + 2 * 4.5
    assert picture_mm(full)[0] == pytest.approx(columns_mm, abs=0.01)
    assert picture_mm(short)[0] > 1.5 * columns_mm


def test_the_picture_is_put_in_as_it_is() -> None:
    (image,) = reader(draw_certificate(ORDINARY)).pages[0].images
    stream = image.indirect_reference.get_object()  # type: ignore[union-attr]
    assert stream._data == ORDINARY.picture_jpeg  # type: ignore[union-attr]
    assert stream["/Filter"] == ["/DCTDecode"]  # type: ignore[index]


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"picture_px": (1200, 960)}, "picture_px"),
        ({"picture_jpeg": b"\x89PNG"}, "must be a JPEG"),
        ({"issued_at_utc": datetime(2026, 3, 20)}, "time zone"),
    ],
)
def test_a_caller_that_errs_is_told(change: dict[str, Any], told: str) -> None:
    with pytest.raises(ValueError, match=told):
        draw_certificate(page(**change))


def test_the_layout_rules_order_and_margins() -> None:
    layout = shipped_layout()
    own = replace(
        layout,
        blocks=("marks", *(name for name in layout.blocks if name != "marks")),
        measures=replace(layout.measures, margin_left_mm=40),
    )
    usual, other = text(draw_certificate(ORDINARY)), text(draw_certificate(ORDINARY, own))
    assert usual.index(ORDINARY.number) > usual.index(ORDINARY.title)
    assert other.index(ORDINARY.number) < other.index(ORDINARY.title)


@pytest.mark.parametrize("size", ["A4", "letter"])
def test_a_sealed_revision_fits_one_page_and_says_so(size: str) -> None:
    said = "Replaces revision 1 of 20 March 2026: the mark on the back was misread"
    key = "9a4964c9bab40a08a31d8cffff4c2e7b18cf1fc96787a2fc92a9fc645e22c5fc"
    pdf = draw_certificate(page(page=size, revision=2, replaces=said, key_sha256=key))
    (leaf,) = reader(pdf).pages
    told = " ".join(leaf.extract_text().split())
    assert said in told
    assert f"{LAYOUT.labels['key']} {' '.join(re.findall('....', key))}" in told


def test_what_a_revision_changed_stands_under_its_reason_where_there_is_room() -> None:
    changed = "Marks: Q7 on the back → Q8 on the back"
    revised = page(revision=2, replaces="Replaces revision 1: a slip", changed=changed)
    assert f"a slip {LAYOUT.labels['changed']} {changed}" in text(draw_certificate(revised))
    told = text(draw_certificate(replace(revised, sections=LONG)))
    assert changed in told
    tight = [
        draw_certificate(replace(revised, changed=f"{changed}; {'more ' * count}"))
        for count in range(0, 400, 40)
    ]
    assert [len(reader(pdf).pages) for pdf in tight] == [1] * len(tight)
    said = [changed in text(pdf) for pdf in tight]
    assert said == sorted(said, reverse=True)
    assert (said[0], said[-1]) == (True, False)


def test_the_file_bears_its_sum_and_a_seal_of_another_length_is_an_error() -> None:
    found = find(draw_certificate(ORDINARY))
    assert found is not None
    assert found.sums_up()
    with pytest.raises(ValueError, match="as long as its line"):
        draw_certificate(ORDINARY, None, lambda _: b"short")
