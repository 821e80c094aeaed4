"""Nothing of the contact book or of private papers leaves in a certificate."""

import io
import itertools
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from unicodedata import normalize

import pypdf
import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from pypdf.generic import StreamObject

from provenance.records.private import Contacts, Drafts
from provenance.studio.certifying.certify import certify
from tests.studio.finished import Desk, desk
from tests.studios import enter, release, revise

LETTERS = "abdefgijklmopqrsuvwxyzäçéñøřšžăâţαβγδάώбдёж"
# No word of a certificate begins so: whatever is found came from the contact book.
words = st.text(LETTERS, min_size=4, max_size=12).map(lambda letters: f"Xq{letters}")
texts = st.lists(words, min_size=1, max_size=3).map(" ".join)
persons = st.fixed_dictionaries(
    {"name": texts, "address": texts, "email": texts, "telephone": texts, "note": texts}
)


def everything(pdf: bytes) -> Iterator[bytes]:
    """All that a reader or a program finds in a certificate: bytes, streams, texts, attachments."""
    reader = pypdf.PdfReader(io.BytesIO(pdf), strict=True)
    yield pdf
    for page in reader.pages:
        yield "".join(page.extract_text().split()).encode()
    yield str(reader.metadata).encode()
    for number in range(1, len(reader.xref[0]) + 1):
        held = reader.get_object(number)
        yield held.get_data() if isinstance(held, StreamObject) else str(held).encode()
    yield from itertools.chain.from_iterable(reader.attachments.values())


def leaked(pdf: bytes, private: list[str]) -> set[str]:
    """The words of `private` that are found in a certificate, in any form of writing."""
    held = b"\n".join(everything(pdf))
    held += held.lower()
    return {
        word
        for text in private
        for word in text.split()
        if any(written in held for written in spellings(word))
    }


def spellings(word: str) -> Iterator[bytes]:
    """How a word may lie in a file."""
    for form in (normalize("NFC", word), normalize("NFD", word), word.lower(), word.upper()):
        yield form.encode()
        yield form.encode("utf-16-be")
        yield form.encode("utf-16-be").hex().encode()


@pytest.fixture
def studio(tmp_path: Path) -> Iterator[Desk]:
    held = desk(tmp_path / "studio")
    (tmp_path / "studio" / "settings.toml").write_text('address = "https://studio.example"\n')
    yield held
    held.register.close()


@settings(
    max_examples=20,
    deadline=None,
    # the studio goes on from one example to the next, and a leak needs no shrinking
    phases=[Phase.generate],
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(person=persons, price=words, place=words)
def test_no_person_price_or_place_is_found_in_a_certificate(
    studio: Desk, person: dict[str, Any], price: str, place: str
) -> None:
    key = Contacts(studio.folder.path).add(**person)
    Drafts(studio.folder.path).put("sale", f'{{"price":"{price}","hangs":"{place}"}}')
    out = enter(studio.register, release(studio.print, party=key))
    private = [*person.values(), price, place, key]
    in_force = studio.register.read.connection.execute(
        "SELECT certificate FROM impression WHERE id = ?", (studio.print,)
    ).fetchone()[0]
    issued = certify(
        studio.register, studio.folder, studio.print, revise="a slip" if in_force else None
    )
    with studio.register.act("artist") as act:
        act.void(out, out, "taken back, so that the next can be told")
    assert leaked(issued.pdf, private) == set()


@pytest.mark.parametrize("field", ["inscriptions", "features"])
def test_what_is_printed_or_attached_would_be_found(studio: Desk, field: str) -> None:
    revise(studio.register, studio.print, **{field: "für Xqřeka Xqάώβγ"})
    issued = certify(studio.register, studio.folder, studio.print)
    assert leaked(issued.pdf, ["Xqřeka Xqάώβγ Xqother"]) == {"Xqřeka", "Xqάώβγ"}


def test_what_stood_in_the_metadata_would_be_found(studio: Desk) -> None:
    negative = studio.shelf.negative
    revise(studio.register, negative, title="Xqslipway")
    issued = certify(studio.register, studio.folder, studio.print)
    reader = pypdf.PdfReader(io.BytesIO(issued.pdf))
    assert "Xqslipway" in str(reader.metadata)
    assert leaked(issued.pdf, ["Xqslipway"]) == {"Xqslipway"}
