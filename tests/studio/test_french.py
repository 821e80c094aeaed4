"""A studio that issues its certificates in French: nothing English is left on the page."""

import io
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
