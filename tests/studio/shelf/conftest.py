"""A studio with a shelf."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from provenance.records.register import Register
from tests.studios import WHO, Shelf, furnish, new_register


@pytest.fixture
def register(tmp_path: Path) -> Iterator[Register]:
    """The open register of a new studio."""
    with new_register(tmp_path / "studio") as opened:
        yield opened


@pytest.fixture
def shelf(register: Register) -> Shelf:
    """A negative, an edition, paper, baths and a printing."""
    with register.act(WHO) as act:
        return furnish(act)
