"""The contact book and the drafts: whole, erasable, for their owner's eyes."""

import hashlib
import stat
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from provenance.errors import Damaged, NotFound, Refused
from provenance.records.private import Contact, Contacts, Drafts
from provenance.records.private_folder import overwriting
from provenance.records.private_pages import commitment


def test_a_page_reads_back(tmp_path: Path) -> None:
    book = Contacts(tmp_path)
    key = book.add(name=" A. Collector ", address="1 Harbour Row\nQuayside", note="by post")
    assert book.get(key) == Contact(
        name="A. Collector", address="1 Harbour Row\nQuayside", note="by post"
    )
    assert book.list() == [(key, book.get(key))]
    assert book.holds(key)
    assert list(book.altered()) == []


def test_only_its_owner_reads_it(tmp_path: Path) -> None:
    key = Contacts(tmp_path).add(name="A. Collector")
    Drafts(tmp_path).put("print-form", "{}")
    for folder, name in (("contacts", key), ("private", "print-form")):
        assert stat.S_IMODE((tmp_path / folder).stat().st_mode) == 0o700
        assert stat.S_IMODE((tmp_path / folder / f"{name}.json").stat().st_mode) == 0o600


def test_the_key_tells_nothing_and_proves_the_page(tmp_path: Path) -> None:
    """Twice the same person, two keys; without the salt no name can be tried."""
    book = Contacts(tmp_path)
    keys = {book.add(name="A. Collector") for _ in range(5)}
    assert len(keys) == 5
    bare = b'{"address":"","email":"","name":"A. Collector","note":"","telephone":""}'
    assert hashlib.sha256(bare).hexdigest() not in keys


def test_the_commitment_is_over_salt_and_canonical_json() -> None:
    salt = bytes(range(16))
    expected = hashlib.sha256(salt + b'{"a":"\xc3\xa9","b":1}').hexdigest()
    assert commitment(salt, {"b": 1, "a": "é"}) == expected


def test_erasing_is_for_good(tmp_path: Path) -> None:
    book = Contacts(tmp_path)
    key, kept = book.add(name="A. Collector"), book.add(name="B. Curator")
    book.erase(key)
    assert not any(
        b"A. Collector" in path.read_bytes() for path in tmp_path.rglob("*") if path.is_file()
    )
    assert [page[0] for page in book.list()] == [kept]
    for call in (book.get, book.erase):
        with pytest.raises(NotFound):
            call(key)


def test_an_erasing_that_was_broken_off_leaves_no_page(tmp_path: Path) -> None:
    book = Contacts(tmp_path)
    key, other = book.add(name="A. Collector"), book.add(name="B. Keeper")
    path = tmp_path / "contacts" / f"{key}.json"
    path.write_bytes(overwriting(path.stat().st_size))
    assert [page.name for _key, page in book.list()] == ["B. Keeper"]
    assert (book.holds(key), book.holds(other)) == (False, True)
    assert list(book.altered()) == []
    assert list(book.half_erased()) == [key]
    with pytest.raises(NotFound):
        book.get(key)


@pytest.mark.parametrize("spoil", [b"", b"{}", b"\xff", b'{"contact":{"name":"B"},"salt":"00"}'])
def test_an_altered_page_is_noticed(tmp_path: Path, spoil: bytes) -> None:
    book = Contacts(tmp_path)
    key = book.add(name="A. Collector")
    (tmp_path / "contacts" / f"{key}.json").write_bytes(spoil)
    with pytest.raises(Damaged):
        book.get(key)
    assert list(book.altered()) == [key]
    assert book.list() == []


@pytest.mark.parametrize("key", ["", "..", "../register", "a" * 63, "A" * 64, "a" * 64 + "\n"])
def test_a_key_leads_nowhere_else(tmp_path: Path, key: str) -> None:
    (tmp_path / "register.json").write_text("{}")
    for call in (Contacts(tmp_path).get, Contacts(tmp_path).erase):
        with pytest.raises(NotFound):
            call(key)
    assert (tmp_path / "register.json").exists()


@pytest.mark.parametrize("name", ["", " \n", "\ud800"])
def test_a_page_needs_a_name(tmp_path: Path, name: str) -> None:
    with pytest.raises(Refused):
        Contacts(tmp_path).add(name=name)
    assert Contacts(tmp_path).list() == []


def test_drafts_are_kept_replaced_and_dropped(tmp_path: Path) -> None:
    drafts = Drafts(tmp_path)
    assert drafts.get("print-form") is None
    assert not drafts.drop("print-form")
    drafts.put("print-form", '{"mark": "7"}')
    drafts.put("print-form", '{"mark": "8é"}')
    drafts.put("note_1", '"ask about the frame"')
    assert drafts.get("print-form") == '{"mark": "8é"}'
    assert drafts.names() == ["note_1", "print-form"]
    assert drafts.drop("print-form")
    assert drafts.names() == ["note_1"]


@pytest.mark.parametrize("text", ["", "{", "not json", '"\ud800"', "[1,]"])
def test_a_draft_is_json(tmp_path: Path, text: str) -> None:
    with pytest.raises(Refused):
        Drafts(tmp_path).put("print-form", text)
    assert Drafts(tmp_path).names() == []


@pytest.mark.parametrize(
    "name", ["", ".", "..", "../head", "/etc/hosts", "a/b", "a\\b", "A", "a\x00", "a\n", "é"]
)
def test_a_name_leads_nowhere_else(tmp_path: Path, name: str) -> None:
    drafts = Drafts(tmp_path / "studio")
    for call in (drafts.get, drafts.drop, lambda name: drafts.put(name, "{}")):
        with pytest.raises(Refused):
            call(name)
    assert list(tmp_path.rglob("*.json")) == []


@given(st.text())
def test_no_name_at_all_leads_out_of_the_folder(name: str) -> None:
    """Whatever is accepted is one plain file name."""
    nowhere = Path("/nonexistent-studio")
    try:
        assert Drafts(nowhere).get(name) is None
    except Refused:
        return
    assert (nowhere / "private" / f"{name}.json").resolve().parent == nowhere / "private"
