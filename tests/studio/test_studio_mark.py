"""The studio's own mark: from an image file beside its certificate.toml to the page."""

import json
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from provenance.documents.certificate import draw_certificate
from provenance.documents.content import CertificatePage
from provenance.errors import Refused
from provenance.resources import resource
from provenance.studio.certifying import certify as certifying
from provenance.studio.certifying.certify import Issued, certify
from provenance.studio.certifying.studio_mark import load_mark
from provenance.studio.checking.check import check
from provenance.studio.folder import StudioFolder
from provenance.studio.wordings import load_layout
from tests.studio.finished import Desk, another, desk
from tests.studio.test_checking import other_picture
from tests.studio.test_record_schema import VALIDATOR

SHIPPED = resource("templates", "certificate.toml").read_text("utf-8")


@pytest.fixture
def studio(tmp_path: Path) -> Iterator[Desk]:
    held = desk(tmp_path / "studio")
    yield held
    held.register.close()


def name_mark(studio: Desk, file: str = "mark.png", **other: Any) -> Path:
    """Let the studio's layout name a mark; where that must lie."""
    folder = studio.folder.path / "templates"
    folder.mkdir(exist_ok=True)
    table = f'[mark]\nfile = "{file}"\nheight_mm = {other.get("height_mm", 8)}\n\n[order]'
    (folder / "certificate.toml").write_text(SHIPPED.replace("[order]", table), "utf-8")
    return folder / file


def draw(path: Path, mode: str = "L", size: tuple[int, int] = (300, 150)) -> None:
    Image.linear_gradient("L").resize(size).convert(mode).save(path)


def issue(studio: Desk) -> Issued:
    return certify(studio.register, studio.folder, studio.print)


def record(issued: Issued) -> dict[str, Any]:
    read: dict[str, Any] = json.loads(issued.path.with_suffix(".json").read_bytes())
    return read


@pytest.mark.parametrize(
    ("file", "mode"),
    [("mark.png", "RGBA"), ("mark.png", "1"), ("mark.tif", "L"), ("our mark.jpg", "CMYK")],
)
def test_every_usual_picture_becomes_a_mark(studio: Desk, file: str, mode: str) -> None:
    draw(name_mark(studio, file), mode)
    issued = issue(studio)
    mark = load_mark(studio.folder, load_layout(studio.folder, "en"))
    assert mark is not None
    assert mark.px == (300, 150)
    assert mark.jpeg in issued.pdf
    assert record(issued)["picture"]["studio_mark_sha256"] == mark.sha256
    VALIDATOR.validate(record(issued))
    alternative = "Mark of The drying room".encode("utf-16-be").hex().encode()
    assert alternative in issued.pdf
    assert check(issued.path, StudioFolder(studio.folder.path / "none")).stands


def test_without_a_mark_the_record_names_none(studio: Desk) -> None:
    issued = issue(studio)
    assert record(issued)["picture"]["studio_mark_sha256"] is None
    VALIDATOR.validate(record(issued))


def test_the_same_file_gives_the_same_mark(studio: Desk) -> None:
    draw(name_mark(studio), "RGBA")
    layout = load_layout(studio.folder, "en")
    assert load_mark(studio.folder, layout) == load_mark(studio.folder, layout)


def test_a_mark_that_was_swapped_is_caught_without_register_or_seal(
    studio: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    drawn = list[CertificatePage]()

    def noted(content: CertificatePage, *how: Any) -> bytes:
        drawn.append(content)
        return draw_certificate(content, *how)

    draw(name_mark(studio))
    monkeypatch.setattr(certifying, "draw_certificate", noted)
    issued = issue(studio)
    (content,) = drawn
    assert content.mark is not None
    forged = replace(content, mark=replace(content.mark, jpeg=other_picture(), px=(300, 240)))
    path = studio.folder.path / "forged.pdf"
    path.write_bytes(draw_certificate(forged, load_layout(studio.folder, "en")))
    found = check(path, StudioFolder(studio.folder.path / "none"))
    assert found.intact.says == ("there is a picture on the page that the record does not name",)
    assert check(issued.path, StudioFolder(studio.folder.path / "none")).intact.answer == "yes"


def too_large(path: Path) -> None:
    Image.new("1", (20_001, 10)).save(path)


def a_bomb(path: Path) -> None:
    Image.new("1", (10_000, 6_000)).save(path)


def a_drawing(path: Path) -> None:
    path.write_text("<svg/>")


def cut_short(path: Path) -> None:
    draw(path)
    path.write_bytes(path.read_bytes()[:200])


def a_folder(path: Path) -> None:
    path.mkdir()


def nothing(path: Path) -> None:
    assert not path.exists()


@pytest.mark.parametrize(
    ("spoil", "told"),
    [
        (too_large, "more than the limit"),
        (a_bomb, "more than the limit of 50 megapixels"),
        (a_drawing, "is not a TIFF, JPEG or PNG picture"),
        (cut_short, "is broken or cut short"),
        (a_folder, "is not a file"),
        (nothing, "there is no file"),
    ],
)
def test_a_bad_file_is_refused_by_its_name_and_the_line_and_nothing_is_issued(
    studio: Desk, spoil: Callable[[Path], None], told: str
) -> None:
    path = name_mark(studio)
    spoil(path)
    head = studio.register.read.head()
    with pytest.raises(Refused, match=told) as caught:
        issue(studio)
    (problem,) = caught.value.problems
    assert str(path) in problem.what
    assert problem.record == "certificate.toml"
    lines = path.with_name("certificate.toml").read_text("utf-8").splitlines()
    assert problem.line is not None
    assert lines[problem.line - 1] == 'file = "mark.png"'
    assert studio.register.read.head() == head
    assert list(studio.folder.certificates.iterdir()) == []


def test_a_second_print_bears_the_same_mark(studio: Desk) -> None:
    draw(name_mark(studio))
    first = issue(studio)
    second = certify(studio.register, studio.folder, another(studio, "Q8", "8/25"))
    digests = {record(one)["picture"]["studio_mark_sha256"] for one in (first, second)}
    assert len(digests) == 1
