"""`provenance bag DIR [EDITION]` and `provenance export DIR`"""

from pathlib import Path

import click

from provenance.cli.audit import tell_audit
from provenance.cli.main import json_option
from provenance.cli.output import counted, json_line, line, narrate
from provenance.cli.progress import progress_line


@click.command("bag")
@click.argument("folder", metavar="DIR", type=click.Path(path_type=Path))
@click.argument("edition", required=False, default="")
@click.option(
    "--level",
    type=click.Choice(["public", "archive", "sealed"]),
    default="archive",
    show_default=True,
    help="For anybody, for an archive, or with persons, prices and places.",
)
@json_option
@click.pass_obj
def bag_command(studio: str | None, folder: Path, edition: str, level: str, as_json: bool) -> int:
    """Hand the studio, or one EDITION, over: a BagIt bag in the new folder DIR.

    At level archive or sealed a bag of the whole studio can be restored.  Exit
    status 3 when the bag is whole but the studio is damaged.
    """
    from provenance.studio.folder import choose_folder
    from provenance.studio.handover.bagging import make_bag
    from provenance.studio.handover.levels import LEVELS

    wanted = next(one for one in LEVELS if one == level)
    made = make_bag(choose_folder(studio), folder, wanted, edition=edition, progress=progress_line)
    if as_json:
        json_line(
            {
                "bag": str(made.path),
                "level": made.level,
                "edition": edition or None,
                "files": made.files,
                "restorable": made.restorable,
                "left_out": list(made.left_out),
                "damaged": made.report.damaged,
            }
        )
        return 3 if made.report.damaged else 0
    line(f"{made.path}: {counted(made.files, 'file')}, each as its digests say")
    for one in made.left_out:
        narrate(f"not in it: {one}")
    if made.report.damaged:
        tell_audit(made.report, as_json=False)
        narrate("the bag holds the studio as it is, and the studio is damaged; its README says so")
        return 3
    return 0


@click.command("export")
@click.argument("folder", metavar="DIR", type=click.Path(path_type=Path))
@click.option(
    "--format",
    "form",
    type=click.Choice(["csv", "json", "linked-art"]),
    required=True,
    help="Tables, records as JSON lines, or each print for museums.",
)
@json_option
@click.pass_obj
def export_command(studio: str | None, folder: Path, form: str, as_json: bool) -> None:
    """Write everything on record into the new folder DIR, for other programs.

    Persons, prices and places are never in it.
    """
    from provenance.studio.folder import choose_folder
    from provenance.studio.handover.exporting import FORMATS, export

    wanted = next(one for one in FORMATS if one == form)
    files = export(choose_folder(studio), folder, wanted, progress=progress_line)
    if as_json:
        json_line({"folder": str(folder), "format": form, "files": files})
        return
    line(f"{folder}: {counted(files, 'file')}")
