"""How what came of the rows is told: by line and column of the table itself."""

import re
from bisect import bisect_left
from collections import Counter
from dataclasses import dataclass, field, replace

from provenance.errors import Problem
from provenance.studio.tables.mapping import Mapped
from provenance.studio.tables.row import Took

MOST_PROBLEMS = 100
"""How many are told; the rest are counted."""
_CALLED = {"done_on": "printed_on", "signed": "signature"}
"""Fields of records that a table calls otherwise."""
_ID = re.compile(r"“[^”]*”|(?<!\w)#([0-9]{1,15})\b")
"""The id of a record; what stands in quotes is a cell, and is told as it is."""


@dataclass
class Came:
    """What has come of the rows so far."""

    mapped: Mapped
    began: int = 0
    """The first id that a row may have made."""
    took: Counter[Took] = field(default_factory=Counter)
    problems: list[Problem] = field(default_factory=list)
    more: int = 0
    _last: list[int] = field(default_factory=list)
    _lines: list[int] = field(default_factory=list)

    def made(self, last: int, line: int) -> None:
        """Note the line after whose row `last` is the last entry."""
        self._last.append(last)
        self._lines.append(line)

    def refused(self, problem: Problem, line: int | None) -> None:
        """Keep a problem, or count it."""
        if len(self.problems) < MOST_PROBLEMS:
            self.problems.append(self.placed(problem, line))
        else:
            self.more += 1

    def placed(self, problem: Problem, line: int | None) -> Problem:
        """`problem` at its line and column.

        A record that a row of this table made is told by the line of that row: it
        will have no id when the table is refused.
        """
        what, mend = (_ID.sub(self._line_for, text) for text in (problem.what, problem.mend))
        head = _head(self.mapped, problem.field)
        return replace(problem, what=what, mend=mend, field=head, line=line)

    def _line_for(self, match: re.Match[str]) -> str:
        record = int(match[1] or 0)
        if record < self.began or not self._last or record > self._last[-1]:
            return match[0]
        return f"line {self._lines[bisect_left(self._last, record)]}"


def _head(mapped: Mapped, field: str) -> str:
    """The head of the column that a problem is about; the field where it is about none."""
    bare = field.partition(".")[0]
    for name in (field, bare, _CALLED.get(bare, bare)):
        if mapped.place(name) is not None:
            return mapped.head(name)
    return _CALLED.get(field, field)
