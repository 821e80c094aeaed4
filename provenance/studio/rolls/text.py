"""A roll as lines of text, and as plain values."""

from collections.abc import Iterator
from typing import Any

from provenance.craft.roll import Facts, Part, Roll, Says, Table

_GAP = "  "


def as_lines(roll: Roll) -> Iterator[str]:
    """The roll for a terminal that scrolls: columns as wide as what stands in them."""
    yield f"{roll.kind}   {roll.title} {roll.designation}".rstrip()
    yield f"{roll.artist}   {roll.place}   {roll.day}".rstrip()
    if roll.seal:
        yield roll.seal
    for chapter in roll.chapters:
        if len(roll.chapters) > 1 and chapter.title:
            yield ""
            yield f"{chapter.title} {chapter.designation}".rstrip()
        for part in chapter.parts:
            yield ""
            yield part.heading
            yield from _lines(part)
    yield ""
    yield roll.note


def _lines(part: Part) -> Iterator[str]:
    for body in part.body:
        if isinstance(body, Table):
            rows = [tuple(one.head for one in body.columns), *body.rows]
            widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
            for row in rows:
                cells = [cell.ljust(width) for cell, width in zip(row, widths, strict=True)]
                yield f"{_GAP}{_GAP.join(cells)}".rstrip()
        elif isinstance(body, Facts):
            width = max((len(label) for label, _value in body.pairs), default=0)
            for label, value in body.pairs:
                yield f"{_GAP}{label:<{width}}{_GAP}{value}"
        else:
            for sentence, known in body.sentences:
                yield f"{_GAP}{sentence}" + (f"{_GAP}({known})" if known else "")


def as_data(roll: Roll) -> dict[str, Any]:
    """The roll as plain values, for JSON."""
    return {
        "kind": roll.kind,
        "title": roll.title,
        "edition": roll.designation or None,
        "day": roll.day,
        "full": bool(roll.seal),
        "chapters": [
            {
                "title": chapter.title,
                "edition": chapter.designation or None,
                "parts": [
                    {"heading": part.heading, "holds": [_plain(body) for body in part.body]}
                    for part in chapter.parts
                ],
            }
            for chapter in roll.chapters
        ],
        "note": roll.note,
    }


def _plain(body: Facts | Says | Table) -> dict[str, Any]:
    if isinstance(body, Table):
        heads = [one.head for one in body.columns]
        return {"rows": [dict(zip(heads, row, strict=True)) for row in body.rows]}
    if isinstance(body, Facts):
        return {"facts": dict(body.pairs)}
    return {"sentences": [{"text": text, "known": known} for text, known in body.sentences]}
