import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from provenance.errors import Refused
from provenance.model.designation import SERIES, Designation, parse_designation
from provenance.model.roman import from_roman, to_roman


@st.composite
def designations(draw: st.DrawFn) -> Designation:
    series = draw(st.sampled_from(SERIES))
    if series in ("BAT", "unnumbered"):
        return Designation(series=series)
    total = draw(st.none() | st.integers(1, 3999))
    number = draw(st.integers(1, total or 3999))
    if series != "numbered" and total is None and draw(st.booleans()):
        return Designation(series=series)
    return Designation(series=series, number=number, total=total)


@given(designations())
def test_what_is_printed_reads_back(designation: Designation) -> None:
    assert parse_designation(str(designation), bare_number=True) == designation
    assert msgspec.json.decode(msgspec.json.encode(designation), type=Designation) == designation


@pytest.mark.parametrize(
    ("text", "canonical"),
    [
        ("7/25", "7/25"),
        (" 07 / 25 ", "7/25"),
        ("7 of 25", "7/25"),
        ("7⁄25", "7/25"),
        ("AP II/III", "AP II/III"),
        ("ap 2/3", "AP II/III"),
        ("AP2", "AP II"),
        ("APII", "AP II"),
        ("A/P 2/3", "AP II/III"),
        ("A.P. 2", "AP II"),
        ("EA", "AP"),
        ("E.A. I/III", "AP I/III"),
        ("épreuve d’artiste II", "AP II"),
        ("Artist's proof 4", "AP IV"),
        ("PP 1/1", "PP I/I"),
        ("HC", "HC"),
        ("H.C. I/II", "HC I/II"),
        ("hors commerce", "HC"),
        ("BAT", "BAT"),
        ("Bon à tirer", "BAT"),
        ("TP 3", "TP III"),
        ("Unnumbered", "unnumbered"),
    ],
)
def test_usual_spellings_lead_to_one_printed_form(text: str, canonical: str) -> None:
    assert str(parse_designation(text)) == canonical


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("0/25", "numbers begin at 1"),
        ("AP 0", "numbers begin at 1"),
        ("400/25", "number 400 is more than the 25 there are"),
        ("AP III/II", "number 3 is more than the 2"),
        ("7", "does not say of how many"),
        ("VII/XXV", "say which proofs, as AP VII/XXV"),
        ("AP IIII", "IIII is not a Roman numeral"),
        ("AP 4000", "up to 3999"),
        ("BAT 2", "BAT takes no number"),
        ("unnumbered 3", "unnumbered takes no number"),
        ("AP /3", "is not a designation"),
        ("-7/25", "is not a designation"),
        ("", "is not a designation"),
        ("XP 1", "is not a designation"),
    ],
)
def test_impossible_designations_are_refused_with_the_reason(text: str, reason: str) -> None:
    with pytest.raises(Refused, match=reason) as refused:
        parse_designation(text, field="number")
    assert refused.value.problems[0].field == "number"


def test_a_bare_number_is_read_where_the_edition_is_known() -> None:
    assert parse_designation("7", bare_number=True) == Designation(series="numbered", number=7)


@pytest.mark.parametrize(
    ("number", "total"),
    [(None, None), (None, 25), (0, 25), (26, 25)],
)
def test_no_impossible_value_can_be_made(number: int | None, total: int | None) -> None:
    with pytest.raises(Refused):
        Designation(series="numbered", number=number, total=total)


def test_an_edition_lists_numbers_before_proofs() -> None:
    listed = ["1/25", "2/25", "10/25", "AP", "AP I", "AP II", "PP I", "HC", "BAT", "TP I"]
    listed.append("unnumbered")
    read = [parse_designation(text) for text in reversed(listed)]
    assert [str(one) for one in sorted(read, key=lambda one: one.order)] == listed


@given(st.integers(1, 3999))
def test_roman_numerals_read_back(number: int) -> None:
    assert from_roman(to_roman(number)) == number
    assert from_roman(to_roman(number).lower()) == number


@pytest.mark.parametrize(
    ("number", "letters"), [(4, "IV"), (9, "IX"), (14, "XIV"), (1994, "MCMXCIV")]
)
def test_roman_numerals_by_hand(number: int, letters: str) -> None:
    assert to_roman(number) == letters


@pytest.mark.parametrize("letters", ["", "IIII", "VX", "IC", "MMMM", "A"])
def test_unusual_numerals_are_not_read(letters: str) -> None:
    assert from_roman(letters) is None


@pytest.mark.parametrize("number", [0, 4000])
def test_numbers_without_a_numeral(number: int) -> None:
    with pytest.raises(ValueError, match="no Roman numeral"):
        to_roman(number)
