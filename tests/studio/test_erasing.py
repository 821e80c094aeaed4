"""Erasing a person leaves nothing of them in any byte of the studio's folder."""

import json
import unicodedata
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Literal

import pytest

from provenance.errors import NotFound, Refused
from provenance.model.custody import CustodyEvent
from provenance.model.prints import Print
from provenance.records import private_folder
from provenance.records.audit import audit
from provenance.records.private import Contacts, Drafts
from provenance.records.private_folder import overwrite
from provenance.records.terms import Terms, TermsBook
from provenance.studio import erasing
from provenance.studio.certifying.certify import certify
from provenance.studio.custody import People, custody_of, move_prints, terms_key
from provenance.studio.erasing import erase_contact, find_contact
from tests.studio.finished import Desk, desk
from tests.studios import WHO, revise

WHO_BOUGHT = "Zdenka Ørsted-Quillfeather"
PAGE = {
    "address": "9 Quillfeather Lane\nOvermoor",
    "email": "zdenka@quillfeather.example",
    "telephone": "+00 555 0199 27",
    "note": "collects only tideland pictures",
    "life": "1961-",
}
PRICE, HANGS = "7331 guineas in gold", "over the cast-iron stove"


@pytest.fixture
def studio(tmp_path: Path) -> Iterator[Desk]:
    """A print that was lent to a person, came back, was certified, and sold to them."""
    held = desk(tmp_path / "studio")
    keep: list[Callable[[], object]] = []
    people = People(held.folder, keep)
    key = people.enter(name=WHO_BOUGHT, dealer=False, **PAGE)
    people.enter(name="Another Buyer")
    prints = [held.register.read.get(Print, held.print)]
    terms = terms_key(held.folder, keep, price=PRICE, place=HANGS)
    for write in keep:
        write()
    with held.register.act(WHO) as act:
        move_prints(act, prints, "lent", "2031-04-01", party=key, terms=terms)
        move_prints(act, prints, "returned", "2031-05-01", giver=key)
    certify(held.register, held.folder, held.print)
    keep.clear()
    more = terms_key(held.folder, keep, price="again " + PRICE)
    for write in keep:
        write()
    with held.register.act(WHO) as act:
        move_prints(act, prints, "sold", "2031-05-20", party=key, terms=more)
    Drafts(held.folder.path).put("release", f'{{"to": "{WHO_BOUGHT}", "on": ""}}')
    Drafts(held.folder.path).put("other", '{"to": "Another Buyer"}')
    left_over = held.folder.path / "contacts" / f".{key}.json.0011.part"
    left_over.write_bytes(WHO_BOUGHT.encode()[:30] + PAGE["email"].encode())
    yield held
    held.register.close()


FORMS: tuple[Literal["NFC", "NFD"], ...] = ("NFC", "NFD")


def found(folder: Path) -> set[tuple[str, str]]:
    """(file, words) of everything about the person that stands in any file's bytes."""
    said = [WHO_BOUGHT, *PAGE.values(), PRICE, HANGS, "Quillfeather", "quillfeather"]
    said.remove("1961-")
    hits: set[tuple[str, str]] = set()
    for path in folder.rglob("*"):
        data = path.read_bytes() if path.is_file() else b""
        for words in said:
            for form in FORMS:
                text = unicodedata.normalize(form, words)
                escaped = text.replace("\n", "\\n")
                if any(
                    one in data
                    for one in (text.encode(), text.encode("utf-16-le"), escaped.encode())
                ):
                    hits.add((str(path.relative_to(folder)), words))
    return hits


def test_nothing_is_left_in_any_byte_and_the_journal_is_valid(studio: Desk) -> None:
    folder = studio.folder.path
    assert {file.split("/")[0] for file, _words in found(folder)} == {"contacts", "private"}
    head = studio.register.read.head()
    key, page = find_contact(studio.register.read, studio.folder, WHO_BOUGHT.upper())
    assert page is not None
    assert page.name == WHO_BOUGHT
    erased = erase_contact(studio.register, studio.folder, key)
    assert (erased.terms, erased.events, erased.remains) == (2, 3, ())
    assert erased.drafts == (f"contacts/.{key}.json.0011.part", "private/release.json")
    assert found(folder) == set()
    # while the register is open, its log and index of words were searched too
    assert (folder / "register.db-wal").exists()
    studio.register.close()
    assert found(folder) == set()
    assert studio.register.folder == folder
    report = audit(folder)
    assert not report.damaged
    (other,) = [one.what for one in report.findings if "erased" not in one.what]
    assert other.startswith("no record speaks of the page")
    with studio.folder.open() as register:
        assert register.read.head() == head
        line = custody_of(register.read, studio.folder, studio.print, private=True).line
    assert line == "The artist; name erased, or left out of this copy, 2031-05-20."


