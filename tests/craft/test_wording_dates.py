"""Dates, durations, figures and lists in the languages that come with the program."""

import tomllib
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from provenance.craft.wording import Wording, read_wording
from provenance.craft.wording_dates import Place
from provenance.model.dates import format_edtf, parse_edtf
from provenance.model.evidence import Amount, Claim, Lasting, Standing, Treatment, When
from provenance.model.quantities import Dilution, Size
from provenance.resources import resource


def shipped(language: str) -> Wording:
    text = resource("templates", "wording", f"{language}.toml").read_text("utf-8")
    return read_wording(tomllib.loads(text), name=language, text=text)


EN, FR = shipped("en"), shipped("fr")

DAYS = st.dates(date(1, 1, 1), date(9999, 12, 31)).map(str)
PLAIN = st.one_of(
    DAYS,
    DAYS.map(lambda day: day[:7]),
    DAYS.map(lambda day: day[:4]),
    DAYS.map(lambda day: f"{day[:7]}-XX"),
    DAYS.map(lambda day: f"{day[:4]}-XX"),
    DAYS.map(lambda day: f"{day[:4]}-XX-XX"),
)
DOUBTFUL = st.tuples(PLAIN, st.sampled_from("~?%")).map("".join)
END = st.tuples(
    st.one_of(DAYS, DAYS.map(lambda day: day[:4])), st.sampled_from(("", "~", "?"))
).map("".join)
DATES = st.one_of(
    PLAIN,
    DOUBTFUL,
    DAYS.filter(lambda day: day >= "0010").map(lambda day: f"{day[:3]}X"),
    DAYS.filter(lambda day: day >= "0100").map(lambda day: f"{day[:2]}XX"),
    st.tuples(DAYS.map(lambda day: day[:4]), st.sampled_from(("21", "22", "23", "24"))).map(
        "-".join
    ),
    st.tuples(DAYS, st.sampled_from(("", "Z", "-05:00", "+01:00"))).map(
        lambda day: f"{day[0]}T23:20:30{day[1]}"
    ),
    st.tuples(END, END).map(sorted).map("/".join),
    END.map(lambda end: f"{end}/.."),
    END.map(lambda end: f"../{end}"),
    END.map(lambda end: f"{end}/"),
    END.map(lambda end: f"/{end}"),
)


@given(DATES)
def test_english_dates_are_those_that_the_program_itself_says(edtf: str) -> None:
    assert EN.date(edtf) == EN.dates.say(edtf, "behind") == format_edtf(edtf)
    said, plain = EN.dates.say(edtf, "when"), EN.date(edtf)
    assert said in {plain, f"on {plain}", f"in {plain}", f"in the {plain}"}


@given(DATES, st.sampled_from(("alone", "behind", "when")))
def test_no_english_word_stands_in_a_french_date(edtf: str, place: Place) -> None:
    said = FR.dates.say(edtf, place)
    english = set(" ".join(map(str, EN.dates.words["alone"].values())).replace("'", " ").split())
    french = set(" ".join(map(str, FR.dates.words["alone"].values())).replace("'", " ").split())
    assert not set(said.split()) & (english - french)
    for moment in (parse_edtf(edtf).start, parse_edtf(edtf).end):
        if not isinstance(moment, str) and "X" not in moment.year:
            assert moment.year.lstrip("0") in said


@pytest.mark.parametrize(
    ("edtf", "alone", "behind", "when"),
    [
        ("2031-03-02", "2 March 2031", "2 March 2031", "on 2 March 2031"),
        ("2031-03", "March 2031", "March 2031", "in March 2031"),
        ("1998", "1998", "1998", "in 1998"),
        ("1998-21", "spring 1998", "spring 1998", "in spring 1998"),
        ("1998~", "about 1998", "about 1998", "about 1998"),
        ("199X", "1990s", "1990s", "in the 1990s"),
        ("19XX", "1900 to 1999", "1900 to 1999", "1900 to 1999"),
        ("1998/2001", *["between 1998 and 2001"] * 3),
    ],
)
def test_dates_in_english(edtf: str, alone: str, behind: str, when: str) -> None:
    said = [EN.dates.say(edtf, place) for place in ("alone", "behind", "when")]
    assert said == [alone, behind, when]


