"""A studio that issues its certificates in French: nothing English is left on the page."""

import io
import re
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pypdf
import pytest
from pypdf.generic import TextStringObject

from provenance.documents.template import shipped_layout
from provenance.resources import resource
from provenance.studio.certifying.certify import certify
from tests.studio.finished import Desk, desk


@pytest.fixture
def studio(tmp_path: Path) -> Iterator[Desk]:
    held = desk(tmp_path / "studio")
    (tmp_path / "studio" / "settings.toml").write_text('language = "fr"\n', encoding="utf-8")
    yield held
    held.register.close()


def said(pdf: bytes) -> str:
    """The words of a page, in one line, with plain spaces."""
    text = " ".join(one.extract_text() for one in pypdf.PdfReader(io.BytesIO(pdf)).pages)
    return " ".join(text.split())


def test_a_certificate_in_french(studio: Desk) -> None:
    issued = certify(studio.register, studio.folder, studio.print)
    page = said(issued.pdf)
    assert pypdf.PdfReader(io.BytesIO(issued.pdf)).root_object.get("/Lang") == TextStringObject(
        "fr"
    )
    for words in ("Certificat", "Fabrication", "Tiré le 2 mars 2031", "De la main"):
        assert words in page
    text = resource("templates", "wording", "en.toml").read_text("utf-8")
    months = tomllib.loads(text)["date"]["months"]
    english = {*shipped_layout("en").labels.values(), *months} - {
        *shipped_layout("fr").labels.values()
    }
    assert not [words for words in english if words in page]


def test_every_label_is_in_french() -> None:
    english, french = shipped_layout("en"), shipped_layout("fr")
    assert english.labels.keys() == french.labels.keys()
    same = {name for name, words in english.labels.items() if french.labels[name] == words}
    assert same <= {"date", "journal"}
    for name, words in french.labels.items():
        assert words.count("{") == english.labels[name].count("{")


@pytest.mark.parametrize("name", ["wording/fr.toml", "roll.toml", "worksheet.toml"])
def test_no_line_can_begin_with_the_sign_that_ends_the_one_before(name: str) -> None:
    """French sets a space before some signs; it is one at which no line is broken."""
    text = resource("templates", *name.split("/")).read_text("utf-8")
    read = tomllib.loads(text)
    french = list(texts_of(read if "fr" in name else read["words"]["fr"]))
    assert len(french) > 40
    assert [one for one in french if re.search(" [;:?!»]|« ", one)] == []


def texts_of(value: object) -> Iterator[str]:
    """Every text of a file."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict | list):
        for one in value.values() if isinstance(value, dict) else value:
            yield from texts_of(one)
