"""The clock of a drop: it runs in the title of a test, and what it told is entered."""

from pathlib import Path

import pytest

from provenance.model.proof import Test
from provenance.screens.dialogs import drop_clock
from provenance.screens.dialogs.test import NewTest
from tests.screens.house import at_work


@pytest.mark.parametrize(
    ("waited_s", "told", "read"),
    [
        (30, "drop on 0:30 of 2:00", "30 s"),
        (130, "drop on 2:10 of 2:00   read it now", "2 min 10 s"),
        (400, "drop on 6:40 of 2:00   too late", "6 min 40 s"),
    ],
)
async def test_the_time_of_a_drop_runs_and_is_written_into_the_form(
    studio: Path,
    ids: dict[str, int],
    monkeypatch: pytest.MonkeyPatch,
    waited_s: int,
    told: str,
    read: str,
) -> None:
    now = [100.0]
    monkeypatch.setattr(drop_clock, "monotonic", lambda: now[0])
    async with at_work(studio) as printer:
        form = NewTest([ids["Q9"]], "thiosulfate")
        printer.app.push_screen(form)
        await printer.until("f7 drop on, read")
        await printer.press("f7")
        now[0] += waited_s
        await printer.until(told)
        await printer.press("f7")
        assert form.fields["read"].value == read


async def test_one_answer_carries_the_time_that_the_clock_told(
    studio: Path, ids: dict[str, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    now = [100.0]
    monkeypatch.setattr(drop_clock, "monotonic", lambda: now[0])
    async with at_work(studio) as printer:
        await printer.press("5", "down", "right", "down", "enter", "f7")
        now[0] += 150
        await printer.until("read it now")
        await printer.press("f7")
        await printer.until("read after 2:30")
        await printer.press("y")
        await printer.until("saved: act")
        tests = printer.studio.register.read.linked(ids["Q7"], Test, "covers")
        assert tests[-1].body.read_ms == 150_000
