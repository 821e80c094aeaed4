"""The answer as text to read, as Markdown, and as plain values."""

import re
import textwrap
from collections.abc import Iterator
from typing import Any

from provenance.documents.template import CertificateLayout
from provenance.studio.answering.answer import Answer

_WIDE = 78
_MARKS = re.compile(r"([\\`*_{}\[\]<>()#+\-.!|~&:])")


def as_text(answer: Answer, layout: CertificateLayout) -> Iterator[str]:
    """Lines of plain text, each sentence followed by how it is known."""
    yield f"{answer.title} {answer.designation}".rstrip()
    yield answer.artist
    yield f"{answer.studio}, {answer.day}"
    yield ""
    labels = layout.particular_labels
    wide = max((len(labels[name]) for name, _value in answer.particulars), default=0)
    for name, value in answer.particulars:
        yield from _wrapped(value, f"{labels[name]:<{wide}}  ", " " * (wide + 2))
    for held in answer.answered:
        yield ""
        yield held.question
        for one in held.sentences:
            yield from _wrapped(f"{one.text} [{one.known}]", "  ", "    ")
    yield ""
    yield from _wrapped(answer.note, "", "")
    for known, meaning in answer.meanings:
        yield from _wrapped(f"{known}: {meaning}", "  ", "    ")


def as_markdown(answer: Answer, layout: CertificateLayout) -> Iterator[str]:
    """Lines of Markdown; what stands in a record is never read as markup."""
    yield f"# {_plain(f'{answer.title} {answer.designation}'.rstrip())}"
    yield ""
    yield f"{_plain(answer.artist)}  "
    yield f"{_plain(answer.studio)}, {_plain(answer.day)}"
    yield ""
    for name, value in answer.particulars:
        yield f"- {_plain(layout.particular_labels[name])}: {_plain(value)}"
    for held in answer.answered:
        yield ""
        yield f"## {_plain(held.question)}"
        yield ""
        for one in held.sentences:
            yield f"- {_plain(one.text)} *{_plain(one.known)}*"
    yield ""
    yield _plain(answer.note)
    yield ""
    for known, meaning in answer.meanings:
        yield f"- *{_plain(known)}*: {_plain(meaning)}"


def as_data(answer: Answer) -> dict[str, Any]:
    """The answer as plain values, for JSON."""
    return {
        "print": answer.print,
        "name": answer.name,
        "title": answer.title,
        "designation": answer.designation or None,
        "artist": answer.artist,
        "studio": answer.studio,
        "day": answer.day,
        "language": answer.language,
        "entry": answer.entry,
        "particulars": dict(answer.particulars),
        "questions": [
            {
                "name": held.name,
                "question": held.question,
                "sentences": [
                    {
                        "id": one.claim,
                        "sentence": one.text,
                        "standing": str(one.standing) if one.standing else None,
                        "known": one.known,
                        "evidence": list(one.evidence),
                    }
                    for one in held.sentences
                ],
            }
            for held in answer.answered
        ],
        "note": answer.note,
        "meanings": dict(answer.meanings),
    }


def _wrapped(text: str, first: str, other: str) -> list[str]:
    return textwrap.wrap(
        " ".join(text.split(" ")),
        _WIDE,
        initial_indent=first,
        subsequent_indent=other,
        break_long_words=False,
        break_on_hyphens=False,
    )


def _plain(text: str) -> str:
    """`text` with every character that Markdown could read as markup written as itself."""
    return _MARKS.sub(r"\\\1", " ".join(text.split()))
