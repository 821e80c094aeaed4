"""`provenance record FILE.toml`"""

from pathlib import Path

import click

from provenance.cli.main import json_option
from provenance.cli.output import counted, json_line, line, narrate, problem_shape


@click.command("record")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--dry-run", is_flag=True, help="Check everything, write nothing.")
@json_option
@click.pass_obj
def record_command(studio: str | None, file: Path, dry_run: bool, as_json: bool) -> None:
    """Enter the day sheet FILE: everything in it together, or nothing.

    docs/day-sheets.md shows what a day sheet may hold.
    """
    from provenance.studio.daysheet.record import record_day_sheet
    from provenance.studio.folder import choose_folder

    folder = choose_folder(studio)
    recorded = record_day_sheet(folder, file, rehearse=dry_run)
    if as_json:
        json_line(
            {
                "act": recorded.act or None,
                "saved": not dry_run,
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
    else:
        narrate(f"saved {entries} as act {recorded.act} in {folder.path}")
