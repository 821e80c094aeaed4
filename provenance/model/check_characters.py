"""Two check digits at the end of a number that people copy by hand.

ISO/IEC 7064, system MOD 97-10.  Letters count as 10 to 35, as in bank account
numbers; spaces, hyphens, slashes and points are only there for the eye.  Any
one wrong character of the same sort (a figure for a figure, a letter for a
letter) is caught, and any two neighbouring figures or letters exchanged.  A
letter where a figure belongs is caught in about 96 cases of 97.

It finds slips of the pen.  It proves nothing: anybody can compute it.
"""

from collections.abc import Iterator
from itertools import pairwise

from provenance.errors import Problem, Refused

_CHARACTERS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"
_SEPARATORS = " -/."
_LONGEST = 40
"""No certificate number comes near it."""


def check_characters(number: str) -> str:
    """The two check digits for `number`, which does not carry any yet.

    Raises Refused for an empty number or a character other than A-Z, 0-9 and
    separators.
    """
    return f"{98 - _value(number) * 100 % 97:02d}"


def with_check_characters(number: str, joint: str = "-") -> str:
    """`number` in capitals, the joint, and its two check digits: ``QUAY-7-58``."""
    return f"{number.upper()}{joint}{check_characters(number)}"


def verify(number: str) -> bool:
    """Whether `number`, check digits included, is as it was issued."""
    try:
        return _value(number) % 97 == 1 and _significant(number)[-2:].isdecimal()
    except Refused:
        return False


def near_misses(number: str) -> tuple[str, ...]:
    """The valid numbers that one slip would turn into `number`.

    A slip is two neighbouring characters exchanged or one character replaced;
    exchanges come first, being the commoner in figures.  Separators stay where
    they were typed.  The numbers are only proposals: many were never issued.
    """
    typed = number.upper()
    if len(typed) > _LONGEST:
        return ()
    candidates = (*_exchanged(typed), *_replaced(typed))
    return tuple(dict.fromkeys(text for text in candidates if verify(text)))


def _exchanged(number: str) -> Iterator[str]:
    places = [place for place, character in enumerate(number) if character not in _SEPARATORS]
    for left, right in pairwise(places):
        if number[left] != number[right]:
            characters = list(number)
            characters[left], characters[right] = characters[right], characters[left]
            yield "".join(characters)


def _replaced(number: str) -> Iterator[str]:
    for place, was in enumerate(number):
        if was not in _SEPARATORS:
            for character in _CHARACTERS:
                if character != was:
                    yield number[:place] + character + number[place + 1 :]


def _significant(number: str) -> str:
    return "".join(character for character in number.upper() if character not in _SEPARATORS)


def _value(number: str) -> int:
    """The number with its letters written as two figures each."""
    significant = _significant(number)
    if len(significant) > _LONGEST:
        raise Refused(
            Problem(
                what=f"“{number[:_LONGEST]}…” is longer than any number that was given",
                mend="copy it again as it is printed",
            )
        )
    if not significant or not set(significant) <= set(_CHARACTERS):
        raise Refused(
            Problem(
                what=f"“{number}” is not made of the letters A-Z and figures",
                mend="copy it again as it is printed; accents and other marks do not occur",
            )
        )
    return int("".join(str(_CHARACTERS.index(character)) for character in significant))
