"""Reading a certificate back: whatever it says, number, digest, picture and record are found."""

import hashlib

import pytest

from provenance.documents import opened
from provenance.documents.certificate import draw_certificate
from provenance.documents.opened import open_certificate
from provenance.errors import Refused
from tests.documents.test_archive import CHOSEN, SEALED, invented


def test_what_a_check_needs_is_read_from_every_certificate() -> None:
    for content in (*CHOSEN, SEALED, *invented(40)):
        pdf = draw_certificate(content)
        found = open_certificate(pdf, "c.pdf")
        assert found.unreadable == ""
        assert content.number in found.words
        assert content.record_sha256 in found.words
        assert content.key_sha256 in found.words
        assert found.attachments == {one.name: one.data for one in content.attachments}
        assert found.picture_sha256 == (hashlib.sha256(content.picture_jpeg).hexdigest(),) * len(
            found.picture_sha256
        )
        assert found.picture_sha256
        assert found.in_one_piece
        assert found.seal is not None
        assert found.seal.sums_up()


def test_a_file_too_large_is_refused_before_it_is_read(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(opened, "MOST_BYTES", 1000)
    with pytest.raises(Refused, match="larger than"):
        open_certificate(draw_certificate(CHOSEN[0]), "c.pdf")
