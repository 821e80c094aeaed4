"""Holds an edition against the rules of law and custom that a studio is reminded of."""

import re
import tomllib
from functools import lru_cache

import msgspec

from provenance.craft.counting import proofs_share
from provenance.craft.reminders import (
    Band,
    Facts,
    Kind,
    Money,
    Need,
    Reminder,
    Scope,
    Verdict,
    judge,
)
from provenance.errors import Problem, Refused
from provenance.model.dates import latest
from provenance.model.designation import UNCOUNTED, parse_designation
from provenance.model.edition import Edition
from provenance.model.negative import Negative
from provenance.model.printing import Printing
from provenance.model.prints import Print
from provenance.model.sources import Grade, Sourced
from provenance.model.studio import Studio
from provenance.records.reader import Reader, Stored
from provenance.studio.chemicals import table_text
from provenance.studio.editions.counts import count_edition
from provenance.studio.folder import StudioFolder
from provenance.toml import read_toml

_MONEY = re.compile(
    r"(?:(?P<left>[A-Z]{3}) ?)?(?P<number>[\d ,]*\d(?:\.\d\d?)?)(?: ?(?P<right>[A-Z]{3}))?"
)


class _Band(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    per_myriad: int
    up_to: int | None = None


class _Row(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    id: str
    about: str
    kind: Kind
    scope: Scope
    figure: int
    source: str
    standing: Grade
    read: str
    currency: str = ""
    needs: tuple[Need, ...] = ()
    bands: tuple[_Band, ...] = ()


class _File(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    reminder: tuple[_Row, ...]


def load_reminders(folder: StudioFolder | None) -> tuple[Reminder, ...]:
    """The rules: the studio's own where it has them.  Raises Refused."""
    return _reminders(table_text(folder, "reminders.toml"))


@lru_cache(maxsize=2)
def _reminders(text: str) -> tuple[Reminder, ...]:
    try:
        rows = msgspec.convert(read_toml(text), _File).reminder
    except (tomllib.TOMLDecodeError, msgspec.ValidationError) as error:
        raise Refused(Problem(f"cannot be read: {error}", "reminders.toml")) from error
    return tuple(
        Reminder(
            id=row.id,
            about=row.about,
            kind=row.kind,
            scope=row.scope,
            figure=row.figure,
            currency=row.currency,
            needs=row.needs,
            bands=tuple(Band(band.up_to, band.per_myriad) for band in row.bands),
            source=Sourced(row.standing, row.source),
            read_on=row.read,
        )
        for row in rows
    )


def remind(
    reader: Reader, folder: StudioFolder | None, edition: Stored[Edition], price: Money | None
) -> list[Verdict]:
    """What each rule says of an edition as it is on record; `price` is that of one print."""
    counts = count_edition(reader, edition)
    everywhere = (edition, *counts.others)
    facts: dict[Scope, Facts] = {
        "edition": Facts(
            numbered=max(counts.edition.numbered, 0),
            copies=counts.edition.copies,
            answers=_answers(reader, (edition,)),
        ),
        "negative": Facts(
            numbered=counts.negative.numbered,
            copies=counts.negative.copies,
            answers=_answers(reader, everywhere),
        ),
    }
    share = proofs_share(edition.body)
    return [
        judge(reminder, facts[reminder.scope], share, price) for reminder in load_reminders(folder)
    ]


def _answers(reader: Reader, editions: tuple[Stored[Edition], ...]) -> dict[Need, bool | None]:
    negative = reader.get(Negative, editions[0].body.negative).body
    prints = [held.body for one in editions for held in reader.linked(one.id, Print, "edition")]
    given = [body for body in prints if _goes_out(body)]
    purposes = {one.body.exhibition_only for one in editions}
    return {
        "taken by the artist": None if negative.taken_by is None else negative.taken_by == "artist",
        "printed by or under the artist": _all([_under_artist(reader, body) for body in given]),
        "signed": _all([_signed(body) for body in given]),
        "numbered": _all([_numbered(body) for body in given]),
        "made for exhibition only": purposes.pop() if len(purposes) == 1 else None,
    }


def _goes_out(body: Print) -> bool:
    """Whether it is one of the prints that are counted: not a trial proof, nor spoiled."""
    if body.existence == "spoiled" or body.designation is None:
        return False
    return parse_designation(body.designation).series not in UNCOUNTED


def _all(answers: list[bool | None]) -> bool | None:
    """Whether it is so of every print; None where it is not known of one, or there is none."""
    if False in answers:
        return False
    return None if not answers or None in answers else True


def _signed(body: Print) -> bool | None:
    # what is not signed yet may still be, and what was made before the records may have been
    return None if body.signature is None else body.signature.counts


def _numbered(body: Print) -> bool:
    return body.designation != "unnumbered"


def _under_artist(reader: Reader, body: Print) -> bool | None:
    printing = reader.get(Printing, body.printing).body
    studio = reader.get(Studio, 1).body
    if studio.died is not None and latest(studio.died) < latest(printing.done_on):
        return False
    if printing.printer.casefold() in ("artist", "the artist", studio.artist.casefold()):
        return True
    if body.approved is not None:
        return body.approved.by == "artist"
    return None


def read_money(text: str, *, field: str = "") -> Money:
    """``100 USD``, ``EUR 1,250.50``.  Raises Refused."""
    match = _MONEY.fullmatch(text.strip())
    currency = match and (match["left"] or match["right"])
    if match is None or not currency or (match["left"] and match["right"]):
        raise Refused(
            Problem(
                f"“{text}” is not a price", field=field, mend="write it as 1250 EUR, or 99.50 USD"
            )
        )
    whole, _, rest = match["number"].replace(",", "").replace(" ", "").partition(".")
    return Money(int(whole) * 100 + int(rest.ljust(2, "0") or "0"), currency)
