"""Readings as a studio writes them down: a table of wash times and what was left.

washed, left
0 min, 180 µg/cm²
5 min, 22 µg/cm²
"""

import csv
import re
from collections.abc import Iterator

from provenance.craft.residual import convert_areal_mass, read_areal_mass
from provenance.craft.tables import reads_a_table
from provenance.craft.units import parse_duration_ms
from provenance.errors import Problem, ProvenanceError, Refused
from provenance.model.study import WashReading

COLUMNS = ("washed", "left")
_NOT_AT_ALL = re.compile(r"0(?:\s?(?:s|sec|min|h))?")


@reads_a_table
def read_readings(text: str, name: str) -> tuple[WashReading, ...]:
    """The readings in the table `text` of the file `name`; other columns are passed over.

    Raises Refused with the line of everything that is not understood.
    """
    rows = csv.DictReader(text.removeprefix("\ufeff").splitlines(), skipinitialspace=True)
    missing = [column for column in COLUMNS if column not in (rows.fieldnames or ())]
    if missing:
        raise Refused(
            Problem(
                f"has no column {' or '.join(missing)}",
                name,
                mend="the first line names the columns: washed, left",
                line=1,
            )
        )
    found: list[WashReading] = []
    problems: list[Problem] = []
    for row in rows:
        try:
            found.append(_reading(row["washed"] or "", row["left"] or ""))
        except Refused as refusal:
            problems += _at(refusal, name, rows.line_num)
    if problems:
        raise Refused(*problems)
    return tuple(found)


def _reading(washed: str, left: str) -> WashReading:
    never = _NOT_AT_ALL.fullmatch(washed.strip())
    washed_ms = 0 if never else parse_duration_ms(washed, field="washed")
    amount = read_areal_mass(left, field="left")
    if amount is None:
        raise Refused(
            Problem(f"“{left}” is no mass per area", field="left", mend="write it as 8.2 µg/cm²")
        )
    ng_per_cm2 = round(convert_areal_mass(amount.value, amount.unit, "µg/cm²") * 1000)
    if ng_per_cm2 < 0:
        raise Refused(Problem(f"“{left}” is less than nothing", field="left"))
    return WashReading(washed_ms=washed_ms, left_ng_per_cm2=ng_per_cm2)


def _at(error: ProvenanceError, name: str, line: int) -> Iterator[Problem]:
    for problem in error.problems:
        yield Problem(problem.what, name, problem.field, problem.mend, line)
