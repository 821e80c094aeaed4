"""A short sample of every fault; the long form is `python -m tests.faults`."""

import random
from pathlib import Path

import pytest

from tests.faults.every import ALL
from tests.faults.ground import Ground
from tests.faults.registry import Fault, tally

SAMPLED = [one for one in ALL.values() if one.short]


@pytest.mark.parametrize("one", SAMPLED, ids=lambda one: one.name.replace(" ", "-"))
def test_nothing_is_lost_in_silence(one: Fault, tmp_path: Path) -> None:
    chance = random.Random(f"1 {one.name}")  # noqa: S311 - moments, not secrets
    came = tally(one, Ground(tmp_path, chance), one.short)
    assert came.amiss == []
    assert came.counts.total() == one.short
