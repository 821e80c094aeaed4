"""What a bag says of itself, to a person who has never seen this program."""

from collections.abc import Sequence

from provenance.studio.handover.how_to_check import CHECKING
from provenance.studio.handover.levels import Level

README = "README.txt"
_OF_PERSONS = ("contacts", "terms")
_FOR = {
    "public": "for anybody",
    "archive": "for an archive, a museum or whoever takes care of the work",
    "sealed": "sealed: it names persons; open it only where that is allowed",
}
_WHAT = {
    "studio": "the studio folder, as the program keeps it: `provenance restore` makes it again;"
    " register.db is an SQLite database, certificates are PDF, images JPEG",
    "journal.jsonl": "the journal, an entry to the line, each line the exact bytes that were"
    " recorded; it is the source of everything else",
    "entries.jsonl": "the entries of the journal that speak of this edition, a line each",
    "tables": "a table (CSV) for each kind of record; csv-metadata.json says what each column"
    " is (CSV on the Web, W3C)",
    "linked-art": "each print as museums exchange such things (Linked Art 1.0, JSON-LD)",
    "events.jsonld": "what happened, event by event (W3C PROV-O, JSON-LD)",
    "images": "small pictures of the prints",
    "certificates": "certificates as issued (PDF), and the record behind each (JSON)",
    "contacts": "a page (JSON) for each person who is named in moves of these prints: a move has"
    " the name of the page (party, giver)",
    "terms": "a page (JSON) for the price, place and conditions of a move, which has the name of"
    " the page (terms)",
    CHECKING: "how to see, with common tools, that nothing was changed",
}


def readme(
    studio: str,
    artist: str,
    made_on: str,
    level: Level,
    *,
    edition: str,
    damages: int,
    there: Sequence[str],
    left_out: Sequence[str],
) -> bytes:
    """The first page: what this is, what is in it, what is not.

    `damages` says in how many places an audit found the studio damaged.
    """
    found = (
        f"Not all is as it was written: an audit found damage in {_places(damages)}. Ask which."
        if damages
        else "An audit found everything in the studio as it was written."
    )
    what = f"edition {edition}" if edition else "the whole studio"
    lines = [
        f"{studio} ({artist}): {what}",
        f"Handed over on {made_on}; {_FOR[level]}.",
        "",
        "This folder holds what is on record of photographs printed by hand, print by print; what",
        "was left out of it is said below. Everything is in open formats; no particular program",
        "is needed to read it. Text is UTF-8.",
        found,
        "",
        "What is here",
        "",
        *(line for name in there for line in _item(f"{name}: {_WHAT[name]}")),
        "",
        "How to read it",
        "",
        *(line for text in _reading(level, there) for line in _item(text)),
        "",
        "What is not here",
        "",
        *(line for one in left_out for line in _item(one)),
        "",
    ]
    return "\n".join(lines).encode()


def _places(number: int) -> str:
    return "one place" if number == 1 else f"{number} places"


def _reading(level: Level, there: Sequence[str]) -> list[str]:
    lines = [
        "Lengths are in tenths of a millimetre (_tenth_mm), heights first.",
        "Dates are EDTF (ISO 8601-2): 1998~ is about 1998, 1998-03 some day of March 1998.",
    ]
    if level != "public":
        lines += [
            "Times are in milliseconds (_ms), densities in thousandths (_md).",
            "Each record says how it came to be known (source): run, logged by the clock while it"
            " was done; notes; memory. When it was written down stands beside (entered).",
            "Persons and terms are not in the tables: party, giver and terms of a move are"
            f" commitments (SHA-256) to pages {_pages(level, there)}.",
        ]
    if "studio" in there:
        lines.append(
            "data/studio/register.db opens with sqlite3 -readonly; what was recorded is in its"
            " table journal (column entry, JSON), everything else in it is made from that."
        )
    return [*lines, "What is not on record was not necessarily not done."]


def _pages(level: Level, there: Sequence[str]) -> str:
    if level != "sealed":
        return "that are not here"
    folders = ("studio/contacts", "studio/private/terms") if "studio" in there else _OF_PERSONS
    return f"in {' and '.join(folders)}, whose names they are"


def _item(text: str) -> list[str]:
    import textwrap

    return textwrap.wrap(text, 88, initial_indent="- ", subsequent_indent="  ")
