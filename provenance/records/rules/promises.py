"""Rules for what is said about an edition, and for its share of artist's proofs."""

from collections.abc import Iterator
from typing import get_args

from provenance.craft.counting import proofs_share
from provenance.errors import Problem
from provenance.model.disclosure import Disclosure, Item
from provenance.model.edition import Edition
from provenance.model.instruction import Instruction
from provenance.records.rules.case import Case
from provenance.records.rules.paperwork import SHA256


def edition_cautions(case: Case[Edition]) -> Iterator[Problem]:
    """Many artist's proofs, and a second edition of which nobody is told."""
    body = case.body
    figures = (body.numbered, body.artist_proofs)
    if case.before is None or figures != (case.before.numbered, case.before.artist_proofs):
        share = proofs_share(body)
        if share is not None and share.excess:
            yield case.problem(share.said, "artist_proofs", share.mend)
    if case.before is None and not body.disclosed:
        others = case.act.linked(body.negative, Edition, "negative")
        if others:
            codes = ", ".join(one.body.code for one in others)
            yield case.problem(
                f"another edition of this negative is on record: {codes}",
                "disclosed",
                "write how buyers of both are told; lists and certificates name the other",
            )


def disclosure(case: Case[Disclosure]) -> Iterator[Problem]:
    """Each item is answered by itself, once; one disclaimer for all is none."""
    answers = case.body.answers
    if not answers:
        yield case.problem("answers nothing", "answers", "name an item and what is said of it")
    named = [one.item for one in answers]
    for item in sorted({one for one in named if named.count(one) > 1}):
        yield case.problem(f"answers “{item}” twice", "answers", "answer each item once")
    if {one.item for one in answers if one.reply == "disclaimed"} == set(get_args(Item)):
        yield case.problem(
            "disclaims everything, which is a disclaimer of nothing",
            "answers",
            "disclaim only what is not known, item by item",
        )
    for one in answers:
        if one.reply == "stated" and not one.words.strip():
            yield case.problem(f"“{one.item}” is stated in no words", "answers", "write them")
    for other in case.act.linked(case.body.edition, Disclosure, "edition"):
        if other.id != case.record:
            yield case.problem(
                f"the answers for this edition are in #{other.id}", "edition", "change those"
            )


def instruction(case: Case[Instruction]) -> Iterator[Problem]:
    """An instruction has words and a day, and names nobody."""
    yield from case.edtf("given_on", case.body.given_on)
    if not case.body.words.strip():
        yield case.problem("is empty", "words", "write it as the artist wants it done")
    if case.body.person is not None and not SHA256.fullmatch(case.body.person):
        yield case.problem(
            "the register never holds a person",
            "person",
            "enter the person in the contact book and give the key of that page",
        )
