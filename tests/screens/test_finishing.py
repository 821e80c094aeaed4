"""What prints owe: many are marked, one answer is given."""

from pathlib import Path

import pytest

from provenance.model.printing import Printing
from provenance.model.proof import Test
from provenance.records.register import Register
from provenance.screens.places.finishing import Finishing
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
