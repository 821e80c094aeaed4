"""`provenance import FILE --kind KIND`"""

from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Literal

import click

from provenance.cli.main import json_option
from provenance.cli.output import json_line, line, narrate, problem_shape
from provenance.cli.progress import progress_line

if TYPE_CHECKING:
    from collections.abc import Callable

    from provenance.studio.daysheet.record import Recorded


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
    dry_run: bool,
    as_json: bool,
) -> None:
    """Import the table FILE (CSV): every row of it, or nothing.

    docs/notebooks.md shows what the columns may be.  What is imported counts as
    entered later.
    """
    from provenance.studio.folder import choose_folder
    from provenance.studio.settings import read_settings

    folder = choose_folder(studio)
    with folder.open() as register:
        recorded = _importer(kind)(
            register,
            folder,
            file,
            mapping=_pairs("--map", mapping),
            fixed=_pairs("--set", fixed),
            source=source,
            settings=read_settings(folder),
            rehearse=dry_run,
        )
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
    if dry_run:
        narrate(f"would enter {recorded.entries} entries; nothing was written")
    elif recorded.act:
        narrate(f"saved {recorded.entries} entries as act {recorded.act}")
    else:
        narrate("nothing was written")


def _importer(kind: str) -> "Callable[..., Recorded]":
    """What brings in tables of that kind; all take the same."""
    if kind == "readings":
        from provenance.studio.readings_table import import_readings

        return import_readings
    from provenance.studio.tables.importing import KINDS, import_table

    wanted = next(one for one in KINDS if one == kind)
    return partial(import_table, kind=wanted, progress=progress_line)


def _pairs(option: str, written: tuple[str, ...]) -> dict[str, str]:
    found: dict[str, str] = {}
    for one in written:
        name, equals, value = (part.strip() for part in one.partition("="))
        if not equals or not name or name in found:
            raise click.UsageError(f"{option} wants NAME=..., each name once: {one}")
        found[name] = value
    return found
