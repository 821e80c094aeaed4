"""Tables of readings, as spreadsheets and instruments write them."""

import pytest

from provenance.craft.sensitometry.steps import Step
from provenance.craft.sensitometry.table import read_wedge_table
from provenance.errors import Refused


def test_numbered_steps_of_a_common_tablet() -> None:
    table = read_wedge_table(
        "# FB-1\nstep,density,density\nunexposed,0.05\n1,2.03,2.04\n3,1.9,\nfull,2.05\nfull,2.07\n",
        21,
    )
    assert table.steps == (Step(0, (2.03, 2.04)), Step(-0.3, (1.9,)))
    assert (table.unexposed, table.full) == ((0.05,), (2.05, 2.07))


@pytest.mark.parametrize(
    "text",
    [
        "tablet;density\n0,05;2,030\n1,50;0,123\n",
        "tablet\tdensity\n0.05\t2.03\n\n1.5\t0.123\n",
        "\ufefflog_h,density\r\n-0.05,2.03\r\n-1.5,.123\r\n",
        "Log H , Density\n-0.05, 2.03\n-1.5, 0.123\n",
    ],
)
def test_separators_and_decimal_marks(text: str) -> None:
    assert read_wedge_table(text).steps == (Step(-0.05, (2.03,)), Step(-1.5, (0.123,)))


@pytest.mark.parametrize(
    ("text", "line", "said"),
    [
        ("", None, "the table is empty"),
        ("# nothing\n", None, "the table is empty"),
        ("patch,density\n1,2\n", 1, "the first column is “patch”"),
        ("step,density\n1,2.0\n22,1.9\n", 3, "no step 22"),
        ("step,density\n0,2.0\n", 2, "no step 0"),
        ("step,density\n1.5,2.0\n", 2, "no step 1.5"),
        ("tablet,density\n0.1,black\n", 2, "“black” is not a number"),
        ("tablet,density\n\nsky,2.0\n", 3, "“sky” is not a number"),
        ("tablet,density\n0.1\n", 2, "“0.1” has no reading"),
    ],
)
def test_what_is_not_understood_is_told_with_its_line(
    text: str, line: int | None, said: str
) -> None:
    with pytest.raises(Refused, match=said) as caught:
        read_wedge_table(text, 21)
    assert caught.value.problems[0].line == line


def test_numbered_steps_need_to_be_told_the_tablet() -> None:
    with pytest.raises(Refused, match="measured densities"):
        read_wedge_table("step,density\n1,2.0\n")
