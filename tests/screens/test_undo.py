"""Taking back the last thing that was written at the screen."""

from pathlib import Path

from provenance.model.prints import Print
from tests.screens.house import Printer, at_work, behind_its_back


async def number_it(printer: Printer) -> None:
    """Give the print Q8 a number."""
    await printer.press("slash", *"Q8", "enter", "n", "ctrl+s")
    await printer.until("saved: act")


def number_of(printer: Printer, record: int) -> str | None:
    """The number that a print bears now."""
    return printer.studio.register.read.get(Print, record).body.designation


async def test_the_last_act_is_taken_back_after_asking(studio: Path, ids: dict[str, int]) -> None:
    async with at_work(studio) as printer:
        await number_it(printer)
        given = number_of(printer, ids["Q8"])
        assert given is not None
        await printer.press("u")
        assert "Take act" in printer.text()
        await printer.press("n")
        assert number_of(printer, ids["Q8"]) == given
        await printer.press("u", "y")
        await printer.until("is taken back")
        assert number_of(printer, ids["Q8"]) is None
        assert given not in printer.text()


async def test_nothing_is_taken_back_that_was_not_written_here(studio: Path) -> None:
    async with at_work(studio) as printer:
        head = printer.studio.register.read.head()
        await printer.press("u", "y")
        assert "Take act" not in printer.text()
        assert printer.studio.register.read.head() == head


async def test_each_act_is_taken_back_once(studio: Path, ids: dict[str, int]) -> None:
    async with at_work(studio) as printer:
        await number_it(printer)
        await printer.press("u", "y")
        await printer.until("is taken back")
        assert printer.studio.acts == []


async def test_what_was_changed_since_is_not_taken_back(studio: Path, ids: dict[str, int]) -> None:
    async with at_work(studio) as printer:
        await number_it(printer)
        given = number_of(printer, ids["Q8"])
        behind_its_back(studio, ids["Q8"], features="a white spot in the sky")
        await printer.press("u", "y")
        await printer.until("changed")
        assert number_of(printer, ids["Q8"]) == given
        # it can be tried again
        assert len(printer.studio.acts) == 1
        await printer.press("down")
        assert printer.said() == ""
