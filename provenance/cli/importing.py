"""`provenance import FILE --kind KIND`"""

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Literal

import click

from provenance.cli.main import json_option
from provenance.cli.output import counted, json_line, line, narrate, problem_shape
from provenance.cli.progress import progress_line
from provenance.errors import Refused

if TYPE_CHECKING:
    from collections.abc import Callable

    from provenance.studio.daysheet.record import Recorded
    from provenance.studio.tables.dates import DateOrder


@click.command("import")
@click.argument("file", type=click.Path(path_type=Path))
@click.option(
    "--kind",
    type=click.Choice(
        [
            "negatives",
            "editions",
            "papers",
            "processes",
            "printings",
            "prints",
            "custody",
            "readings",
        ]
    ),
    required=True,
    help="What each row of the table is.",
)
@click.option(
    "--map",
    "mapping",
    multiple=True,
    metavar="HEAD=FIELD",
    help="Take a column for a field; with nothing after =, leave it out.",
)
@click.option("--set", "fixed", multiple=True, metavar="FIELD=TEXT", help="The same for every row.")
@click.option(
    "--from",
    "source",
    type=click.Choice(["notes", "memory"]),
    default="notes",
    help="Whether written notes stand behind the table.",
)
@click.option(
    "--dates",
    type=click.Choice(["day-first", "month-first", "year-first"]),
    help="How dates in figures alone run, as 3.2.2009; 2009-02-03 is read in any case.",
)
@click.option("--dry-run", is_flag=True, help="Check everything, write nothing.")
@json_option
@click.pass_obj
def import_command(
    studio: str | None,
    file: Path,
    kind: str,
    mapping: tuple[str, ...],
    fixed: tuple[str, ...],
    source: Literal["notes", "memory"],
    dates: "DateOrder | None",
    dry_run: bool,
    as_json: bool,
) -> None:
    """Import the table FILE (CSV): every row of it, or nothing.

    docs/notebooks.md shows what the columns may be.  What is imported counts as
    entered later, but for what is dated the day of the import.
    """
    from provenance.studio.folder import choose_folder
    from provenance.studio.settings import read_settings

    if kind == "readings" and dates:
        raise click.UsageError("--dates is for the other kinds; write the date as 2009-02-03")
    folder = choose_folder(studio)
    columns: list[str] = []
    with folder.open() as register:
        try:
            recorded = _importer(kind, dates, columns)(
                register,
                folder,
                file,
                mapping=_pairs("--map", mapping),
                fixed=_pairs("--set", fixed),
                source=source,
                settings=read_settings(folder),
                rehearse=dry_run,
            )
        except Refused:
            # what is wrong may be what a column was taken for
            for one in () if as_json else columns:
                narrate(one)
            raise
    if as_json:
        json_line(
            {
                "kind": kind,
                "act": recorded.act or None,
                "saved": bool(recorded.act),
                "entries": recorded.entries,
                "entered": list(recorded.entered),
                "warnings": [problem_shape(one) for one in recorded.warnings],
            }
        )
        return
    for one in recorded.entered:
        line(one)
    for warning in recorded.warnings:
        narrate(f"warning: {warning}")
    entries = counted(recorded.entries, "entry", "entries")
    if dry_run:
        narrate(f"would enter {entries}; nothing was written")
    elif recorded.act:
        narrate(f"saved {entries} as act {recorded.act}")
    else:
        narrate("nothing was written")


def _importer(
    kind: str, dates: "DateOrder | None", columns: list[str]
) -> "Callable[..., Recorded]":
    """What brings in tables of that kind; all take the same.

    `columns` is given what each column was taken for, as soon as that is known.
    """
    if kind == "readings":
        from provenance.studio.readings_table import import_readings

        return import_readings
    from provenance.studio.tables.importing import KINDS, import_table

    wanted = next(one for one in KINDS if one == kind)
    return partial(
        import_table, kind=wanted, dates=dates, progress=progress_line, told=columns.extend
    )


def _pairs(option: str, written: tuple[str, ...]) -> dict[str, str]:
    found: dict[str, str] = {}
    for one in written:
        name, equals, value = (part.strip() for part in one.partition("="))
        if not equals or not name or name in found:
            raise click.UsageError(f"{option} wants NAME=..., each name once: {one}")
        found[name] = value
    return found
