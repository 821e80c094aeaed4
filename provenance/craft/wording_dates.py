"""Dates in the words of a language: which words, is data; which of them, is the date's.

A date can stand alone (“2 March 2031”), behind another word (“between … and
…”) or in a sentence (“on 2 March 2031”).  A language gives all of its patterns
for the first, and for the other two those that differ.
"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal

from provenance.model.dates import Moment, Unbounded, parse_edtf

Place = Literal["alone", "behind", "when"]
PLACES: tuple[Place, ...] = ("alone", "behind", "when")

_MARKS = {"~": "about", "?": "possibly", "%": "possibly about"}
_SEASONS = ("21", "22", "23", "24")
_ZONED = re.compile(r"(?P<time>[0-9:]{8})(?P<zone>.*)")

DATES: dict[str, frozenset[str]] = {
    name: frozenset(words.split())
    for names, words in {
        "day|first day": "day month year",
        "month|day unknown": "month year",
        "season": "season year",
        "year|decade|month unknown|month and day unknown": "year",
        "years": "first last",
        "time": "date time",
        "zone": "time zone",
        "about|possibly|possibly about": "alone behind when",
        "between|from|until|one end unknown": "start end end_when",
        "unknown": "",
    }.items()
    for name in names.split("|")
}
"""The pattern of each shape that a date can have, and the words it may use."""

LISTS: dict[str, int] = {"months": 12, "seasons": 4}
"""Names that are counted off, and how many there are; seasons begin with spring."""


@dataclass(frozen=True)
class Dates:
    """The patterns and names of one language, by the place of the date."""

    words: Mapping[Place, Mapping[str, Any]]

    def say(self, edtf: str, place: Place = "alone") -> str:
        """The date in words."""
        read = parse_edtf(edtf)
        if not read.is_interval:
            return self._end(read.start, place)
        if read.end == "open":
            name = "from"
        elif read.start == "open":
            name = "until"
        else:
            name = "one end unknown" if "unknown" in (read.start, read.end) else "between"
        return self._fill(
            name,
            place,
            start=self._end(read.start, "behind"),
            end=self._end(read.end, "behind"),
            end_when=self._end(read.end, "when"),
        )

    def _end(self, moment: Moment | Unbounded, place: Place) -> str:
        if not isinstance(moment, Moment):
            return self._fill("unknown", place)
        if not moment.qualifier:
            return self._clear(moment, place)
        return self._fill(
            _MARKS[moment.qualifier],
            place,
            **{each: self._clear(moment, each) for each in PLACES},
        )

    def _clear(self, moment: Moment, place: Place) -> str:
        """The date without its mark of doubt, and with its time of day."""
        said = self._day(moment, place)
        zoned = _ZONED.fullmatch(moment.clock)
        if zoned is None:
            return said
        time = zoned["time"]
        if zoned["zone"]:
            offset = zoned["zone"].removeprefix("Z").replace("-", "−")
            time = self._fill("zone", place, time=time, zone=offset)
        return self._fill("time", place, date=said, time=time)

    def _day(self, moment: Moment, place: Place) -> str:
        year, month, day = moment.year, moment.month, moment.day
        if year.endswith(("0X", "XX")):
            # “The 1900s” would leave open whether ten years are meant or a hundred
            first, last = str(moment.lower.year), str(moment.upper.year)
            return self._fill("years", place, first=first, last=last)
        if year.endswith("X"):
            return self._fill("decade", place, year=str(moment.lower.year))
        year = year.lstrip("0")
        if not month:
            return self._fill("year", place, year=year)
        if month == "XX":
            return self._fill("month and day unknown" if day else "month unknown", place, year=year)
        if month in _SEASONS:
            season = self._word("seasons", place)[_SEASONS.index(month)]
            return self._fill("season", place, season=season, year=year)
        words = {"month": self._word("months", place)[int(month) - 1], "year": year}
        if not day:
            return self._fill("month", place, **words)
        if day == "XX":
            return self._fill("day unknown", place, **words)
        name = "first day" if int(day) == 1 else "day"
        return self._fill(name, place, day=str(int(day)), **words)

    def _fill(self, name: str, place: Place, **words: str) -> str:
        return str(self._word(name, place)).format_map(words)

    def _word(self, name: str, place: Place) -> Any:
        return self.words[place].get(name, self.words["alone"][name])


def read_dates(table: Mapping[str, Any]) -> Dates:
    """The dates of the table [date] of a wording that was found whole."""
    behind, when = table.get("behind", {}), table.get("when", {})
    return Dates({"alone": table, "behind": behind, "when": when})
