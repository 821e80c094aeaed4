"""The texts of the rules: whole, and refused when they are not."""

import pytest

from provenance.craft.sequence.finding import BLOCKING, CASES
from provenance.craft.sequence.texts import read_rules
from provenance.craft.wording_rules import FORBIDDEN
from provenance.errors import Refused
from tests.craft.sequence.ground import data, ground

TEXT = data("rules.toml")


def test_there_is_a_text_for_each_case_and_a_source_where_its_grade_names_one() -> None:
    rules = ground().rules
    assert rules.case.keys() == CASES.keys()
    assert [
        key for key, one in rules.case.items() if one.grade in ("S", "S2") and not one.source
    ] == []


def test_no_text_says_more_than_a_record_can_show() -> None:
    for case in ground().rules.case.values():
        assert not FORBIDDEN.search(f"{case.rule} {case.why} {case.do}")


def test_only_errors_stand_against_a_certificate() -> None:
    assert {CASES[case] for case in BLOCKING} == {"E"}


@pytest.mark.parametrize(
    ("wrong", "told"),
    [
        (("[case.Q4]", "[case.Q44]"), "case Q4 is missing.*case Q44 is not of this program"),
        (('"eliminator" = ', '"other" = '), "words for eliminator is missing"),
        (("[case.Q4]", "[case.Q4]\nlevel = 'E'"), "cannot be read"),
        (('grade = "S2"', 'grade = "X"'), "cannot be read"),
        (("[case.Q4]", "[case.Q4"), "cannot be read"),
        (('why = "Silver halide that is left in the sheet darkens later."', 'why = " "'),
         "case Q5 has no why"),
    ],
)  # fmt: skip
def test_a_text_that_is_not_whole_is_refused(wrong: tuple[str, str], told: str) -> None:
    with pytest.raises(Refused, match="(?s)" + told):
        read_rules(TEXT.replace(*wrong))
