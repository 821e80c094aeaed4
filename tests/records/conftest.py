"""What the tests of the records share: a fresh register, and one with a printing in it."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from provenance.records.register import Register
from tests.studios import WHO, Shelf, furnish, new_register


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Where the studio is."""
    return tmp_path / "studio"


@pytest.fixture
def register(folder: Path) -> Iterator[Register]:
    """The open register of a new studio."""
    with new_register(folder) as opened:
        yield opened


@pytest.fixture
def shelf(register: Register) -> Shelf:
    """Puts a negative, an edition, paper, baths and a printing on record."""
    with register.act(WHO) as act:
        return furnish(act)
