"""A name is found as a word of its own, in every script, and not within other words."""

import json

import pytest

from provenance.records.private import Contact
from provenance.studio.sought import Sought, sought


def found(name: str, words: str) -> bool:
    """Whether the name is found in a form with those words, written plainly and as escapes."""
    who = sought(Contact(name=name))
    forms = [json.dumps({"to": words}, ensure_ascii=one).encode() for one in (False, True)]
    # and in the beginning of one, as a program leaves it that is ended
    plain, *others = (who.in_text(one) for form in forms for one in (form, form[:-1]))
    assert others[1] == plain
    assert plain == others[0]
    return plain


def in_bytes(name: str, data: bytes) -> bool:
    """Whether the name is found in the bytes of a file."""
    return sought(Contact(name=name)).in_bytes(data)


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
        ("Anna Berg", "for Anna  Berg"),
        ("Anna Berg", "for ANNA\nBERG, framed"),
        ("Anna Berg", "a parcel\nAnna\u00a0Berg\n9 Quay Street"),
        ("Anna\u2003 Berg", "Anna Berg"),
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
        ("Anna Berg", "Anna Bergmann"),
        ("Anna Berg", "Joanna Berg"),
        ("Anna Berg", "AnnaBerg"),
        ("Person 5", "Person 50, Person 59"),
        ("Anna Berg", "Anna, Berg"),
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
    assert who.in_bytes(f"\0{name}\x01".encode()) is not short


@pytest.mark.parametrize("encoding", ["utf-8", "utf-16-le"])
@pytest.mark.parametrize(
    ("words", "stands"),
    [
        ("\0Anna Berg\0", True),
        ("Anna\t Berg", True),
        ("(Anna\u2003Berg)", True),
        ("様Anna Berg様", True),
        ("Anna Bergmann", False),
        ("Anna Bergé, Joanna Berg", False),
        ("Anna Berge, then Anna Berg.", True),
        ("Anna Berg\u0301", False),
    ],
)
def test_whole_words_among_bytes(words: str, stands: bool, encoding: str) -> None:
    assert in_bytes("Anna Berg", words.encode(encoding)) is stands


@pytest.mark.parametrize(
    ("data", "stands"),
    [
        (rb'"seen\nAnna\n\tBerg"', True),
        (rb'"Anna\u00a0Berg"', True),
        (rb'"Anna Berg\u00e9"', False),
        (rb'"\u00e9Anna Berg"', False),
        (b"\xffAnna Berg\xff", True),
    ],
)
def test_escapes_stand_for_what_they_are(data: bytes, stands: bool) -> None:
    assert in_bytes("Anna Berg", data) is stands


def test_words_that_begin_within_others_are_found() -> None:
    assert in_bytes("Ana Ana", b"Joana Ana Ana")


def test_of_two_fields_with_one_name_both_are_read() -> None:
    who = sought(Contact(name="Ada"))
    assert who.in_text(b'{"to": "Ada", "to": "Adana"}')


def test_of_a_page_that_is_not_legible_nothing_is_found() -> None:
    assert not Sought().in_text(b'""')
    assert not Sought().in_bytes(b"")
    assert not Sought().short


ADA = Contact(
    name="Ada Quill",
    address="9 Quill Lane\nOvermoor",
    email="ada@quill.example",
    note="collects pictures of tides",
)


@pytest.mark.parametrize(
    ("words", "named", "found"),
    [
        ("for ada quill", True, True),
        ("write to ada@quill.example", True, True),
        ("9 Quill Lane", False, True),
        ("9 Quill Lane  Overmoor", False, True),
        ("collects pictures of tides", False, True),
        ("by the sea at Overmoor", False, False),
        ("collects pictures", False, False),
    ],
)
def test_who_lives_in_the_same_place_is_not_the_person(
    words: str, named: bool, found: bool
) -> None:
    who = sought(ADA)
    data = json.dumps({"to": words}).encode()
    assert who.named_in(data) is named
    assert (who.in_bytes(data) or who.in_text(data)) is found


@pytest.mark.parametrize(
    ("note", "found"), [("dealer", False), ("dealer 2", True), ("東京都千代田区", True)]
)
def test_a_word_that_tells_of_nobody_is_not_looked_for(note: str, found: bool) -> None:
    assert sought(Contact(name="Ada Quill", note=note)).in_bytes(note.encode()) is found
