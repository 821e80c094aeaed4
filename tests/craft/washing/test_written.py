"""Readings as they are written down."""

import pytest

from provenance.craft.washing.written import read_readings
from provenance.errors import Refused
from provenance.model.study import WashReading


def test_a_table_of_readings() -> None:
    text = "\ufeffsheet,washed, left\nA,0,180 µg/cm²\nB, 5 min,0.22 g/m2\n,1 h, 0.9 ug/cm2\n"
    assert read_readings(text, "wash.csv") == (
        WashReading(washed_ms=0, left_ng_per_cm2=180_000),
        WashReading(washed_ms=300_000, left_ng_per_cm2=22_000),
        WashReading(washed_ms=3_600_000, left_ng_per_cm2=900),
    )


@pytest.mark.parametrize(
    ("row", "field", "what"),
    [
        ("5,1 µg/cm²", "washed", "no unit"),
        ("5 min,1", "left", "no mass per area"),
        ("5 min", "left", "no mass per area"),
        ("5 min,-1 µg/cm²", "left", "less than nothing"),
        ("5 min,much µg/cm²", "left", "not a number"),
    ],
)
def test_what_is_not_understood_is_refused_at_its_line(row: str, field: str, what: str) -> None:
    with pytest.raises(Refused, match=what) as caught:
        read_readings(f"washed,left\n0,180 µg/cm²\n{row}\n", "wash.csv")
    (problem,) = caught.value.problems
    assert (problem.record, problem.line, problem.field) == ("wash.csv", 3, field)


def test_a_table_without_its_columns_is_refused() -> None:
    with pytest.raises(Refused, match="no column left"):
        read_readings("washed,found\n", "wash.csv")
    with pytest.raises(Refused, match="no column washed or left"):
        read_readings("", "wash.csv")
