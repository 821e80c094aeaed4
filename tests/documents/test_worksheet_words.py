"""The words of the worksheet: two languages that say the same, and what is wrong with a file."""

from string import Formatter

import pytest

from provenance.documents.worksheet_words import (
    FILE,
    read_worksheet_words,
    shipped_worksheet_words,
)
from provenance.errors import Refused
from provenance.resources import resource

TEXT = resource("templates", FILE).read_text("utf-8")


def named(pattern: str) -> set[str]:
    return {one for _text, one, _format, _as in Formatter().parse(pattern) if one}


def test_both_languages_fill_in_the_same() -> None:
    english, french = (shipped_worksheet_words(one) for one in ("en", "fr"))
    for field in english.__struct_fields__:
        one, other = getattr(english, field), getattr(french, field)
        if isinstance(one, str):
            assert named(one) == named(other), field
    for field in english.match.__struct_fields__:
        assert named(getattr(english.match, field)) == named(getattr(french.match, field)), field
    assert french.say_missing
    assert french.say_question
    assert french.say_caution


@pytest.mark.parametrize(
    ("wrong", "what"),
    [
        (('base = "{seconds} s"', 'base = "{minutes} s"'), "nothing fills in minutes"),
        (('base = "{seconds} s"', 'base = "{seconds s"'), "is not closed"),
        (('trays = "Trays"\n', ""), "trays"),
        (("form = 1", "form = 2"), "form"),
        (('yes = "matches"', 'yes = "{spot}"'), "nothing fills in spot"),
        (('flash = "la', 'flash = "{what} la'), "nothing fills in what"),
    ],
)
def test_what_is_wrong_is_told(wrong: tuple[str, str], what: str) -> None:
    assert wrong[0] in TEXT
    language = "fr" if "flash" in wrong[0] else "en"
    with pytest.raises(Refused, match=what):
        read_worksheet_words(TEXT.replace(*wrong), language)


def test_a_language_that_is_not_there_is_told_with_those_that_are() -> None:
    with pytest.raises(Refused, match="only in en, fr"):
        shipped_worksheet_words("it")
