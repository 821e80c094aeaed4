"""Check characters against published numbers and an independent program."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from stdnum.iso7064 import mod_97_10

from provenance.model.check_characters import check_characters, verify


def test_the_worked_example_of_the_standard() -> None:
    # ISO 7064, simplified procedure for MOD 97-10: 79400 = 818 × 97 + 54, 98 − 54 = 44.
    # Standing S2: quoted by a central bank's notice on payment references.
    assert check_characters("794") == "44"
    assert verify("79444")


def test_the_usual_example_of_an_account_number() -> None:
    # ISO 13616 moves the first four characters of GB82 WEST 1234 5698 7654 32 to the
    # end before the check.  Standing S2: quoted in many descriptions of the scheme.
    assert verify("WEST 1234 5698 7654 32 GB82")
    assert check_characters("WEST12345698765432GB") == "82"


@pytest.mark.parametrize(
    ("number", "digits"),
    [
        # Standing S2: documentation of python-stdnum 2.2, stdnum.iso7064.mod_97_10.
        ("99991234567890121414", "90"),
        ("4354111611551114", "31"),
        ("22181321402534321446701611", "35"),
    ],
)
def test_examples_of_the_independent_program(number: str, digits: str) -> None:
    assert check_characters(number) == digits


@given(st.text(alphabet="0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ", min_size=1, max_size=24))
def test_agreement_with_the_independent_program(number: str) -> None:
    # Standing C: python-stdnum computes the same from the definition.
    assert check_characters(number) == mod_97_10.calc_check_digits(number)
    if number[-2:].isdecimal() and len(number) > 2:
        assert verify(number) == mod_97_10.is_valid(number)
