from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from provenance.errors import Refused
from provenance.model.dates import earliest, format_edtf, latest, parse_edtf

DAYS = st.dates(min_value=date(1, 1, 1))


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("1998", "1998"),
        ("1998-03", "March 1998"),
        ("1998-03-04", "4 March 1998"),
        ("1998~", "about 1998"),
        ("1998?", "possibly 1998"),
        ("1998-03%", "possibly about March 1998"),
        ("199X", "1990s"),
        ("190X", "1900 to 1909"),
        ("19XX", "1900 to 1999"),
        ("1998-XX", "1998 (month not known)"),
        ("1998-03-XX", "March 1998 (day not known)"),
        ("1998-XX-XX", "1998 (month and day not known)"),
        ("1998/2001", "between 1998 and 2001"),
        ("1998~/2001-05?", "between about 1998 and possibly May 2001"),
        ("1998/..", "from 1998 on"),
        ("1998/", "from 1998 to an unknown date"),
        ("../1998", "up to 1998"),
        ("/1998", "from an unknown date to 1998"),
        ("1998-24", "winter 1998"),
        ("1998-03-04T23:20:30", "4 March 1998, 23:20:30"),
        ("1998-03-04T23:20:30Z", "4 March 1998, 23:20:30 UTC"),
        ("1998-03-04T23:20:30-04", "4 March 1998, 23:20:30 UTC−04"),
    ],
)
def test_dates_are_said_in_plain_english(text: str, words: str) -> None:
    assert format_edtf(text) == words
    assert format_edtf(parse_edtf(text)) == words


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("1985-13-01", "there is no month 13"),
        ("1985-02-30", "February 1985 has 28 days"),
        ("1984-02-30", "February 1984 has 29 days"),
        ("0000", "years begin at 0001"),
        ("199X-05", "a month needs a whole year"),
        ("1985-XX-11", "a day needs its month"),
        ("1985-21-01", "a season stands alone"),
        ("1985-21~", "a season stands alone"),
        ("2001/1998", "ends before it begins"),
        ("../..", "at least one of its ends"),
        ("/", "at least one of its ends"),
        ("199X/2001", "between days, months or years"),
        ("1985-04-12T10:00:00Z/1986", "between days, months or years"),
        ("1985-04-12T24:00:00", "a time of day is written"),
        ("1985-04T10:00:00", "a time of day is written"),
        ("", "the form is"),
        ("sometime", "the form is"),
        ("1985~?", "the form is"),
        ("１９８５", "the form is"),
    ],
)
def test_what_cannot_be_a_date_is_refused_with_the_reason(text: str, reason: str) -> None:
    with pytest.raises(Refused, match=reason) as refused:
        parse_edtf(text, field="made")
    assert refused.value.problems[0].field == "made"


@pytest.mark.parametrize(
    ("text", "offer"),
    [
        ("ca. 1985", "write 1985~ for “about 1985”"),
        ("c.1985-03", "1985-03~"),
        ("perhaps 1985", "1985?"),
        ("1990s", "write 199X for “1990s”"),
        ("the 1900s", "190X for “1900 to 1909” or 19XX for “1900 to 1999”"),
        ("199u", "199X"),
        ("1985-86", "1985/1986"),
        ("1985 – 1987", "1985/1987"),
        ("between 1985 and 1987", "1985/1987"),
        ("March 1998", "1998-03"),
        ("4th May 1998", "1998-05-04"),
        ("May 4, 1998", "1998-05-04"),
        ("05/04/1998", "1998-04-05 for “5 April 1998” or 1998-05-04 for “4 May 1998”"),
        ("31.12.1998", "write 1998-12-31 for “31 December 1998”"),
        ("19850412", "write 1985-04-12 for “12 April 1985”"),
        ("1985-13-01", "1985-01-13"),
        ("1985-02-30", "1985-02 for “February 1985”"),
        ("since 1998", "1998/.. for “from 1998 on”"),
        ("Foo 1998", "write it as 1998"),
    ],
)
def test_another_spelling_is_offered_and_never_taken(text: str, offer: str) -> None:
    with pytest.raises(Refused) as refused:
        parse_edtf(text)
    assert offer in refused.value.problems[0].mend


@given(DAYS, DAYS)
def test_bounds_of_an_interval_are_those_of_its_ends(one: date, other: date) -> None:
    first, last = sorted((one, other))
    text = f"{first.isoformat()}/{last.isoformat()}"
    assert (earliest(text), latest(text)) == (first, last)
    if first != last:
        with pytest.raises(Refused):
            parse_edtf(f"{last.isoformat()}/{first.isoformat()}")


@given(DAYS, st.sampled_from(["~", "?", "%", ""]))
def test_a_coarser_date_contains_the_finer(day: date, doubt: str) -> None:
    finer = day.isoformat()
    for coarser in (finer[:8] + "XX", finer[:7], finer[:5] + "XX", finer[:4]):
        assert earliest(coarser + doubt) <= earliest(finer)
        assert latest(finer) <= latest(coarser + doubt)
        finer = coarser


@pytest.mark.parametrize("season", ["21", "22", "23", "24"])
@pytest.mark.parametrize("year", ["1999", "9999"])
def test_a_season_may_cross_into_the_next_year_only_where_one_does(year: str, season: str) -> None:
    crosses = season in ("22", "24") and year != "9999"
    assert earliest(f"{year}-{season}") == date(int(year), 1, 1)
    assert latest(f"{year}-{season}") == (date(2000, 2, 29) if crosses else date(int(year), 12, 31))


def test_open_and_unknown_ends_have_no_bound() -> None:
    for text in ("1998/..", "1998/"):
        assert parse_edtf(text).upper is None
        assert latest(text) == date.max
    for text in ("../1998", "/1998"):
        assert parse_edtf(text).lower is None
        assert earliest(text) == date.min


@given(st.text(alphabet="0123456789X-/~?%.T:Zca ", max_size=24))
def test_any_text_is_read_or_refused(text: str) -> None:
    try:
        edtf = parse_edtf(text)
    except Refused:
        return
    assert edtf.text == text.strip()
    assert format_edtf(edtf.text) == format_edtf(edtf)
