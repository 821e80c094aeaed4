"""Erasing a person leaves nothing of them in any byte of the studio's folder."""

import unicodedata
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Literal

import pytest

from provenance.errors import NotFound, Refused
from provenance.model.prints import Print
from provenance.records import private_folder
from provenance.records.audit import audit
from provenance.records.private import Contacts, Drafts
from provenance.records.private_folder import overwrite
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
    key, page = find_contact(studio.folder, WHO_BOUGHT.upper())
    assert page.name == WHO_BOUGHT
    erased = erase_contact(studio.register, studio.folder, key)
    assert (erased.terms, erased.events, erased.remains) == (2, 3, ())
    assert erased.drafts == ("private/release.json", f"contacts/.{key}.json.0011.part")
    assert found(folder) == set()
    # while the register is open, its log and index of words were searched too
    assert (folder / "register.db-wal").exists()
    studio.register.close()
    assert found(folder) == set()
    assert studio.register.folder == folder
    report = audit(folder)
    assert not report.damaged
    assert {"erased" in one.what for one in report.findings} == {True}
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

    key, _page = find_contact(studio.folder, WHO_BOUGHT)
    with monkeypatch.context() as patch:
        for module in (private_folder, erasing):
            patch.setattr(module, "overwrite", cut_short)
        with pytest.raises(KeyboardInterrupt):
            erase_contact(studio.register, studio.folder, key)
    assert find_contact(studio.folder, WHO_BOUGHT)[0] == key
    erase_contact(studio.register, studio.folder, key)
    assert found(studio.folder.path) == set()


def test_others_stay(studio: Desk) -> None:
    key, _page = find_contact(studio.folder, WHO_BOUGHT)
    erase_contact(studio.register, studio.folder, key)
    assert [page.name for _key, page in Contacts(studio.folder.path).list()] == ["Another Buyer"]
    assert Drafts(studio.folder.path).names() == ["other"]


def test_a_name_that_was_written_into_the_register_is_told(studio: Desk) -> None:
    seq = revise(studio.register, studio.print, features=f"dedicated to {WHO_BOUGHT}")
    key, _page = find_contact(studio.folder, WHO_BOUGHT)
    erased = erase_contact(studio.register, studio.folder, key)
    assert {one.records for one in erased.remains if one.file.startswith("register.db")} == {(seq,)}


def test_whom_is_meant(studio: Desk) -> None:
    book = Contacts(studio.folder.path)
    key, _page = find_contact(studio.folder, "another buyer")
    assert find_contact(studio.folder, key[:8])[0] == key
    book.add(name="Another Buyer", place="Elsewhere")
    with pytest.raises(Refused, match="2 pages of the contact book are meant"):
        find_contact(studio.folder, "Another Buyer")
    with pytest.raises(NotFound, match="no such page"):
        find_contact(studio.folder, "Nobody")
    with pytest.raises(NotFound, match="not the key of a page"):
        erase_contact(studio.register, studio.folder, "../register.db")