@pytest.mark.parametrize("after", range(5))
def test_who_was_cut_short_goes_on_by_the_name(
    studio: Desk, monkeypatch: pytest.MonkeyPatch, after: int
) -> None:
    """Two sets of terms, a draft, a leaving and the page: cut short after each of them."""
    left = [after]

    def cut_short(path: Path) -> None:
        if not left[0]:
            raise KeyboardInterrupt
        left[0] -= 1
        overwrite(path)

    key, _page = find_contact(studio.register.read, studio.folder, WHO_BOUGHT)
    with monkeypatch.context() as patch:
        for module in (private_folder, erasing):
            patch.setattr(module, "overwrite", cut_short)
        with pytest.raises(KeyboardInterrupt):
            erase_contact(studio.register, studio.folder, key)
    assert find_contact(studio.register.read, studio.folder, WHO_BOUGHT)[0] == key
    erase_contact(studio.register, studio.folder, key)
    assert found(studio.folder.path) == set()


def test_others_stay(studio: Desk) -> None:
    key, _page = find_contact(studio.register.read, studio.folder, WHO_BOUGHT)
    erase_contact(studio.register, studio.folder, key)
    assert [page.name for _key, page in Contacts(studio.folder.path).list()] == ["Another Buyer"]
    assert Drafts(studio.folder.path).names() == ["other"]


def test_a_name_that_was_written_into_the_register_is_told(studio: Desk) -> None:
    seq = revise(studio.register, studio.print, features=f"dedicated to {WHO_BOUGHT}")
    key, _page = find_contact(studio.register.read, studio.folder, WHO_BOUGHT)
    erased = erase_contact(studio.register, studio.folder, key)
    assert {one.records for one in erased.remains if one.file.startswith("register.db")} == {(seq,)}


def test_whom_is_meant(studio: Desk) -> None:
    book = Contacts(studio.folder.path)
    key, _page = find_contact(studio.register.read, studio.folder, "another buyer")
    assert find_contact(studio.register.read, studio.folder, key[:8])[0] == key
    book.add(name="Another Buyer", place="Elsewhere")
    with pytest.raises(Refused, match="2 pages of the contact book are meant"):
        find_contact(studio.register.read, studio.folder, "Another Buyer")
    with pytest.raises(NotFound, match="no such page"):
        find_contact(studio.register.read, studio.folder, "Nobody")
    with pytest.raises(NotFound, match="not the key of a page"):
        erase_contact(studio.register, studio.folder, "../register.db")


@pytest.mark.parametrize("name", ["田中一", "Ada", "李"])
def test_a_short_name_is_found_in_half_filled_forms_and_in_texts(studio: Desk, name: str) -> None:
    key = Contacts(studio.folder.path).add(name=name)
    drafts = Drafts(studio.folder.path)
    drafts.put("note-a", f'{{"words": "sell to {name} for 900"}}')
    drafts.put("note-b", f'{{"words": {json.dumps("for " + name)}}}')
    drafts.put("note-c", '{"words": "from Canada, in 行李, by 田中"}')
    seq = revise(studio.register, studio.print, features=f"dedicated to {name}")
    revise(studio.register, studio.print, features="a journey to Adana")
    (studio.folder.path / "settings.toml").write_text(f"# for {name}\n", encoding="utf-8")
    erased = erase_contact(studio.register, studio.folder, key)
    assert erased.drafts == ("private/note-a.json", "private/note-b.json")
    assert "note-c" in drafts.names()
    assert "settings.toml" in {one.file for one in erased.remains}
    assert {one.records for one in erased.remains if one.file == "register.db"} == {(seq,)}
    assert any("too short" in one for one in erased.unsure) is (len(name.encode()) < 4)


