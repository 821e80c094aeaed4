import pytest
from hypothesis import given
from hypothesis import strategies as st

from provenance.errors import Refused
from provenance.model.check_characters import (
    check_characters,
    near_misses,
    verify,
    with_check_characters,
)

FIGURES = "0123456789"
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
NUMBERS = st.text(alphabet=FIGURES + LETTERS, min_size=1, max_size=16)


@given(NUMBERS)
def test_a_number_with_its_check_characters_is_verified(number: str) -> None:
    issued = with_check_characters(number)
    assert verify(issued)
    assert verify(issued.lower())
    assert verify(issued.replace("-", ""))
    assert near_misses(issued).count(issued) == 0


@given(NUMBERS, st.data())
def test_a_wrong_character_of_the_same_sort_is_caught(number: str, data: st.DataObject) -> None:
    issued = with_check_characters(number, joint="")
    place = data.draw(st.integers(0, len(issued) - 1))
    sort = FIGURES if issued[place] in FIGURES else LETTERS
    wrong = data.draw(st.sampled_from([one for one in sort if one != issued[place]]))
    typed = issued[:place] + wrong + issued[place + 1 :]
    assert not verify(typed)
    assert issued in near_misses(typed)


@given(st.text(alphabet=FIGURES, min_size=2, max_size=16), st.data())
def test_exchanged_neighbours_are_caught_and_proposed(number: str, data: st.DataObject) -> None:
    issued = with_check_characters(number, joint="")
    place = data.draw(st.integers(0, len(issued) - 2))
    left, right = issued[place], issued[place + 1]
    typed = issued[:place] + right + left + issued[place + 2 :]
    if left != right:
        assert not verify(typed)
        assert issued in near_misses(typed)


def test_proposals_keep_the_separators_and_put_exchanges_first() -> None:
    issued = with_check_characters("quay-7/25")
    assert issued.startswith("QUAY-7/25-")
    assert near_misses(issued.replace("7/25", "2/75"))[0] == issued


@pytest.mark.parametrize("number", ["", "--", "QUÄY-7", "7_25"])
def test_other_characters_are_refused(number: str) -> None:
    with pytest.raises(Refused, match="A-Z"):
        check_characters(number)
    assert not verify(number)


def test_the_check_characters_are_figures() -> None:
    # “B” counts as 11, so 1+A would otherwise pass for a pair of figures.
    letter_ended = [f"{n}{letter}" for n in range(1000) for letter in LETTERS]
    assert not any(verify(number) for number in letter_ended)
