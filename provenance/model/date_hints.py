"""What a person may have meant by a date in another form.

Offers are only ever shown; none is taken in the person's place.  Some may be
impossible (a 13th month): the caller keeps those that can be read.
"""

import re
from collections.abc import Callable

MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
_NUMBER_OF = {name[:3].lower(): number for number, name in enumerate(MONTHS, start=1)}

_YEAR = r"(?P<year>[0-9]{4})"
_MONTH = r"(?P<month>[a-z]{3,9})\.?"
_DAY = r"(?P<day>[0-9]{1,2})(?:st|nd|rd|th)?"
_WHEN = r"(?P<when>[0-9]{4}(?:-[0-9]{2}){0,2})"


def _named(match: re.Match[str]) -> list[str]:
    parts = match.groupdict()
    number = _NUMBER_OF.get(parts["month"][:3])
    if number is None:
        return []
    day = f"-{int(parts['day']):02d}" if parts.get("day") else ""
    return [f"{parts['year']}-{number:02d}{day}"]


def _figures(match: re.Match[str]) -> list[str]:
    """Day and month in figures: either may come first."""
    first, second, year = int(match["a"]), int(match["b"]), match["year"]
    return [f"{year}-{second:02d}-{first:02d}", f"{year}-{first:02d}-{second:02d}"]


def _years(match: re.Match[str]) -> list[str]:
    end = match["end"]
    return [f"{match['year']}/{match['year'][: 4 - len(end)]}{end}"]


def _decade(match: re.Match[str]) -> list[str]:
    year = match["year"]
    return [f"{year[:3]}X", *([f"{year[:2]}XX"] if year.endswith("00") else [])]


_FORMS: tuple[tuple[str, Callable[[re.Match[str]], list[str]]], ...] = (
    (rf"(?:c|ca|circa|about|around|approx|approximately)\.? ?{_WHEN}", lambda m: [f"{m['when']}~"]),
    (rf"(?:possibly|perhaps|probably|maybe) {_WHEN}", lambda m: [f"{m['when']}?"]),
    (rf"(?:since|from) {_WHEN}", lambda m: [f"{m['when']}/.."]),
    (rf"(?:until|up to) {_WHEN}", lambda m: [f"../{m['when']}"]),
    (rf"(?:the )?{_YEAR}'?s", _decade),
    (rf"(?:between |from )?{_YEAR} ?(?:[-–—]|to|and) ?(?P<end>[0-9]{{4}}|[0-9]{{2}})", _years),
    (rf"{_MONTH} {_YEAR}", _named),
    (rf"{_DAY} {_MONTH},? {_YEAR}", _named),
    (rf"{_MONTH} {_DAY},? {_YEAR}", _named),
    (rf"(?P<a>[0-9]{{1,2}})[./-](?P<b>[0-9]{{1,2}})[./-]{_YEAR}", _figures),
    (rf"{_YEAR}-(?P<b>[0-9]{{2}})-(?P<a>[0-9]{{2}})", _figures),
    (rf"{_YEAR}([0-9]{{2}})([0-9]{{2}})", lambda m: ["-".join(m.groups())]),
    (rf"{_YEAR}-(?P<month>[0-9]{{2}})-[0-9]{{2}}", lambda m: [f"{m['year']}-{m['month']}"]),
    (r"[0-9xu-]+", lambda m: [m[0].upper().replace("U", "X")]),
)


def offers(text: str) -> tuple[str, ...]:
    """Texts in Extended Date/Time Format that `text` may have stood for, likeliest first."""
    written = " ".join(text.lower().replace("’", "'").split())
    found = [
        offer
        for form, spell in _FORMS
        if (match := re.fullmatch(form, written))
        for offer in spell(match)
    ]
    return tuple(dict.fromkeys(found))
