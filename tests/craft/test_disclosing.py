"""The checklist: what the record states, what is answered, what is open."""

import dataclasses
from typing import Any

import pytest
from msgspec.structs import replace as alter

from provenance.craft.disclosing import ASKED, ITEMS, Checked, checklist
from provenance.craft.history import Fact, PrintHistory
from provenance.craft.object_id import object_id
from provenance.model.disclosure import Answer, Item
from tests.craft.histories import history
from tests.studios import edition, signature


def changed(record: PrintHistory, part: str, **fields: Any) -> PrintHistory:
    """`record` with fields of one of its parts changed."""
    held: Fact[Any] = getattr(record, part)
    now = Fact(held.id, held.version, alter(held.body, **fields), held.entered_on)
    parts: dict[str, Any] = {part: now}
    return dataclasses.replace(record, **parts)


def checked(record: PrintHistory, *answers: Answer) -> dict[Item, Checked]:
    return {one.item: one for one in checklist(record, (), answers)}


def test_every_item_is_there_once_and_asked_in_words() -> None:
    assert [one.item for one in checklist(history(), (), ())] == list(ITEMS)
    assert set(ASKED) == set(ITEMS)


@pytest.mark.parametrize(
    ("part", "fields", "item", "words"),
    [
        ("negative", {"copy_of": ""}, "reproduction", "no: printed from the original negative"),
        ("negative", {"copy_of": "an etching"}, "reproduction", "a reproduction of an etching"),
        ("negative", {"state": "cancelled"}, "negative", "cancelled"),
        ("negative", {"state": "in use"}, "negative", "intact, in use"),
        ("studio", {"died": "1990"}, "posthumous", "yes: printed 2031-03-02, the artist died 1990"),
        ("studio", {"died": None}, "posthumous", "no: 2031-03-02"),
        (
            "print",
            {"signature": signature(means="stamp", medium="ink")},
            "signature",
            "not signed; it bears a stamp, ink, verso, 2031-03-09",
        ),
        (
            "print",
            {"signature": signature(by="other", role="the estate")},
            "signature",
            "not by the artist, by the estate, pencil, verso, 2031-03-09",
        ),
    ],
)
def test_what_the_record_states(part: str, fields: dict[str, Any], item: Item, words: str) -> None:
    told = checked(changed(history(), part, **fields))[item]
    assert (told.reply, told.words, told.recorded) == ("stated", words, True)


def test_what_the_record_does_not_state_is_open_until_it_is_answered() -> None:
    bare = changed(changed(history(), "negative", made=None), "studio", died="2031-03")
    answers = (
        Answer(item="negative made", reply="disclaimed", words="not known"),
        Answer(item="reproduction", reply="not applicable"),
        Answer(item="total", reply="disclaimed"),
    )
    assert {one.item for one in checked(bare).values() if one.reply == "open"} == {
        "negative made",
        "reproduction",
        "posthumous",
    }
    told = checked(bare, *answers)
    assert [told[answer.item].reply for answer in answers[:2]] == ["disclaimed", "not applicable"]
    # what is on record is not disclaimed
    assert (told["total"].reply, told["total"].words) == ("stated", "25")


def test_other_editions_are_named_with_their_sizes() -> None:
    (told,) = [
        one
        for one in checklist(history(), (edition(1, code="L", name="Large", numbered=8),), ())
        if one.item == "other editions"
    ]
    assert told.words == "Large, 10 in all, image 24.0 × 30.0 cm"


def test_object_id_has_its_headings_and_says_what_is_missing() -> None:
    # S: Object ID (ICOM)
    told = {one.name: one.words for one in object_id(history())}
    assert list(told) == [
        "type of object",
        "measurements",
        "materials and techniques",
        "inscriptions and markings",
        "date",
        "maker",
        "subject",
        "title",
        "distinguishing features",
        "description",
        "photograph",
    ]
    assert not told["subject"]
    whole = changed(history(), "negative", subject="A slip", description="Two chains")
    assert {one.name for one in object_id(whole) if not one.words} < {
        name for name, words in told.items() if not words
    }
    assert all(one.mend for one in object_id(history()) if not one.words)
