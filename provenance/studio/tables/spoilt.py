"""Cells that a spreadsheet has changed on its own: of 5/12 it makes the fifth of December."""

import re
import unicodedata

from provenance.errors import Problem, Refused

_MONTHS = (
    " jan feb fev mar mrz apr avr abr may mai mag jun jui giu jul lug aug aou ago sep set oct okt"
    " ott nov dec dez dic gen ene "
)
"""How the names of months begin in languages that spreadsheets speak, without accents."""
_NAMED = re.compile(r"[0-9]{1,4}[. -]+([a-z]{3})[a-z]*\.?|([a-z]{3})[a-z]*[. -]+[0-9]{1,4}")
_FIGURES = re.compile(r"[0-9]{1,4}([./-])[0-9]{1,2}\1[0-9]{1,4}")


def is_a_date(text: str) -> bool:
    """Whether `text` is how a spreadsheet shows a day: ``05.Dez``, ``5-Dec``, ``2031-12-05``."""
    plain = unicodedata.normalize("NFKD", text.strip().casefold())
    plain = "".join(one for one in plain if not unicodedata.combining(one))
    named = _NAMED.fullmatch(plain)
    if named is not None:
        return f" {named[1] or named[2]} " in _MONTHS
    return _FIGURES.fullmatch(plain) is not None


def not_a_number(text: str, error: Refused | None = None) -> Refused:
    """Refuses a number that has become a date; `error` is what was wrong with it so far."""
    problems = error.problems if error else (Problem(f"“{text}” is not a designation"),)
    mend = "a spreadsheet made a date of it: format the column as text, and write it again as 5/12"
    return Refused(*(Problem(one.what, one.record, one.field, mend) for one in problems))
