"""What prints are called, where they are many."""

from pathlib import Path

from provenance.studio.calling import in_short
from tests.studios import WHO, furnish, new_register, sheet


def test_of_many_prints_the_first_are_named_and_the_rest_counted(tmp_path: Path) -> None:
    with new_register(tmp_path / "studio") as register:
        with register.act(WHO) as act:
            shelf = furnish(act)
            prints = [act.enter(sheet(shelf, f"Q{place}")) for place in range(1, 5)]
        assert in_short(register.read, prints, 4) == "QUAY Q1, QUAY Q2, QUAY Q3, QUAY Q4"
        assert in_short(register.read, prints, 2) == "QUAY Q1, QUAY Q2 and 2 more"
