"""What a bag says of itself, to a person who has never seen this program."""

from collections.abc import Sequence

from provenance.studio.handover.levels import Level

README, CHECKING = "README.txt", "HOW-TO-CHECK.txt"
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
    CHECKING: "how to see, with common tools, that nothing was changed",
}


def readme(
    studio: str,
    artist: str,
    made_on: str,
    level: Level,
    *,
    edition: str,
    there: Sequence[str],
    left_out: Sequence[str],
) -> bytes:
    """The first page: what this is, what is in it, what is not."""
    what = f"edition {edition}" if edition else "the whole studio"
    lines = [
        f"{studio} ({artist}): {what}",
        f"Handed over on {made_on}; {_FOR[level]}.",
        "",
        "This folder holds the history of photographs printed by hand: what each was printed on,",
        "how it was treated and tested, its number and its certificate. Everything is in open",
        "formats; no particular program is needed to read it. Text is UTF-8.",
        "",
        "What is here",
        "",
        *(line for name in there for line in _item(f"{name}: {_WHAT[name]}")),
        "",
        "How to read it",
        "",
        *_item(
            "Lengths are in tenths of a millimetre (_tenth_mm), heights first; times in"
            " milliseconds (_ms); densities in thousandths (_md)."
        ),
        *_item("Dates are EDTF (ISO 8601-2): 1998~ is about 1998, 1998-03 some day of March 1998."),
        *_item(
            "Each record says how it came to be known (source): logged while it was done,"
            " entered the same day from notes, later from notes, or from memory."
        ),
        *_item("What is not on record was not necessarily not done."),
        "",
        "What is not here",
        "",
        *(line for one in left_out for line in _item(one)),
        "",
    ]
    return "\n".join(lines).encode()


def checking(there: Sequence[str]) -> bytes:
    """The page on checking digests by hand."""
    lines = [
        "How to check by hand that nothing was changed",
        "",
        "A digest (SHA-256, SHA-512) is a short number made from a file. Change one letter and",
        "it comes out another. This folder is a bag (BagIt 1.0, RFC 8493): the manifests beside",
        "`data` hold the digest of every file. In a terminal, in the folder that holds `data`:",
        "",
        "    sha256sum -c manifest-sha256.txt          (Linux)",
        "    shasum -a 256 -c manifest-sha256.txt      (macOS)",
        "    sha512sum -c manifest-sha512.txt",
        "    sha256sum -c tagmanifest-sha256.txt       (the manifests themselves)",
        "",
        "Every line must end in OK. On Windows: certutil -hashfile FILE SHA256, and compare.",
        "Whoever can change a file can change the manifests as well: have the digest of",
        "tagmanifest-sha256.txt kept somewhere else, on paper, when the bag is handed over.",
        "",
    ]
    if "journal.jsonl" in there:
        lines += [
            "The journal is a chain: each line names the digest of the line before it",
            '("previous"). To check line 8 against line 7:',
            "",
            "    sed -n 7p data/journal.jsonl | tr -d '\\n' | sha256sum",
            '    sed -n 8p data/journal.jsonl | grep -o \'"previous":"[0-9a-f]*"\'',
            "",
            "The last line's digest stands in bag-info.txt (Journal-Head-SHA256). Each certificate",
            "that was issued has printed on it where the journal stood then: its holder can",
            "check that what came before has not been changed since.",
            "",
        ]
    if "certificates" in there or "studio" in there:
        lines += [
            "A certificate has printed on it the digest of the record behind it, the JSON file",
            "of the same name: sha256sum that file and compare.",
            "",
        ]
    return "\n".join(lines).encode()


def _item(text: str) -> list[str]:
    import textwrap

    return textwrap.wrap(text, 88, initial_indent="- ", subsequent_indent="  ")
