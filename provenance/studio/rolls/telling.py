"""What is said of one impression, to anybody and in full."""

from collections.abc import Callable, Iterator

from provenance.craft.wording import Wording
from provenance.records.private import Contacts
from provenance.records.private_pages import Standing
from provenance.studio.rolls.held import Impression
from provenance.studio.rolls.words import Words

UNREAD: dict[Standing, str] = {
    "not legible": "illegible",
    "erased": "erased",
    "absent": "not_here",
}
"""What the words for a page are called that cannot be read; of terms, with `_terms`."""
People = Callable[[str | None], str]
"""The name on a page of the contact book, by its key."""


def people(contacts: Contacts, words: Words) -> People:
    """Names by keys; where a page cannot be read, it is said why."""

    def name(key: str | None) -> str:
        if key is None:
            return ""
        standing = contacts.standing(key)
        return contacts.get(key).name if standing == "whole" else words(UNREAD[standing])

    return name


class Telling:
    """Words for impressions; persons are named only where `people` is given."""

    def __init__(self, words: Words, wording: Wording, people: People | None) -> None:
        self.words, self.wording, self._people = words, wording, people

    @property
    def full(self) -> bool:
        """Whether persons are named."""
        return self._people is not None

    def person(self, key: str | None) -> str:
        """The name behind a key; empty where nobody is named, or nobody is to be."""
        return self._people(key) if self._people is not None else ""

    def state(self, one: Impression) -> str:
        """Where an impression is, whether it is signed, and what it replaces."""
        return ", ".join(filter(None, self._states(one)))

    def _states(self, one: Impression) -> Iterator[str]:
        words, body = self.words, one.print.body
        gone = body.existence != "exists"
        if gone:
            day = body.gone_on if self.full else None
            yield words(body.existence, day=day) if day else words(f"gone_{body.existence}")
        else:
            yield self.where(one)
        if one.where.where in ("consigned", "lent") and self.full and one.where.move:
            until = one.where.move.body.until
            yield words("till", day=until) if until else ""
        if body.signature is None:
            yield "" if gone else words("unsigned")
        elif body.signature.means != "hand":
            yield words("stamped")
        if body.replaces is not None:
            yield words("replaces" if self.full else "replaces_public", name=one.replaced)
        if one.replaced_by:
            yield words("replaced" if self.full else "replaced_public", name=one.replaced_by)
        if body.counted is not None:
            yield words(body.counted)
        if gone and self.full:
            yield body.gone_why
            yield body.gone_evidence

    def where(self, one: Impression) -> str:
        """Where it is; to anybody only whether it is in the studio."""
        words, where = self.words, one.where
        if where.where == "in the studio":
            return words("in_studio")
        if where.where == "unknown":
            return words("unknown")
        if where.where == "lost":
            return words("lost", day=where.since) if self.full else words("gone_lost")
        if where.where == "destroyed":
            return words("destroyed", day=where.since) if self.full else words("gone_destroyed")
        if not self.full or where.move is None:
            return words("left")
        said = words(where.move.body.event, day=where.since)
        if not (person := self.person(where.holder)):
            return said
        how = "with" if where.move.body.event == "found" else "to"
        return f"{said}, {words(how, person=person)}"
