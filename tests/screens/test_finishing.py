"""What prints owe: many are marked, one answer is given."""

from pathlib import Path

import pytest

from provenance.model.printing import Printing
from provenance.model.proof import Test
from provenance.records.register import Register
from provenance.screens import reads_aside
from provenance.screens.places import finishing
from provenance.screens.places.finishing import Finishing
from provenance.studio import owing
from tests import studios
from tests.screens.form_app import SIZES
from tests.screens.house import Printer, at_work
from tests.screens.reading import screen_lines

both_sizes = pytest.mark.parametrize("size", SIZES, ids=["80x24", "120x40"])


def was_tested(printer: Printer, record: int, question: str) -> bool:
    """Whether a test of a print is on record."""
    tests = printer.studio.register.read.linked(record, Test, "covers")
    return any(test.body.question == question for test in tests)


@both_sizes
async def test_what_is_owed_stands_in_the_order_of_the_work(
    studio: Path, size: tuple[int, int]
) -> None:
    async with at_work(studio, size) as printer:
        await printer.press("5")
        lines = screen_lines(printer.app)
        order = ["residual-silver", "residual-thiosulfate", "number", "picture"]
        rows = [next(i for i, line in enumerate(lines) if word in line) for word in order]
        assert rows == sorted(rows)
        assert lines[rows[0]].split()[:2] == ["▸", "1"]
        assert "QUAY Q9" in lines[rows[0] + 1]
        # a certified print and a spoiled one owe nothing
        assert "11/25" not in printer.text()
        assert "Q10" not in printer.text()


@both_sizes
async def test_the_marked_are_answered_at_once(
    studio: Path, size: tuple[int, int], ids: dict[str, int]
) -> None:
    async with at_work(studio, size) as printer:
        await printer.press("5", "down", "right", "down", "down", "space", "space")
        assert "2 marked" in printer.text()
        await printer.press("enter")
        assert "QUAY Q8, QUAY Q9" in printer.text()
        await printer.press("y")
        await printer.until("saved: act")
        done = {mark: was_tested(printer, ids[mark], "thiosulfate") for mark in ("Q7", "Q8", "Q9")}
        assert done == {"Q7": False, "Q8": True, "Q9": True}
        assert "1  residual-thiosulfate" in printer.text()


async def test_one_strip_cannot_speak_for_sheets_that_were_fixed_apart(
    studio: Path, ids: dict[str, int]
) -> None:
    async with at_work(studio) as printer:
        await printer.press("5", "down", "enter")
        assert "QUAY 7/25, QUAY Q8, QUAY Q9" in printer.text()
        await printer.press("y")
        # Q7 was fixed twice, the others once
        await printer.until("Q7 and Q8 did not share the last fix")
        assert not any(was_tested(printer, ids[mark], "thiosulfate") for mark in ("Q7", "Q8", "Q9"))


async def test_the_print_under_the_cursor_is_answered_alone(
    studio: Path, ids: dict[str, int]
) -> None:
    async with at_work(studio) as printer:
        await printer.press("5", "down", "right", "down", "enter", "y")
        await printer.until("saved: act")
        done = {mark: was_tested(printer, ids[mark], "thiosulfate") for mark in ("Q7", "Q8")}
        assert done == {"Q7": True, "Q8": False}


async def test_space_on_what_is_owed_marks_all_of_it_and_none(studio: Path) -> None:
    async with at_work(studio) as printer:
        await printer.press("5", "down", "space")
        assert "last of all, 3 marked" in printer.text()
        await printer.press("space")
        assert "marked" not in printer.text()


async def test_it_unfolds_folds_and_opens_a_print(studio: Path) -> None:
    async with at_work(studio) as printer:
        await printer.press("5", "right", "down", "left")
        assert isinstance(printer.app.screen, Finishing)
        assert "▸  1" in printer.text()
        await printer.press("o", "down", "o")
        assert "back: Q9" in screen_lines(printer.app)[0]
        await printer.press("backspace")
        assert screen_lines(printer.app)[0].startswith(" Finishing")


