"""A name is found as a word of its own, in every script, and not within other words."""

import json

import pytest

from provenance.records.private import Contact
from provenance.studio.sought import Sought, sought


def found(name: str, words: str) -> bool:
    """Whether the name is found in a form with those words, written plainly and as escapes."""
    who = sought(Contact(name=name))
    plain, escaped = (
        who.in_text(json.dumps({"to": words}, ensure_ascii=one).encode()) for one in (False, True)
    )
    assert plain == escaped
    return plain


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("Ada", "sell to Ada for 900"),
        ("Ada", "ADA’s print"),
        ("Ada", "Adana, then ada"),
        ("Zoë", "for Zoe\u0308."),
        ("田中一", "sell to 田中一 for 900"),
        ("田中一", "田中一様に売る"),
        ("김철수", "김철수에게"),
        ("สม", "ขายให้สมแล้ว"),
        ("李", "to 李, by post"),
    ],
)
def test_found(name: str, words: str) -> None:
    assert found(name, words)


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("Ada", "Adana"),
        ("Ada", "Canada"),
        ("Ada", "Ada2"),
        ("Zoë", "Zoëlla"),
        ("李", "行李"),
        ("田中一", "田中"),
    ],
)
def test_not_found(name: str, words: str) -> None:
    assert not found(name, words)


@pytest.mark.parametrize(
    ("name", "short"), [("Ada", True), ("李", True), ("Adam", False), ("田中", False)]
)
def test_what_is_too_short_is_not_searched_for_as_bytes(name: str, short: bool) -> None:
    who = sought(Contact(name=name))
    assert who.short is short
    assert who.in_bytes(f"xx{name}xx".encode()) is not short


def test_of_a_page_that_is_not_legible_nothing_is_found() -> None:
    assert not Sought().in_text(b'""')
    assert not Sought().in_bytes(b"")
    assert not Sought().short
