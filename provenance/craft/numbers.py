"""Numbers as people write them: ``9 1/2``, ``9½``, ``30,5``, ``+1/3``."""

import re
import unicodedata
from fractions import Fraction

from provenance.errors import Problem, Refused

_NUMBER = re.compile(
    r"(?P<sign>[+-])? ?"
    r"(?:(?:(?P<whole>[0-9]{1,9}) )?(?P<above>[0-9]{1,9}) ?/ ?(?P<below>[0-9]{1,9})"
    r"|(?P<decimal>[0-9]{1,9}(?:[.,][0-9]{1,9})?|[.,][0-9]{1,9}))"
)
_GROUPED = re.compile(r"[0-9]{1,3},[0-9]{3}")


def plain(text: str) -> str:
    """`text` with plain spaces, hyphens and slashes, and ½ written out as `` 1/2``."""
    written = "".join(
        " " + unicodedata.normalize("NFKD", character)
        if unicodedata.decomposition(character).startswith("<fraction>")
        else character
        for character in text
    )
    return " ".join(written.replace("⁄", "/").replace("−", "-").split())


def read_number(text: str, *, field: str = "") -> Fraction:
    """The exact value of a decimal, a fraction or a whole and a fraction.

    A comma is a decimal comma, except before exactly three figures, where it
    could as well group thousands.  Raises Refused for that and for anything
    that is not a number.
    """
    written = plain(text)
    if _GROUPED.fullmatch(written.lstrip("+-")):
        raise Refused(
            Problem(
                what=f"“{text}” can be read as {written.replace(',', '')} "
                f"or as {written.replace(',', '.')}",
                field=field,
                mend="write it without the comma, or with a point",
            )
        )
    match = _NUMBER.fullmatch(written)
    if match is None or (match["below"] and int(match["below"]) == 0):
        raise Refused(
            Problem(
                what=f"“{text}” is not a number",
                field=field,
                mend="write it as 9.5 or 9 1/2, without thousands separators",
            )
        )
    if match["decimal"]:
        value = Fraction(match["decimal"].replace(",", "."))
    else:
        value = int(match["whole"] or 0) + Fraction(int(match["above"]), int(match["below"]))
    return -value if match["sign"] == "-" else value
