"""The count of an edition, and that of its negative."""

from typing import Any

import pytest

from provenance.craft.counting import count, proofs_share, together
from provenance.model.prints import Print
from tests.studios import IMAGE, SHEET, edition


def one(designation: str | None, **other: Any) -> Print:
    """A print of the edition."""
    fields = {"edition": 1, "printing": 2, "mark": "1", "image": IMAGE, "sheet": SHEET}
    return Print(designation=designation, **fields | other)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("print_", "given"),
    [
        (one("1/25"), 1),
        (one("AP II"), 1),
        (one("HC"), 1),
        (one("unnumbered"), 1),
        (one("1/25", existence="destroyed"), 1),
        (one("1/25", opening=True), 1),
        (one(None), 0),
        # S: trial proofs are outside the total (North Carolina G.S. 25C-14)
        (one("TP I"), 0),
        (one("BAT"), 0),
        (one("BAT", counted="inside"), 1),
        (one("EX", counted="outside"), 0),
        (one("EX I", counted="inside"), 1),
    ],
)
def test_what_counts_towards_the_declared_total(print_: Print, given: int) -> None:
    held = count(edition(1), [(7, print_)])
    assert (held.given, held.made) == (given, 1)
    assert held.still == held.declared - given


def test_a_print_and_its_replacement_are_one() -> None:
    prints = [(1, one("1/25", existence="destroyed")), (2, one("1/25", replaces=1))]
    held = count(edition(1), prints)
    assert (held.given, held.made, held.existing) == (1, 2, 1)


def test_the_negative_counts_all_sizes() -> None:
    small, large = (count(edition(1, numbered=n, artist_proofs=0), []) for n in (20, 15))
    assert together([small, large]).copies == 35


def test_no_share_without_both() -> None:
    assert proofs_share(edition(1, artist_proofs=0)) is None
    assert proofs_share(edition(1, numbered=0)) is None
