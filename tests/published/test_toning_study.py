"""Conversion by the oxidising bleach: T7."""

from provenance.craft.conversion import coverage
from tests.craft.test_toning_conversion import study


def test_t7_three_quarters_converted() -> None:
    # C, definition after Reilly, Topics in Photographic Preservation 5 (1992):
    # net densities of 1.20 before and 0.90 after the oxidising bleach are 75 %, by density.
    found = coverage(study((1200, 900), bleach="oxidising bleach"))
    assert found.shares[0].left_permille == 750
    assert found.can_say == ("share converted, by density",)
    assert "not the silver" in found.cannot_say
