"""A spreadsheet of as many prints as are wanted, and the studio that it belongs to."""

import csv
from pathlib import Path

from provenance.records.progress import Progress
from provenance.records.register import Register
from provenance.studio.daysheet.record import Recorded
from provenance.studio.folder import StudioFolder
from provenance.studio.settings import Settings
from provenance.studio.tables.importing import import_table
from tests.studios import IMAGE, PRINTED_ON, SHEET, WHO, edition, negative

EACH = 50
"""How many prints an edition has."""


def furnish_editions(register: Register, prints: int) -> None:
    """Enter the negatives and editions of `prints` prints."""
    with register.act(WHO) as act:
        for first in range(0, prints, EACH):
            one = act.enter(negative(code=f"N-{first}", title=f"Slipway at number {first}"))
            act.enter(edition(one, code=f"SLIP{first}", name="Slipway", numbered=EACH))


def write_prints(path: Path, prints: int) -> None:
    """Write the table of those prints to `path`, a row for each."""
    heads = ("edition", "mark", "number", "date", "existence", "source")
    sides = ("height_tenth_mm", "width_tenth_mm")
    sizes = [getattr(size, side) for size in (IMAGE, SHEET) for side in sides]
    with path.open("w", newline="", encoding="utf-8") as file:
        writer = csv.writer(file)
        writer.writerow(
            [*heads, *(f"{name}_{side}" for name in ("image", "sheet") for side in sides)]
        )
        for place in range(prints):
            number = place % EACH + 1
            code = f"SLIP{place - place % EACH}"
            writer.writerow(
                [code, f"S{number}", f"{number}/{EACH}", PRINTED_ON, "exists", "notes", *sizes]
            )


def import_prints(register: Register, path: Path, *, progress: Progress | None = None) -> Recorded:
    """Bring that table in, as `provenance import` does."""
    return import_table(
        register,
        StudioFolder(register.folder),
        path,
        kind="prints",
        mapping={},
        fixed={},
        source="notes",
        settings=Settings(),
        progress=progress,
    )
