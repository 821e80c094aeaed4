"""Dates against the examples of the format's own specification.

Source: Library of Congress, Extended Date/Time Format (EDTF) Specification,
4 February 2019 (a profile of ISO 8601-2).  Standing S2: the texts and their
meanings were read as quoted by implementers of the specification, those of
intervals with open and unknown ends in part from memory (M).
"""

from datetime import date

import pytest

from provenance.errors import Refused
from provenance.model.dates import parse_edtf

D = date

LEVEL_0 = {
    "1985-04-12": (D(1985, 4, 12), D(1985, 4, 12)),
    "1985-04": (D(1985, 4, 1), D(1985, 4, 30)),
    "1985": (D(1985, 1, 1), D(1985, 12, 31)),
    "1985-04-12T23:20:30": (D(1985, 4, 12), D(1985, 4, 12)),
    "1985-04-12T23:20:30Z": (D(1985, 4, 12), D(1985, 4, 12)),
    "1985-04-12T23:20:30-04": (D(1985, 4, 12), D(1985, 4, 12)),
    "1985-04-12T23:20:30+04:30": (D(1985, 4, 12), D(1985, 4, 12)),
    "1964/2008": (D(1964, 1, 1), D(2008, 12, 31)),
    "2004-06/2006-08": (D(2004, 6, 1), D(2006, 8, 31)),
    "2004-02-01/2005-02-08": (D(2004, 2, 1), D(2005, 2, 8)),
    "2004-02-01/2005-02": (D(2004, 2, 1), D(2005, 2, 28)),
    "2004-02-01/2005": (D(2004, 2, 1), D(2005, 12, 31)),
    "2005/2006-02": (D(2005, 1, 1), D(2006, 2, 28)),
}
LEVEL_1 = {
    "1984?": (D(1984, 1, 1), D(1984, 12, 31)),
    "2004-06~": (D(2004, 6, 1), D(2004, 6, 30)),
    "2004-06-11%": (D(2004, 6, 11), D(2004, 6, 11)),
    "201X": (D(2010, 1, 1), D(2019, 12, 31)),
    "20XX": (D(2000, 1, 1), D(2099, 12, 31)),
    "2004-XX": (D(2004, 1, 1), D(2004, 12, 31)),
    "1985-04-XX": (D(1985, 4, 1), D(1985, 4, 30)),
    "1985-XX-XX": (D(1985, 1, 1), D(1985, 12, 31)),
    "1985-04-12/..": (D(1985, 4, 12), None),
    "1985-04/..": (D(1985, 4, 1), None),
    "1985/..": (D(1985, 1, 1), None),
    "../1985-04-12": (None, D(1985, 4, 12)),
    "1985-04-12/": (D(1985, 4, 12), None),
    "/1985": (None, D(1985, 12, 31)),
    "1984~/2004-06": (D(1984, 1, 1), D(2004, 6, 30)),
    "1984/2004-06~": (D(1984, 1, 1), D(2004, 6, 30)),
    "1984?/2004%": (D(1984, 1, 1), D(2004, 12, 31)),
}


@pytest.mark.parametrize(("text", "bounds"), [*LEVEL_0.items(), *LEVEL_1.items()])
def test_examples_of_levels_0_and_1(text: str, bounds: tuple[date | None, date | None]) -> None:
    edtf = parse_edtf(text)
    assert (edtf.text, edtf.lower, edtf.upper) == (text, *bounds)


def test_the_season_example() -> None:
    assert parse_edtf("2001-21").lower == D(2001, 1, 1)


@pytest.mark.parametrize(
    "text",
    [
        "19850412",  # basic format, not in any level
        "1984?~",  # the draft of 2012; one sign % since 2019
        "199u",  # the draft of 2012
        "2004-06-uu/2004-07-03",  # the draft of 2012
        "156X-12-25",  # level 2
        "2004-06-XX/2004-07-03",  # level 2
        "2001-34",  # level 2, a quarter
        "1950S2",  # level 2
        "[1667,1668,1670..1672]",  # level 2
    ],
)
def test_other_levels_and_drafts_are_refused(text: str) -> None:
    with pytest.raises(Refused):
        parse_edtf(text)


@pytest.mark.parametrize("text", ["-1985", "Y170000002"])
def test_years_left_out_of_level_1_are_refused(text: str) -> None:
    with pytest.raises(Refused):
        parse_edtf(text)
