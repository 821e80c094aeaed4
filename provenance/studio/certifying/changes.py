"""What a revision says otherwise than the certificate whose place it takes."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, TypeVar

import msgspec

from provenance.craft.wording import Wording
from provenance.documents.template import CertificateLayout
from provenance.model.negative import Negative
from provenance.model.paper import Paper
from provenance.model.prints import Signature
from provenance.model.quantities import Size
from provenance.model.quantity_text import Units
from provenance.studio.certifying.particulars import (
    mark_words,
    negative_words,
    paper_words,
    promise_words,
    signature_words,
)
from provenance.studio.certifying.remarks import remark_words

S = TypeVar("S", bound=msgspec.Struct)

_MOST_LETTERS = 60
"""A longer text is not repeated on the page, only named."""


class Change(msgspec.Struct, frozen=True, kw_only=True):
    """One thing that is said otherwise; `before` or `after` is empty where nothing was said."""

    topic: str
    """A particular, or one of `template.CHANGED`."""
    label: str
    """What the topic is called, in the language of the certificate."""
    before: str
    after: str

    def line(self) -> str:
        """In one line: ``Marks: Q7 on the back → Q8 on the back``."""
        return f"{self.label}: {self.before or '–'} → {self.after or '–'}"


@dataclass(frozen=True)
class Spoken:
    """The words in which changes are told."""

    wording: Wording
    layout: CertificateLayout
    units: Units

    def label(self, topic: str) -> str:
        """What a topic is called."""
        return (self.layout.particular_labels | self.layout.changed_labels)[topic]


def changes(
    before: Mapping[str, Any], after: Mapping[str, Any], spoken: Spoken
) -> tuple[Change, ...]:
    """What the record `after` says otherwise than `before`, in the order of the page.

    How far the edition had come is of the day of issue, and left out.
    """
    was, now = (_words(record, spoken) for record in (before, after))
    told = [
        Change(topic=topic, label=spoken.label(topic), before=was[topic], after=now[topic])
        for topic in now
        if was[topic] != now[topic]
    ]
    return (*told, *_sentences(before["statement"], after["statement"], spoken))


def on_the_page(told: tuple[Change, ...], layout: CertificateLayout) -> str:
    """The changes as the page says them: short ones in full, long ones by their name."""
    if not told:
        return layout.labels["changed_nothing"]
    said = dict.fromkeys(
        change.line()
        if max(len(change.before), len(change.after)) <= _MOST_LETTERS
        and change.topic not in ("picture", "statement")
        else change.label
        for change in told
    )
    return "; ".join(said)


def _words(record: Mapping[str, Any], spoken: Spoken) -> dict[str, str]:
    """What a record says, by topic."""
    wording, units = spoken.wording, spoken.units
    held, studio, edition = record["print"], record["studio"], record["edition"]
    negative = _part(record["negative"], Negative)
    paper = record["paper"] and _part(record["paper"], Paper)
    signature = held["signature"] and _part(held["signature"], Signature)
    image, sheet = (wording.size(_part(held[name], Size), units) for name in ("image", "sheet"))
    return {
        "title": negative.title,
        "designation": held["designation"] or "",
        "artist": studio["artist"],
        "studio": ", ".join(filter(None, (studio["name"], studio["place"]))),
        "picture": record["picture"]["thumbnail_sha256"][:16],
        "image": image,
        "sheet": sheet,
        "paper": paper_words(paper, wording),
        "negative": negative_words(negative, wording, units),
        "printed": wording.phrase(
            "printed", day=wording.date(record["printed_on"]), printer=record["printed_by"]
        ),
        "edition_promised": promise_words(edition, wording),
        "signed": signature_words(signature, wording),
        "marked": mark_words(held["mark"], held["designation"], held["inscriptions"], wording),
        "features": held["features"],
        "other_editions": ", ".join(edition["other_editions"]),
        "remarks": remark_words(held, edition, wording),
    }


def _part(data: Mapping[str, Any], kind: type[S]) -> S:
    """A part of a record, whatever else an earlier release may have written into it."""
    known = {name: data[name] for name in kind.__struct_fields__ if name in data}
    return msgspec.convert(known, kind)


def _sentences(
    before: list[Mapping[str, Any]], after: list[Mapping[str, Any]], spoken: Spoken
) -> Iterator[Change]:
    label = spoken.label("statement")
    was, now = ({_said(claim, spoken): None for claim in one} for one in (before, after))
    for sentence in was:
        if sentence not in now:
            yield Change(topic="statement", label=label, before=sentence, after="")
    for sentence in now:
        if sentence not in was:
            yield Change(topic="statement", label=label, before="", after=sentence)


def _said(claim: Mapping[str, Any], spoken: Spoken) -> str:
    return f"{claim['sentence']} ({spoken.wording.standings[claim['standing']]})"
