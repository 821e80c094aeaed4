"""Another program writes while the application is open: shown, said, and nothing is lost."""

from pathlib import Path

from provenance.model.prints import Print
from tests import studios
from tests.screens.house import at_work, behind_its_back
from tests.screens.reading import screen_lines


async def test_what_another_program_wrote_is_shown(studio: Path, ids: dict[str, int]) -> None:
    async with at_work(studio) as printer:
        await printer.press("slash", *"Q8", "enter")
        assert "numbered" not in printer.text()
        behind_its_back(studio, ids["Q8"], designation="8/25")
        await printer.until("numbered 8/25")
        assert screen_lines(printer.app)[0].startswith(" QUAY 8/25")


async def test_a_record_that_was_changed_under_a_form_is_said_and_the_form_stands(
    studio: Path, ids: dict[str, int]
) -> None:
    async with at_work(studio) as printer:
        await printer.press("slash", *"Q8", "enter", "n")
        await printer.put(first="8")
        behind_its_back(studio, ids["Q8"], features="a white spot in the sky")
        await printer.press("ctrl+s")
        await printer.until("while this form was open")
        assert printer.value("first") == "8"
        assert "features" in printer.text()
        held = printer.studio.register.read.get(Print, ids["Q8"])
        assert (held.body.designation, held.body.features) == (None, "a white spot in the sky")
        # whoever has read that saves again
        await printer.press("ctrl+s")
        await printer.until("saved: act")
        held = printer.studio.register.read.get(Print, ids["Q8"])
        assert (held.body.designation, held.body.features) == ("8/25", "a white spot in the sky")


async def test_a_certificate_of_a_record_that_changed_meanwhile_is_refused(
    studio: Path, ids: dict[str, int]
) -> None:
    async with at_work(studio) as printer:
        await printer.press("slash", *"Q7", "enter", "c")
        behind_its_back(studio, ids["Q7"], features="a white spot in the sky")
        head = printer.studio.register.read.head()
        await printer.press("y")
        await printer.until("read")
        assert "certified" not in screen_lines(printer.app)[0]
        assert printer.studio.register.read.head() == head
        assert printer.said()


async def test_a_register_that_is_busy_is_said_and_the_form_stands(
    studio: Path, ids: dict[str, int]
) -> None:
    from provenance.records.register import Register

    with Register.open(studio, clock=studios.clock()) as other:
        async with at_work(studio) as printer:
            # nobody waits long for the other program in a test
            await printer.studio.writer.do(
                lambda register: register.read.connection.execute("PRAGMA busy_timeout = 50")
            )
            await printer.press("slash", *"Q8", "enter", "n")
            other.read.connection.execute("BEGIN IMMEDIATE")
            await printer.press("ctrl+s")
            await printer.until("another program is writing")
            assert printer.value("first")
            other.read.connection.execute("ROLLBACK")
            await printer.press("ctrl+s")
            await printer.until("saved: act")
