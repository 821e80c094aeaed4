"""Wedge readings from a table of text, as a spreadsheet or an instrument writes it.

    step,density,density
    unexposed,0.05,0.05
    1,2.03,2.04
    2,2.01,2.01
    full,2.05

The first column is `step` (counted from 1, the clearest), `tablet` (the density
of the tablet there) or `log_h`; the others are readings.  Columns are parted by
commas, semicolons or tabs; lines that begin with # are left out.
"""

import csv
from collections.abc import Sequence
from dataclasses import dataclass

from provenance.craft.numbers import read_number
from provenance.craft.sensitometry.curve import Curve, fit_curve
from provenance.craft.sensitometry.steps import Step, nominal_tablet
from provenance.craft.tables import reads_a_table
from provenance.errors import Problem, Refused

FIRST_COLUMNS = ("step", "tablet", "log_h")
UNEXPOSED, FULL = "unexposed", "full"


@dataclass(frozen=True)
class WedgeTable:
    """The readings of a table."""

    steps: tuple[Step, ...]
    unexposed: tuple[float, ...]
    full: tuple[float, ...]
    heading: str = "log_h"
    """What the first column gave: one of `FIRST_COLUMNS`."""

    @property
    def curve(self) -> Curve:
        """The curve through them.  Raises Refused as `fit_curve` does."""
        return fit_curve(self.steps, self.unexposed, self.full)


@reads_a_table
def read_wedge_table(text: str, tablet_steps: int = 0) -> WedgeTable:
    """Read a table; `tablet_steps` says which common tablet numbered steps are of.

    Raises Refused with the line of whatever is not understood.
    """
    written = text.removeprefix("\ufeff").splitlines()
    rows = [
        (number, line.strip())
        for number, line in enumerate(written, 1)
        if line.strip() and not line.lstrip().startswith("#")
    ]
    if not rows:
        raise Refused(Problem(what="the table is empty", mend="give a heading and a line a step"))
    heading = rows[0][1].lower()
    parted_by = next((mark for mark in "\t;" if mark in heading), ",")
    kind = heading.split(parted_by)[0].strip().replace(" ", "_")
    if kind not in FIRST_COLUMNS:
        raise Refused(
            Problem(
                what=f"the first column is “{kind}”",
                line=rows[0][0],
                mend=f"head it {', '.join(FIRST_COLUMNS[:-1])} or {FIRST_COLUMNS[-1]}",
            )
        )
    tablet = nominal_tablet(tablet_steps) if kind == "step" else ()
    ends: dict[str, tuple[float, ...]] = {UNEXPOSED: (), FULL: ()}
    steps = []
    for number, line in rows[1:]:
        name, *cells = (cell.strip() for cell in next(csv.reader([line], delimiter=parted_by)))
        read = tuple(_number(cell, number, parted_by) for cell in cells if cell)
        if not read:
            raise Refused(Problem(what=f"“{name}” has no reading", line=number, mend="read it"))
        if name.lower() in ends:
            ends[name.lower()] += read
        else:
            steps.append(Step(_log_h(name, number, parted_by, kind, tablet), read))
    return WedgeTable(tuple(steps), ends[UNEXPOSED], ends[FULL], kind)


def _log_h(name: str, line: int, parted_by: str, kind: str, tablet: Sequence[float]) -> float:
    value = _number(name, line, parted_by)
    if kind == "log_h":
        return value
    if kind == "tablet":
        return -value
    place = int(value)
    if place != value or not 1 <= place <= len(tablet):
        raise Refused(
            Problem(
                what=f"the tablet has no step {name}",
                line=line,
                mend=f"number the steps 1 to {len(tablet)}, the clearest first",
            )
        )
    return -tablet[place - 1]


def _number(cell: str, line: int, parted_by: str) -> float:
    # Where the comma does not part columns it can only be a decimal comma.
    plain = cell if parted_by == "," else cell.replace(",", ".")
    try:
        return float(read_number(plain))
    except Refused as refused:
        (problem,) = refused.problems
        raise Refused(Problem(what=problem.what, line=line, mend=problem.mend)) from refused