def test_others_whose_names_hold_the_name_stay(studio: Desk) -> None:
    """A form, a page and an entry of somebody with a longer name; white space is any."""
    book, drafts = Contacts(studio.folder.path), Drafts(studio.folder.path)
    key = book.add(name="Ida Strand")
    book.add(name="Ida Strandholm", note="a note\nfor her")
    drafts.put("custody-a", '{"to": "Ida Strandholm"}')
    drafts.put("custody-b", '{"to": "ida  strand"}')
    drafts.put("custody-c", json.dumps({"note": "a parcel\nIda\nStrand"}))
    revise(studio.register, studio.print, features="dedicated to Ida Strandholm")
    assert find_contact(studio.register.read, studio.folder, "IDA \n Strand")[0] == key
    erased = erase_contact(studio.register, studio.folder, key)
    assert erased.drafts == ("private/custody-b.json", "private/custody-c.json")
    assert (erased.remains, erased.unsure) == ((), ())
    assert "custody-a" in drafts.names()


def test_a_form_with_no_more_than_the_address_stays_and_is_told(studio: Desk) -> None:
    """Others may live there; who only lives in the same town is not told."""
    Drafts(studio.folder.path).put("custody-a", json.dumps({"to": "9 Quillfeather Lane"}))
    Contacts(studio.folder.path).add(name="Ida Strand", address="4 Quay Street\nOvermoor")
    key, _page = find_contact(studio.register.read, studio.folder, WHO_BOUGHT)
    erased = erase_contact(studio.register, studio.folder, key)
    assert erased.drafts == (f"contacts/.{key}.json.0011.part", "private/release.json")
    assert [one.file for one in erased.remains] == ["private/custody-a.json"]


def test_a_name_with_other_white_space_in_the_journal_is_told(studio: Desk) -> None:
    key = Contacts(studio.folder.path).add(name="Ida Strand")
    seq = revise(studio.register, studio.print, features="dedicated to Ida\nStrand")
    erased = erase_contact(studio.register, studio.folder, key)
    assert {one.records for one in erased.remains if one.file == "register.db"} == {(seq,)}


def test_what_a_killed_command_left_is_erased_where_it_is_the_persons(studio: Desk) -> None:
    """Terms that no record names, and parts of pages, wherever they lie."""
    key, _page = find_contact(studio.register.read, studio.folder, WHO_BOUGHT)
    folder, book = studio.folder.path, TermsBook(studio.folder.path)
    for said in (Terms(price="5 EUR", note=f"for {WHO_BOUGHT}"), Terms(price="6 EUR")):
        _key, keep = book.prepare(said)
        keep()
    (held, *_) = (one.body.terms for one in studio.register.read.all(CustodyEvent))
    parts = [f"private/terms/.{held}.json.{'0a' * 8}.part", f"contacts/.{key}.json.{'0b' * 8}.part"]
    for part in parts:
        (folder / part).write_bytes(b'{"')
    named = f"private/terms/.{'ab' * 32}.json.{'0c' * 8}.part"
    (folder / named).write_bytes(f'{{"terms":{{"note":"{WHO_BOUGHT}'.encode())
    other = folder / "private" / "terms" / f".{'cd' * 32}.json.{'0d' * 8}.part"
    other.write_bytes(b'{"')
    erased = erase_contact(studio.register, studio.folder, key)
    assert erased.terms == 3
    assert {*parts, named} <= set(erased.drafts)
    assert [path for path in folder.rglob("*.part") if path != other] == []
    assert other.exists()
    assert [book.get(one).price for one in book.filed()] == ["6 EUR"]
    assert "no record names 1 of the pages of terms" in erased.unsure[0]
    assert found(folder) == set()


def test_what_cannot_be_read_is_told(studio: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    """A draft stops the erasing, which goes on once it can be read; another file is named."""
    key, _page = find_contact(studio.register.read, studio.folder, WHO_BOUGHT)
    (studio.folder.path / "scan.jpg").write_bytes(b"a picture")
    shut = ["other.json", "scan.jpg"]
    read = Path.read_bytes

    def refusing(path: Path) -> bytes:
        if path.name in shut:
            raise PermissionError(13, "Permission denied", str(path))
        return read(path)

    monkeypatch.setattr(Path, "read_bytes", refusing)
    with pytest.raises(Refused, match=r"other\.json: cannot be read .*erase the person again"):
        erase_contact(studio.register, studio.folder, key)
    assert Contacts(studio.folder.path).holds(key)
    shut.remove("other.json")
    erased = erase_contact(studio.register, studio.folder, key)
    assert erased.unsure == ("scan.jpg cannot be read (Permission denied), and was not searched",)
    shut.clear()
    assert found(studio.folder.path) == set()
