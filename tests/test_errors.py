"""Errors are read by people: place, what happened, what to do."""

import re

import pytest

from provenance import errors
from provenance.errors import Conflict, Damaged, Misuse, NotFound, Problem, ProvenanceError, Refused


def test_a_problem_reads_as_a_sentence() -> None:
    problem = Problem("it is taken", "QUAY 7/25", "designation", "choose another", 12)
    assert str(problem) == "line 12 QUAY 7/25 designation: it is taken; choose another"
    assert str(Problem("it is taken")) == "it is taken"


@pytest.mark.parametrize(
    ("kind", "status"),
    [(Refused, 1), (NotFound, 1), (Conflict, 1), (Misuse, 2), (Damaged, 3), (ProvenanceError, 70)],
)
def test_each_kind_has_its_exit_status(kind: type[ProvenanceError], status: int) -> None:
    error = kind("one", Problem("two", field="sheet"))
    assert error.exit_status == status
    assert str(error) == "one\nsheet: two"


def test_the_tree_at_the_top_names_every_error() -> None:
    kinds = {
        name
        for name, value in vars(errors).items()
        if isinstance(value, type) and issubclass(value, Exception)
    }
    assert kinds == set(re.findall(r"^    (?:[│├└─ ]*)(\w+)", errors.__doc__ or "", re.MULTILINE))
