"""Which print somebody asks about, from what a collector has in hand."""

from collections.abc import Iterator

from provenance.errors import NotFound, Problem, Refused
from provenance.model.certificate import Certificate
from provenance.model.edition import Edition
from provenance.model.negative import Negative
from provenance.model.prints import Print
from provenance.records.reader import Reader, Stored
from provenance.studio.browsing import name_of, search, summary
from provenance.studio.references import resolve

_MOST = 6
"""So many near ones are offered."""


def asked_about(reader: Reader, text: str) -> Stored[Print]:
    """The print that `text` names: by its number, its mark, its certificate, words of its title.

    Words are enough where they find one print and no other.  Raises NotFound,
    offering near ones, and Refused where several are meant.
    """
    try:
        held = resolve(reader, text)
    except NotFound as error:
        return _by_words(reader, text, error)
    if isinstance(held.body, Certificate):
        return reader.get(Print, held.body.print)
    if isinstance(held.body, Print):
        return reader.get(Print, held.id)
    raise Refused(
        Problem(
            f"this is the {held.body.KIND} {name_of(reader, held)}, and an answer is about a print",
            text,
            mend="name one print: QUAY 7/25, or the number of its certificate",
        )
    )


def _by_words(reader: Reader, text: str, error: NotFound) -> Stored[Print]:
    if any(problem.mend.startswith("perhaps ") for problem in error.problems):
        raise error
    found = list(dict.fromkeys(_prints_found(reader, text)))
    if not found:
        raise error
    if len(found) == 1:
        return reader.get(Print, found[0])
    shown = (summary(reader, reader.get(Print, record)) for record in found[:_MOST])
    names = ", ".join(f"{one.name} (#{one.id})" for one in shown)
    more = f", and {len(found) - _MOST} more" if len(found) > _MOST else ""
    raise Refused(
        Problem("these words find more than one print", text, mend=f"name one: {names}{more}")
    )


def _prints_found(reader: Reader, words: str) -> Iterator[int]:
    """Prints that the words are in, and those of an edition or a negative that they are in."""
    for one in search(reader, words):
        if one.kind == Print.KIND:
            yield one.id
        editions = [one.id] if one.kind == Edition.KIND else []
        if one.kind == Negative.KIND:
            editions = [held.id for held in reader.linked(one.id, Edition, "negative")]
        for edition in editions:
            yield from (held.id for held in reader.linked(edition, Print, "edition"))
