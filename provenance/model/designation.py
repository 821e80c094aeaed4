"""What a print is called within its edition: ``7/25``, ``AP II/III``, ``BAT``."""

import re
import unicodedata
from functools import lru_cache
from typing import Literal, get_args

import msgspec

from provenance.errors import Problem, Refused
from provenance.model.roman import GREATEST, from_roman, to_roman

Series = Literal["numbered", "AP", "PP", "HC", "BAT", "TP", "EX", "unnumbered"]
SERIES: tuple[Series, ...] = get_args(Series)
"""In the order a list of an edition runs; EX is an exhibition print."""

UNCOUNTED: frozenset[Series] = frozenset({"BAT", "TP", "EX"})
"""Series without a maximum of their own: trial proofs never count (North Carolina
G.S. 25C-14); of a bon à tirer and an exhibition print it is said whether they do."""

_WITHOUT_NUMBER: frozenset[Series] = frozenset({"BAT", "unnumbered"})
_WRITTEN: dict[str, Series] = {
    "ap": "AP",
    "ea": "AP",
    "artist's proof": "AP",
    "epreuve d'artiste": "AP",
    "pp": "PP",
    "printer's proof": "PP",
    "hc": "HC",
    "hors commerce": "HC",
    "bat": "BAT",
    "bon a tirer": "BAT",
    "tp": "TP",
    "trial proof": "TP",
    "ex": "EX",
    "exhibition print": "EX",
    "unnumbered": "unnumbered",
}
_SHAPE = re.compile(
    rf"(?P<series>{'|'.join(sorted(_WRITTEN, key=len, reverse=True))})? ?"
    r"(?:(?P<number>[0-9]{1,9}|[ivxlcdm]+)(?: ?(?:/|of) ?(?P<total>[0-9]{1,9}|[ivxlcdm]+))?)?"
)


class Designation(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """One place in one series of an edition.

    `number` is “one of `total`”, not the order of printing.  Either may be
    unknown or not used: ``HC`` has neither, ``AP 2`` has no total.  Proofs have
    series of their own, apart from the numbered prints.

    Raises Refused for a number below one or above the total, for a total
    without a number, and for a number on a bon à tirer or an unnumbered print.
    """

    series: Series
    number: int | None = None
    total: int | None = None

    def __post_init__(self) -> None:
        if why := _fault(self):
            raise Refused(Problem(what=why, mend="write it as 7/25, AP II/III, HC or unnumbered"))

    def __str__(self) -> str:
        """The one way it is printed: arabic for the edition, Roman for proofs."""
        if self.series == "numbered":
            return f"{self.number}/{self.total}" if self.total else f"{self.number}"
        if self.number is None:
            return self.series
        total = f"/{to_roman(self.total)}" if self.total else ""
        return f"{self.series} {to_roman(self.number)}{total}"

    @property
    def place(self) -> str:
        """Its place in the edition, whatever the total was when written: ``7``, ``AP II``."""
        return str(self).partition("/")[0]

    @property
    def order(self) -> tuple[int, int, int]:
        """Sorts numbered prints first, then AP, PP, HC, BAT, TP, EX, unnumbered, each by number."""
        return SERIES.index(self.series), self.number or 0, self.total or 0


@lru_cache(maxsize=4096)
def parse_designation(text: str, *, bare_number: bool = False, field: str = "") -> Designation:
    """Read a designation in any usual spelling: ``AP2``, ``A.P. 2/3``, ``E.A. II``, ``7 of 25``.

    A bare ``7`` is taken for a number of the edition only with `bare_number`,
    for places where the edition is known.  Raises Refused with the reason.
    """
    read = _SHAPE.fullmatch(_plain(text))
    if read is None or not any(read.groups()):
        raise _refusal(f"“{text}” is not a designation", field)
    series: Series = _WRITTEN[read["series"]] if read["series"] else "numbered"
    number, total = (_count(read[part], text, field) for part in ("number", "total"))
    if series == "numbered":
        if not read["number"].isdecimal() or not (read["total"] or "0").isdecimal():
            what = f"“{text}” is in Roman numerals, which belong to proofs"
            raise _refusal(what, field, f"say which proofs, as AP {text.strip()}")
        if total is None and not bare_number:
            raise _refusal(f"“{text}” does not say of how many", field)
    try:
        return Designation(series=series, number=number, total=total)
    except Refused as refusal:
        what = f"“{text}”: {refusal.problems[0].what}"
        raise _refusal(what, field, refusal.problems[0].mend) from refusal


def _fault(print_: Designation) -> str:
    """Why this cannot be the designation of a print; empty when it can."""
    series, number, total = print_.series, print_.number, print_.total
    if series in _WITHOUT_NUMBER:
        return "" if number is None and total is None else f"{series} takes no number"
    if number is None:
        lacks = series == "numbered" or total is not None
        return "the number is missing" if lacks else ""
    if number < 1 or (total is not None and total < 1):
        return "numbers begin at 1"
    if total is not None and number > total:
        return f"number {number} is more than the {total} there are"
    if series != "numbered" and max(number, total or 0) > GREATEST:
        return f"proofs are counted in Roman numerals, up to {GREATEST}"
    return ""


def _plain(text: str) -> str:
    """Lower case, without accents and abbreviation points, with plain slashes and spaces."""
    bare = "".join(
        character
        for character in unicodedata.normalize("NFKD", text).lower()
        if not unicodedata.combining(character)
    )
    tidy = " ".join(bare.replace("⁄", "/").replace("’", "'").replace(".", "").split())
    # A/P, E/A, H/C: the stroke is part of the abbreviation, not of a fraction.
    return re.sub(r"^([aephtb])/([apct])(?![a-z])", r"\1\2", tidy)


def _count(written: str | None, text: str, field: str) -> int | None:
    if written is None:
        return None
    if written.isdecimal():
        return int(written)
    value = from_roman(written)
    if value is None:
        raise _refusal(f"“{text}”: {written.upper()} is not a Roman numeral", field)
    return value


def _refusal(what: str, field: str, mend: str = "write it as 7/25, AP II/III or HC") -> Refused:
    return Refused(Problem(what=what, field=field, mend=mend))
