"""The contact book on the command line: spoiled pages, and names that come from anybody."""

import io
import sys
from pathlib import Path

import pytest

from provenance.records.private import Contacts
from tests.cli.conftest import Desk

SALE = """\
[day]
date = 2031-06-01
[[contact]]
name = "Ottoline Farrowby"
[[contact]]
name = "Ida"
[[custody]]
prints = ["QUAY 7/25"]
event = "sold"
on = 2031-05-05
to = "Ottoline Farrowby"
price = "900 EUR"
"""


@pytest.fixture
def sold(studio: Desk, tmp_path: Path) -> Desk:
    """The studio, after its print was sold; somebody else is in the book as well."""
    sheet = tmp_path / "sale.toml"
    sheet.write_text(SALE, encoding="utf-8")
    assert studio.run("record", str(sheet)).status == 0
    return studio


def spoil(sold: Desk) -> str:
    """Spoil the buyer's page; its key."""
    (key,) = Contacts(sold.path).named("Ottoline Farrowby")
    (sold.path / "contacts" / f"{key}.json").write_bytes(b'{"contact":{"na')
    return key


def test_a_spoiled_page_is_listed_as_not_legible(sold: Desk) -> None:
    assert sold.run("contacts").status == 0
    key = spoil(sold)
    listed = sold.run("contacts")
    assert listed.status == 3
    assert [line.split() for line in listed.lines[1:]] == [
        [_key(sold, "Ida")[:12], "Ida"],
        [key[:12], "not", "legible"],
    ]
    assert f"give it up: provenance erase {key[:12]}" in listed.err
    as_json = sold.run("contacts", "--json")
    assert as_json.status == 3
    assert [one["legible"] for one in as_json.data] == [True, False]
    assert as_json.data[1] == {"key": key, "legible": False}


def _key(sold: Desk, name: str) -> str:
    (key,) = Contacts(sold.path).named(name)
    return key


@pytest.mark.parametrize("letters", [16, 64])
def test_a_spoiled_page_is_erased_with_its_terms(sold: Desk, letters: int) -> None:
    key = spoil(sold)
    assert list((sold.path / "private" / "terms").glob("*.json"))
    erased = sold.run("erase", key[:letters], "--yes", "--json")
    assert erased.status == 0
    (told,) = erased.data
    assert (told["key"], told["terms"], told["remains"]) == (key, 1, [])
    assert "could not be read" in told["unsure"][0]
    assert not list((sold.path / "private" / "terms").glob("*.json"))
    assert not (sold.path / "contacts" / f"{key}.json").exists()
    assert sold.run("contacts").status == 0
    assert sold.run("audit").status == 0


def test_the_terms_of_a_page_that_is_gone_are_erased_by_its_key(sold: Desk) -> None:
    key = _key(sold, "Ottoline Farrowby")
    (sold.path / "contacts" / f"{key}.json").unlink()
    (told,) = sold.run("erase", key[:16], "--yes", "--json").data
    assert told["terms"] == 1
    assert not list((sold.path / "private" / "terms").glob("*.json"))
    again = sold.run("erase", key[:16], "--yes", "--json")
    assert (again.status, again.problem["what"][:26]) == (1, "the contact book has no pa")


def test_a_short_name_is_said_not_to_be_searched_for_everywhere(sold: Desk) -> None:
    erased = sold.run("erase", "Ida", "--yes")
    assert erased.status == 0
    assert "not certain: the name is too short" in erased.err


@pytest.mark.parametrize("answer", ["n\n", "y\n"])
def test_no_name_steers_the_terminal_that_asks(
    sold: Desk, monkeypatch: pytest.MonkeyPatch, answer: str
) -> None:
    """A page of a folder from a stranger, with a right commitment."""
    monkeypatch.setattr("provenance.records.private.tidy", lambda text: text)
    key = Contacts(sold.path).add(name="Ann\x1b]0;title\x07\u202eX")
    terminal = io.StringIO(answer)
    monkeypatch.setattr(terminal, "isatty", lambda: True, raising=False)
    monkeypatch.setattr(sys, "stdin", terminal)
    asked = sold.run("erase", key[:16])
    assert "Erase Ann\\u001b]0;title\\u0007\\u202eX for good?" in asked.err
    assert not set("\x1b\x07\u202e") & set(asked.out + asked.err)
    assert asked.status == (0 if answer == "y\n" else 130)
    assert Contacts(sold.path).holds(key) is (answer == "n\n")
