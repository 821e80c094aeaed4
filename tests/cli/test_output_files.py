"""A file that somebody names with --out is a new one: nothing that stands there is replaced."""

from pathlib import Path

import pytest

from provenance.records.audit import audit
from tests.cli.conftest import Desk

WRITERS = {
    "answer": ("answer", "QUAY 7/25", "--format", "text"),
    "a letter": ("answer", "QUAY 7/25", "--format", "pdf"),
    "certify": ("certify", "QUAY 7/25"),
    "edition-list": ("edition-list", "QUAY"),
    "heirs-page": ("heirs-page", "QUAY", "--full"),
    "label": ("label", "F-1"),
    "reprint": ("reprint", "QUAY 7/25", "--paper", "FB-1"),
}


@pytest.mark.parametrize("words", WRITERS.values(), ids=WRITERS)
def test_what_stands_there_is_left_as_it_is(
    studio: Desk, tmp_path: Path, words: tuple[str, ...]
) -> None:
    notes, head = tmp_path / "notes.txt", audit(studio.path).head
    notes.write_text("mine")
    for path in (notes, studio.path / "register.db"):
        before = path.read_bytes()
        ran = studio.run(*words, "--out", str(path), "--json")
        assert ran.status == 1
        assert path.read_bytes() == before
    # nothing was recorded for a file that was not to be had
    assert audit(studio.path).head == head
    assert not audit(studio.path).damaged
    assert studio.run(*words, "--out", str(tmp_path / "new")).status == 0
    assert (tmp_path / "new").stat().st_size > 0


def test_a_bag_of_a_damaged_studio_says_so(studio: Desk, tmp_path: Path) -> None:
    next((studio.path / "images").iterdir()).write_bytes(b"spoiled")
    for level in ("public", "archive"):
        made = studio.run("bag", str(tmp_path / level), "--level", level, "--json")
        assert made.status == 3
        assert made.data[0]["damaged"] is True
        readme = (tmp_path / level / "data" / "README.txt").read_text()
        assert "damage in one place" in readme
    told = studio.run("bag", str(tmp_path / "again"))
    assert told.status == 3
    assert "was altered" in told.out


def test_an_output_that_cannot_be_written_is_told(studio: Desk) -> None:
    with Path("/dev/full").open("wb") as full:
        ran = studio.start("list", "prints", stdout=full)
    assert ran.returncode == 1
    assert b"refused: the output cannot be written: No space left on device" in ran.stderr


def test_what_the_output_has_no_letter_for_is_written_as_an_escape(studio: Desk) -> None:
    ran = studio.start("show", "QUAY 7/25", PYTHONIOENCODING="ascii")
    assert ran.returncode == 0
    assert rb"\u" in ran.stdout
