"""The pages beside the register: persons in the contact book, terms of sales and loans."""

import re
import sqlite3
from collections.abc import Iterator
from pathlib import Path

from provenance.model.custody import CustodyEvent
from provenance.model.instruction import Instruction
from provenance.records.checks.finding import Finding, damage, note, spare
from provenance.records.checks.held import held
from provenance.records.private import Contacts
from provenance.records.terms import TermsBook

_KEYS = re.compile(rb'"([0-9a-f]{64})"')
_LISTED = 20
"""How many pages of a sort that no entry names are listed; the rest are counted."""
_ON_PURPOSE = "nothing need be done if it was erased on purpose"


def check_pages(connection: sqlite3.Connection, folder: Path) -> Iterator[Finding]:
    """Whether the pages are those that the register was promised, and no others."""
    contacts, terms = Contacts(folder), TermsBook(folder)
    persons, agreed = set(contacts.filed()), set(terms.filed())
    for record, body in held(connection, "custody"):
        if not isinstance(body, CustodyEvent):
            continue
        keys = [key for key in (body.party, body.giver) if key]
        persons.difference_update(keys)
        if not all(map(contacts.holds, keys)):
            what = "its page in the contact book was erased, or is missing"
            yield note(what, f"custody #{record}", _ON_PURPOSE)
        agreed.discard(body.terms or "")
        if body.terms and not terms.holds(body.terms):
            what = "its page of terms was erased, or is missing"
            yield note(what, f"custody #{record}", _ON_PURPOSE)
    for record, body in held(connection, "instruction"):
        person = body.person if isinstance(body, Instruction) else None
        persons.discard(person or "")
        if person and not contacts.holds(person):
            yield note(
                "its page in the contact book was erased, or is missing",
                f"instruction #{record}",
                "name somebody else to whom it is entrusted",
            )
    yield from _half_erased("contacts", contacts.half_erased())
    yield from _half_erased("private/terms", terms.half_erased())
    for key in contacts.altered():
        yield damage(
            f"the page {key[:12]}… is not the one that was entered",
            "contact book",
            f"bring it back from a backup, or give it up: `provenance erase {key[:12]}`",
        )
    for key in terms.altered():
        yield damage(
            f"private/terms/{key}.json is not what was entered",
            "terms",
            "bring it back from a backup; the price, place and conditions stand nowhere else",
        )
    yield from _unnamed(connection, persons, agreed)


def _half_erased(place: str, keys: Iterator[str]) -> Iterator[Finding]:
    for key in keys:
        yield note(
            f"{place}/{key}.json was being erased by a program that was ended",
            mend="what was in it is gone; it may be deleted",
        )


def unnamed(connection: sqlite3.Connection, keys: set[str]) -> set[str]:
    """Those of the `keys` that no entry names, of whatever version.

    Their pages are of an act that was never written; what was corrected or taken back
    still speaks of its own.
    """
    loose = set(keys)
    if loose:
        for (entry,) in connection.execute("SELECT CAST(entry AS BLOB) FROM journal"):
            loose.difference_update(key.decode() for key in _KEYS.findall(entry))
    return loose


def _unnamed(
    connection: sqlite3.Connection, persons: set[str], agreed: set[str]
) -> Iterator[Finding]:
    loose = unnamed(connection, persons | agreed)
    # a killed import leaves thousands, and each sort is cleared by a command of its own
    people, terms = sorted(persons & loose), sorted(agreed & loose)
    clear = "`provenance erase --unnamed --contacts`"
    for key in people[:_LISTED]:
        yield spare(
            f"no record speaks of the page {key[:12]}… of the contact book",
            f"unless it is kept for later, it may be erased: `provenance erase {key[:12]}`,"
            f" or all of this sort: {clear}",
        )
    if more := len(people[_LISTED:]):
        mend = f"unless any is kept for later, they may be erased: {clear}"
        yield spare(f"no record speaks of {_pages(more)} of the contact book", mend)
    clear = "`provenance erase --unnamed`"
    for key in terms[:_LISTED]:
        yield spare(
            f"no record speaks of private/terms/{key}.json",
            f"it may be erased, with all of this sort: {clear}",
        )
    if more := len(terms[_LISTED:]):
        yield spare(f"no record speaks of {_pages(more)} of terms", f"they may be erased: {clear}")


def _pages(more: int) -> str:
    return f"{more} more page{'s' * (more > 1)}"
