"""What other programs find in a certificate: its structure, its attachment, its code."""

import subprocess
from pathlib import Path
from typing import Any

import pytest

from provenance.documents.certificate import draw_certificate
from provenance.documents.page import Attachment
from tests.documents.pages import LAYOUT, ORDINARY, page
from tests.documents.test_certificate import LONG, code_mm
from tests.tools import need

ADDRESS = f"https://studio.example/certificates/{ORDINARY.number}#{ORDINARY.record_sha256}"


def tool(program: str, *arguments: object) -> str:
    run = subprocess.run(
        [need(program), *map(str, arguments)], capture_output=True, check=True, text=True
    )
    return run.stdout


def drawn(folder: Path, **changes: Any) -> Path:
    path = folder / "c.pdf"
    path.write_bytes(draw_certificate(page(**changes)))
    return path


def test_a_reader_finds_headings_rows_and_pictures_in_order(tmp_path: Path) -> None:
    told = tool("pdfinfo", "-struct-text", drawn(tmp_path)).split("\n")
    roles = [line.strip().split(" ")[0].rstrip(":") for line in told if '"' not in line]
    assert roles.count("H1") == 1
    assert roles.count("H2") == 4
    assert roles.count("Figure") == 2
    assert roles.count("Table") == 1
    assert roles.count("TR") == roles.count("TH") == roles.count("TD") == 9
    said = " ".join("".join(line.strip()[1:-1] for line in told if '"' in line).split())
    assert f"{ORDINARY.title} {ORDINARY.designation} {ORDINARY.artist}" in said
    for heading, sentences in ORDINARY.sections:
        assert heading in said
        for sentence, standing in sentences:
            assert f"{sentence} {standing}" in said


def test_every_picture_has_words_for_who_cannot_see_it(tmp_path: Path) -> None:
    told = drawn(tmp_path).read_bytes()
    for words in (f"{ORDINARY.title}. {ORDINARY.picture_caption}", LAYOUT.labels["code"]):
        assert words.encode("utf-16-be").hex().encode() in told


def test_a_sentence_that_runs_over_is_one_paragraph(tmp_path: Path) -> None:
    told = tool("pdfinfo", "-struct-text", drawn(tmp_path, sections=LONG))
    assert told.count("H2") == 4


def test_the_attached_record_comes_out_as_it_went_in(tmp_path: Path) -> None:
    path = drawn(tmp_path)
    tool("pdfdetach", "-save", 1, "-o", tmp_path / "out.json", path)
    assert (tmp_path / "out.json").read_bytes() == ORDINARY.attachments[0].data
    assert "1: record.json" in tool("pdfdetach", "-list", path)


def test_several_attachments_are_all_there(tmp_path: Path) -> None:
    added = Attachment("a.txt", "text/plain", b"words", "More", "Supplement")
    path = drawn(tmp_path, attachments=(*ORDINARY.attachments, added))
    listed = tool("pdfdetach", "-list", path)
    assert "2 embedded files" in listed
    for number, data in ((1, b"words"), (2, ORDINARY.attachments[0].data)):
        tool("pdfdetach", "-save", number, "-o", tmp_path / "out", path)
        assert (tmp_path / "out").read_bytes() == data


@pytest.mark.parametrize("resolution_dpi", [300, 150])
@pytest.mark.parametrize("size", ["A4", "letter"])
@pytest.mark.parametrize("code", [ORDINARY.code, ADDRESS], ids=["plain", "address"])
def test_the_code_is_read_from_a_scan_of_the_page(
    tmp_path: Path, code: str, size: str, resolution_dpi: int
) -> None:
    path = drawn(tmp_path, code=code, page=size)
    assert 21.99 <= code_mm(path.read_bytes())[0] <= 26
    tool("pdftoppm", "-r", resolution_dpi, "-gray", "-png", "-singlefile", path, tmp_path / "scan")
    assert tool("zbarimg", "--quiet", "--raw", tmp_path / "scan.png").strip() == code
