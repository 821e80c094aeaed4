"""What a person calls a record, and which record that is.

QUAY 7/25   QUAY AP2   QUAY Q7   a print by its number or its pencil mark
LQ-2026-0007-58                  a certificate
QUAY   Q-0412   fix-A            anything by its code
#123                             anything by its id
"""

import re
from typing import TypeVar

from provenance.errors import NotFound, Problem, Refused
from provenance.model.body import Body
from provenance.model.check_characters import near_misses, verify, with_check_characters
from provenance.model.designation import Designation, parse_designation
from provenance.model.edition import Edition
from provenance.model.prints import Print
from provenance.records.reader import Reader, Stored
from provenance.studio.certifying.revisions import revisions

B = TypeVar("B", bound=Body)

_ID = re.compile(r"#?(\d{1,15})")
_CERTIFICATE = re.compile(r"[A-Za-z]{2,4}-[0-9]{4}-[A-Za-z0-9]{3,8}(?:-[A-Za-z0-9]{2})?")
"""A certificate's number, perhaps without its two check characters."""


def resolve(reader: Reader, text: str) -> Stored[Body]:
    """The record that `text` names.  Raises NotFound, with near ones where there are any."""
    text = _tidy(text)
    if match := _ID.fullmatch(text):
        return _by_id(reader, int(match[1]))
    code, _, rest = text.partition(" ")
    if rest:
        return resolve_print(reader, text)
    rows = reader.connection.execute(
        "SELECT id FROM record WHERE code = ? AND live ORDER BY id", (code,)
    ).fetchall()
    if len(rows) > 1:
        raise Refused(
            Problem(
                what="more than one record is called that",
                record=text,
                mend="name one by its id: " + ", ".join(f"#{row[0]}" for row in rows),
            )
        )
    if rows:
        # a certificate's number means the revision that was issued last
        later = revisions(reader, code)
        return later[-1] if later else _by_id(reader, rows[0][0])
    if _CERTIFICATE.fullmatch(text):
        raise _no_certificate(reader, text)
    raise NotFound(
        Problem(what="nothing on record is called that", record=text, mend=_hint(reader))
    )


def resolve_as(reader: Reader, kind: type[B], code: str) -> Stored[B]:
    """The record of `kind` with that code.  Raises NotFound with the codes there are."""
    stored = reader.by_code(kind, _tidy(code))
    if stored is None:
        known = _codes(reader, kind, 12)
        raise NotFound(
            Problem(
                what=f"there is no {kind.KIND} {code}",
                mend=f"on record are: {', '.join(known)}"
                if known
                else f"enter the {kind.KIND} first",
            )
        )
    return stored


def resolve_kind(reader: Reader, kind: type[B], text: str) -> Stored[B]:
    """The record of `kind` with that code or id (``#123``).  Raises NotFound."""
    if match := _ID.fullmatch(text.strip()) if text.strip().startswith("#") else None:
        return reader.get(kind, int(match[1]))
    return resolve_as(reader, kind, text)


def resolve_print(reader: Reader, text: str, edition: str = "") -> Stored[Print]:
    """The print called ``EDITION NUMBER`` or ``EDITION MARK``; `edition` may be given apart."""
    words = _tidy(text)
    if match := _ID.fullmatch(words) if words.startswith("#") else None:
        return reader.get(Print, int(match[1]))
    if edition:
        found = _in_edition(reader, resolve_as(reader, Edition, edition), words)
        if found is not None:
            return found
    code, _, rest = words.partition(" ")
    if rest:
        found = _in_edition(reader, resolve_as(reader, Edition, code), rest)
        if found is not None:
            return found
    named = f"{edition} {words}".strip()
    raise NotFound(
        Problem(
            what="there is no such print",
            record=named,
            mend="name it by number (QUAY 7/25) or by its pencil mark (QUAY Q7)",
        )
    )


def _tidy(text: str) -> str:
    # half a character, as a terminal may hand on, is nothing that a record could be called
    return " ".join(text.encode("utf-8", "ignore").decode("utf-8").split())


def _in_edition(reader: Reader, edition: Stored[Edition], name: str) -> Stored[Print] | None:
    row = reader.connection.execute(
        "SELECT id FROM print_key WHERE edition = ? AND mark = ?", (edition.id, name)
    ).fetchone()
    if row is None:
        try:
            given = parse_designation(name, bare_number=True)
        except Refused:
            return None
        # a replacement bears the number of the print it replaces: the later one is meant;
        # without a total the place decides, since a promise may have changed
        row = reader.connection.execute(
            "SELECT id FROM print_key WHERE edition = ?"
            " AND (designation = ? OR (designation >= ? AND designation < ?)) ORDER BY id DESC",
            (edition.id, str(given), *_span(given)),
        ).fetchone()
    return reader.get(Print, row[0]) if row else None


def _span(given: Designation) -> tuple[str, str]:
    """Between which texts the designations of its place lie; none where a total is given."""
    place = given.place if given.number is not None and given.total is None else ""
    return (f"{place}/", f"{place}0") if place else ("", "")


def _by_id(reader: Reader, record: int) -> Stored[Body]:
    stored = reader.find(record)
    if stored is None:
        raise NotFound(
            Problem(
                what="no record has that id, or it was retired",
                record=f"#{record}",
                mend="`provenance history` shows retired records",
            )
        )
    return stored


def looks_like_certificate(text: str) -> bool:
    """Whether `text` has the shape of a certificate number, right or wrong."""
    return _CERTIFICATE.fullmatch(text.strip()) is not None


def near_certificates(reader: Reader, number: str) -> list[tuple[int, str]]:
    """(id, number) of the certificates on record that one slip would turn into `number`."""
    found: list[tuple[int, str]] = []
    number = number.strip()
    for near in (with_check_characters(number), *near_misses(number)):
        found += reader.connection.execute(
            "SELECT id, code FROM record WHERE kind = 'certificate' AND code = ? AND live", (near,)
        ).fetchall()
    return found


def _no_certificate(reader: Reader, number: str) -> NotFound:
    if verify(number):
        return NotFound(
            Problem(what="this number is well formed, but not on record here", record=number)
        )
    issued = [near for _record, near in near_certificates(reader, number)]
    return NotFound(
        Problem(
            what="its check characters do not agree, or are not there, so it was mistyped",
            record=number,
            mend=f"perhaps {' or '.join(issued)}" if issued else "copy it again from the paper",
        )
    )


def _hint(reader: Reader) -> str:
    codes = _codes(reader, Edition, 8)
    return (
        f"editions are: {', '.join(codes)}; prints are named like {codes[0]} 7/25" if codes else ""
    )


def _codes(reader: Reader, kind: type[Body], most: int) -> list[str]:
    """The first codes of a kind, without reading the records."""
    rows = reader.connection.execute(
        "SELECT code FROM record WHERE kind = ? AND live AND code IS NOT NULL ORDER BY id LIMIT ?",
        (kind.KIND, most),
    )
    return [code for (code,) in rows]
