"""Dates as precise as they are known: Extended Date/Time Format, levels 0 and 1.

The text itself is what is kept (``1998-03``, ``1998~``, ``199X``,
``1998/2001``); everything else is worked out from it.  Nothing is guessed: a
text in another form is refused, with the form that was perhaps meant.

Source: Library of Congress, *Extended Date/Time Format Specification*,
4 February 2019, a profile of ISO 8601-1 and 8601-2.  Of level 1, years outside
0001 to 9999 are left out; photographs do not need them.
"""

import re
import unicodedata
from calendar import monthrange
from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from typing import Literal

from provenance.errors import Problem, Refused
from provenance.model.date_hints import MONTHS, offers

SEASONS = {"21": "spring", "22": "summer", "23": "autumn", "24": "winter"}

_DATE = re.compile(
    r"(?P<year>[0-9]{4}|[0-9]{3}X|[0-9]{2}XX)"
    r"(?:-(?P<month>[0-9]{2}|XX)(?:-(?P<day>[0-9]{2}|XX))?)?(?P<qualifier>[?~%])?"
)
_CLOCK = re.compile(
    r"(?P<time>(?:[01][0-9]|2[0-3]):[0-5][0-9]:[0-5][0-9])"
    r"(?P<zone>Z|[+-](?:0[0-9]|1[0-4])(?::[0-5][0-9])?)?"
)
_QUALIFIED = {"": "", "~": "about ", "?": "possibly ", "%": "possibly about "}

Unbounded = Literal["open", "unknown"]


@dataclass(frozen=True, slots=True)
class Moment:
    """A date at the precision it was written with; `lower` and `upper` are its first and last day.

    The bounds are those of the words as written: “about 1998” has the bounds of
    1998, since how far about reaches is not said.
    """

    year: str
    month: str
    day: str
    clock: str
    qualifier: str
    lower: date
    upper: date


@dataclass(frozen=True, slots=True)
class EDTF:
    """A date or an interval, with the text it was read from."""

    text: str
    start: Moment | Unbounded
    end: Moment | Unbounded
    is_interval: bool

    @property
    def lower(self) -> date | None:
        """The first day it may mean; None when the beginning is open or unknown."""
        return self.start.lower if isinstance(self.start, Moment) else None

    @property
    def upper(self) -> date | None:
        """The last day it may mean; None when the end is open or unknown."""
        return self.end.upper if isinstance(self.end, Moment) else None


def is_bounded(text: str) -> bool:
    """Whether `text` says between which days it lies: neither “about” nor “possibly”, nor open."""
    edtf = parse_edtf(text)
    return all(isinstance(end, Moment) and not end.qualifier for end in (edtf.start, edtf.end))


def parse_edtf(text: str, *, field: str = "") -> EDTF:
    """Read a date; raises Refused with the reason and, where one is plain, another spelling."""
    written = unicodedata.normalize("NFC", text).strip()
    try:
        return _read(written)
    except ValueError as fault:
        offered = {offer: words for offer in offers(written) if (words := _words_or_none(offer))}
        mend = " or ".join(f"{offer} for “{words}”" for offer, words in offered.items())
        raise Refused(
            Problem(
                what=f"“{text}” is not a date: {fault}",
                field=field,
                mend=f"write {mend}" if mend else "write it as 1998, 1998-03, 1998~ or 1998/2001",
            )
        ) from fault


@lru_cache(maxsize=4096)
def earliest(text: str) -> date:
    """The first day the text may mean; the first of the calendar when that is open or unknown."""
    return parse_edtf(text).lower or date.min


@lru_cache(maxsize=4096)
def latest(text: str) -> date:
    """The last day the text may mean; the last of the calendar when that is open or unknown."""
    return parse_edtf(text).upper or date.max


def format_edtf(value: EDTF | str) -> str:
    """The date in plain English: ``about 1998``, ``March 1998``, ``between 1998 and 2001``."""
    edtf = parse_edtf(value) if isinstance(value, str) else value
    start, end = edtf.start, edtf.end
    if not edtf.is_interval:
        return _in_words(start)
    if end == "open":
        return f"from {_in_words(start)} on"
    if start == "open":
        return f"up to {_in_words(end)}"
    if "unknown" in (start, end):
        return f"from {_in_words(start)} to {_in_words(end)}"
    return f"between {_in_words(start)} and {_in_words(end)}"