@pytest.mark.parametrize(
    ("edtf", "alone", "behind", "when"),
    [
        ("2031-03-02", "2 mars 2031", "le 2 mars 2031", "le 2 mars 2031"),
        ("2031-08-01", "1er août 2031", "le 1er août 2031", "le 1er août 2031"),
        ("2031-03", "mars 2031", "mars 2031", "en mars 2031"),
        ("1998", "1998", "1998", "en 1998"),
        ("1998-21", "printemps 1998", "printemps 1998", "au printemps 1998"),
        ("1998-24", "hiver 1998", "hiver 1998", "en hiver 1998"),
        ("1998~", "vers 1998", "1998 environ", "vers 1998"),
        ("1998-05-02~", "vers le 2 mai 1998", "le 2 mai 1998 environ", "vers le 2 mai 1998"),
        ("1998-05?", "peut-être en mai 1998", "peut-être mai 1998", "peut-être en mai 1998"),
        ("199X", "années 1990", "les années 1990", "dans les années 1990"),
        ("19XX", "1900 à 1999", "1900 à 1999", "entre 1900 et 1999"),
        (
            "1998-05-XX",
            "mai 1998 (jour inconnu)",
            "mai 1998 (jour inconnu)",
            "en mai 1998 (jour inconnu)",
        ),
        ("1998/2001", *["entre 1998 et 2001"] * 3),
        ("1998-03-01/1998-04-05", *["entre le 1er mars 1998 et le 5 avril 1998"] * 3),
        ("1998~/2001", *["entre 1998 environ et 2001"] * 3),
        ("1998-03/..", *["depuis mars 1998"] * 3),
        ("../1998-03-02", *["au plus tard le 2 mars 1998"] * 3),
        ("../1998", *["au plus tard en 1998"] * 3),
        ("/1998", *["entre une date inconnue et 1998"] * 3),
    ],
)
def test_dates_in_french(edtf: str, alone: str, behind: str, when: str) -> None:
    said = [FR.dates.say(edtf, place) for place in ("alone", "behind", "when")]
    assert said == [alone, behind, when]


def claim(name: str, **words: object) -> Claim:
    given_words: dict[str, object] = {
        "when": When("2031-03-02"),
        "specimen": "x",
        "method": "x",
        "reading": "x",
        **words,
    }
    return Claim(name, "made", Standing.LOGGED, (1,), given_words)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("duration_ms", "english", "french"),
    [
        (150_000, "2 min 30 s", "2 min 30 s"),
        (10_500, "10.5 s", "10,5 s"),
        (3_900_000, "1 h 5 min", "1 h 5 min"),
    ],
)
def test_durations(duration_ms: int, english: str, french: str) -> None:
    asked = claim("tested.silver.seen", time=Lasting(duration_ms))
    assert f" after {english}." in EN.sentence(asked)
    assert f" après {french}." in FR.sentence(asked)


def test_figures_have_the_mark_of_their_language() -> None:
    asked = claim("tested.silver.measured", amount=Amount(900))
    assert " 0.9 µg/cm² " in EN.sentence(asked)
    assert " 0,9 µg/cm² " in FR.sentence(asked)
    size = Size(height_tenth_mm=2400, width_tenth_mm=3050)
    assert EN.size(size, "metric") == "24.0 × 30.5 cm"
    assert FR.size(size, "metric") == "24,0 × 30,5 cm"
    thin = Dilution(typed="1+1.5", parts_hundredths=(100, 150))
    bath = (Treatment("fix", "", thin, 90_500),)
    assert "fixer 1+1.5 for 1 min 30.5 s" in EN.sentence(claim("made.fixed", baths=bath))
    assert "fixateur 1+1,5 pendant 1 min 30,5 s" in FR.sentence(claim("made.fixed", baths=bath))


def test_what_a_person_wrote_keeps_its_points() -> None:
    typed = claim("tested.silver.seen", reading="patch 1.5, no. 3")
    assert "patch 1.5, no. 3" in FR.sentence(typed)
    written = (Treatment("fix", "fixer no. 1.5", None, 60_000),)
    assert "fixer no. 1.5 pendant 1 min" in FR.sentence(claim("made.fixed", baths=written))


@pytest.mark.parametrize(
    ("names", "english", "french"),
    [
        ((), "", ""),
        (("a",), "a", "a"),
        (("a", "b"), "a and b", "a et b"),
        (("a", "b", "c"), "a, b and c", "a, b et c"),
    ],
)
def test_lists(names: tuple[str, ...], english: str, french: str) -> None:
    assert EN.listed(names) == english
    assert FR.listed(names) == french
