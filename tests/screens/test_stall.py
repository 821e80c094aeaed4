"""Another program holds the register: the page goes on answering, and what was asked is done."""

import asyncio
import sqlite3
from contextlib import closing
from pathlib import Path

from tests.screens.house import at_work


async def test_a_page_answers_while_another_program_writes(studio: Path) -> None:
    async with at_work(studio) as printer:
        await printer.press("slash", *"Q8", "enter", "n")
        with closing(sqlite3.connect(studio / "register.db", isolation_level=None)) as other:
            other.execute("BEGIN IMMEDIATE")
            await printer.pilot.press("ctrl+s")
            # far less than a writer waits: the loop that paints is not held up
            for _ in range(20):
                await asyncio.wait_for(asyncio.sleep(0.01), timeout=1)
            assert "saved: act" not in printer.text()
            assert printer.app.is_running
            other.execute("ROLLBACK")
        await printer.until("saved: act")