def _words_or_none(text: str) -> str | None:
    try:
        return format_edtf(_read(text))
    except ValueError:
        return None


def _read(text: str) -> EDTF:
    """As parse_edtf, but raises ValueError with the bare reason."""
    if "/" not in text:
        moment = _moment(text)
        return EDTF(text, moment, moment, is_interval=False)
    first, _, last = text.partition("/")
    start, end = _endpoint(first), _endpoint(last)
    if not isinstance(start, Moment) and not isinstance(end, Moment):
        raise ValueError("an interval needs at least one of its ends")
    if isinstance(start, Moment) and isinstance(end, Moment) and start.lower > end.upper:
        raise ValueError("the interval ends before it begins")
    return EDTF(text, start, end, is_interval=True)


def _endpoint(text: str) -> Moment | Unbounded:
    if text in ("", ".."):
        return "open" if text else "unknown"
    moment = _moment(text)
    if moment.clock or "X" in text or moment.month in SEASONS:
        raise ValueError("an interval runs between days, months or years")
    return moment


def _moment(text: str) -> Moment:
    day_part, has_clock, clock = text.partition("T")
    match = _DATE.fullmatch(day_part)
    if match is None:
        raise ValueError("the form is year, year-month or year-month-day")
    year, month, day, qualifier = (match[name] or "" for name in _DATE.groupindex)
    if has_clock and (not day or "X" in day_part or qualifier or not _CLOCK.fullmatch(clock)):
        raise ValueError("a time of day is written as 1985-04-12T23:20:30, with Z or +01:00")
    lower, upper = _bounds(year, month, day, bool(qualifier))
    return Moment(year, month, day, clock, qualifier, lower, upper)


def _bounds(year: str, month: str, day: str, qualified: bool) -> tuple[date, date]:
    first, last = int(year.replace("X", "0")), int(year.replace("X", "9"))
    if first == 0:
        raise ValueError("years begin at 0001")
    if month and "X" in year:
        raise ValueError("a month needs a whole year")
    if month in SEASONS:
        if day or qualified:
            raise ValueError("a season stands alone, without a day or a mark of doubt")
        return date(first, 1, 1), _season_end(first, month)
    if month in ("", "XX"):
        if day not in ("", "XX"):
            raise ValueError("a day needs its month")
        return date(first, 1, 1), date(last, 12, 31)
    if not 1 <= int(month) <= 12:
        raise ValueError(f"there is no month {month}")
    days = monthrange(first, int(month))[1]
    if day in ("", "XX"):
        return date(first, int(month), 1), date(first, int(month), days)
    if not 1 <= int(day) <= days:
        raise ValueError(f"{MONTHS[int(month) - 1]} {year} has {days} days")
    only = date(first, int(month), int(day))
    return only, only


def _season_end(year: int, season: str) -> date:
    """The end of the year, or of February where that season crosses into the next year.

    Winter does so in the north and summer in the south; which hemisphere is
    meant is not said.
    """
    if season in ("21", "23") or year == date.max.year:
        return date(year, 12, 31)
    return date(year + 1, 2, monthrange(year + 1, 2)[1])


def _in_words(moment: Moment | Unbounded) -> str:
    if not isinstance(moment, Moment):
        return "an unknown date"
    return _QUALIFIED[moment.qualifier] + _plain_words(moment)


def _plain_words(moment: Moment) -> str:
    year, month, day = moment.year.lstrip("0"), moment.month, moment.day
    if year.endswith(("0X", "XX")):
        # “The 1900s” would leave open whether ten years are meant or a hundred.
        return f"{moment.lower.year} to {moment.upper.year}"
    if year.endswith("X"):
        return f"{moment.lower.year}s"
    if not month:
        return year
    if month == "XX":
        return f"{year} ({'month and day' if day else 'month'} not known)"
    if month in SEASONS:
        return f"{SEASONS[month]} {year}"
    named = f"{MONTHS[int(month) - 1]} {year}"
    if not day:
        return named
    if day == "XX":
        return f"{named} (day not known)"
    return f"{int(day)} {named}{_clock_words(moment.clock)}"


def _clock_words(clock: str) -> str:
    match = _CLOCK.fullmatch(clock)
    if match is None:
        return ""
    zone = match["zone"] or ""
    return f", {match['time']}" + (f" UTC{zone.replace('Z', '').replace('-', '−')}" if zone else "")