async def test_numbers_are_given_for_one_edition_at_a_time(studio: Path) -> None:
    with Register.open(studio, clock=studios.clock()) as register, register.act("printer") as act:
        negative = act.enter(studios.negative(code="N-2", title="Rope"))
        edition = act.enter(studios.edition(negative, code="ROPE", name="Rope"))
        printing = act.enter(Printing(negative=negative, done_on=studios.PRINTED_ON))
        shelf = studios.Shelf(negative, edition, 0, printing, 0, 0)
        act.enter(studios.sheet(shelf, "R1"))
    async with at_work(studio, (80, 40)) as printer:
        await printer.press("5")
        heads = [line for line in screen_lines(printer.app) if line.split()[1:] == ["number"]]
        assert len(heads) == 2


@pytest.fixture
def as_if_large(monkeypatch: pytest.MonkeyPatch) -> None:
    """Bounds so low that the small studio is beyond all of them."""
    monkeypatch.setattr(reads_aside, "FEW", 0)
    monkeypatch.setattr(owing, "NAMED", 1)
    monkeypatch.setattr(finishing, "UNFOLDED", 2)
    monkeypatch.setattr(finishing, "AT_ONCE", 2)


@pytest.mark.usefixtures("as_if_large")
async def test_of_many_prints_a_few_are_named_and_the_rest_counted(studio: Path) -> None:
    async with at_work(studio) as printer:
        await printer.press("5")
        await printer.until("3 prints owe something")
        assert "QUAY 7/25   and 2 more" in printer.text()
        await printer.press("down", "right")
        await printer.until("and 1 more")
        assert "QUAY Q8" in printer.text()
        assert "QUAY Q9" not in printer.line("and 1 more")
        # how many more there are is told, and cannot be stood on
        await printer.press("down", "down", "down")
        assert "▸  2  number" in printer.text()


@pytest.mark.usefixtures("as_if_large")
async def test_of_many_prints_all_are_marked_and_answered_for(
    studio: Path, ids: dict[str, int]
) -> None:
    async with at_work(studio) as printer:
        await printer.press("5")
        await printer.until("3 prints owe something")
        await printer.press("down", "space")
        await printer.until("last of all, 3 marked")
        await printer.press("enter")
        await printer.until("at most 2 prints, and these are 3")
        await printer.press("right")
        await printer.until("•  QUAY 7/25")
        await printer.press("down", "space", "up", "up", "enter")
        await printer.until("QUAY Q8, QUAY Q9")
        await printer.press("y")
        await printer.until("saved: act")
        done = {mark: was_tested(printer, ids[mark], "thiosulfate") for mark in ("Q7", "Q8", "Q9")}
        assert done == {"Q7": False, "Q8": True, "Q9": True}
        await printer.until("1  residual-thiosulfate test, last of all")
        assert "marked" not in printer.text()


@pytest.mark.usefixtures("as_if_large")
async def test_a_mark_goes_with_what_another_program_answers(
    studio: Path, ids: dict[str, int]
) -> None:
    async with at_work(studio) as printer:
        await printer.press("5")
        await printer.until("3 prints owe something")
        await printer.press("down", "space")
        await printer.until("3 marked")
        await printer.studio.act(
            lambda act: act.enter(
                studios.silver_test(
                    ids["Q9"], place=9, question="thiosulfate", method="silver-nitrate spot"
                )
            )
        )
        await printer.until("last of all, 2 marked")


async def test_editions_beyond_the_first_are_counted(
    studio: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(owing, "EDITIONS", 1)
    with Register.open(studio, clock=studios.clock()) as register, register.act("printer") as act:
        negative = act.enter(studios.negative(code="N-2", title="Rope"))
        printing = act.enter(Printing(negative=negative, done_on=studios.PRINTED_ON))
        for code in ("ROPE", "SAIL"):
            edition = act.enter(studios.edition(negative, code=code, name=code))
            shelf = studios.Shelf(negative, edition, 0, printing, 0, 0)
            act.enter(studios.sheet(shelf, "R1"))
    async with at_work(studio, (80, 40)) as printer:
        await printer.press("5")
        assert "number, in 2 more editions" in printer.text()
        assert "QUAY Q8, Q9" in printer.text()
