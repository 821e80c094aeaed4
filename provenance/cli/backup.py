"""`provenance backup FILE` and `provenance restore FILE DIR`"""

from pathlib import Path

import click

from provenance.cli.audit import tell_audit
from provenance.cli.main import json_option
from provenance.cli.output import json_line, line, narrate
from provenance.cli.progress import progress_line


@click.command("backup")
@click.argument("file", type=click.Path(path_type=Path))
@click.option(
    "--without-private",
    is_flag=True,
    help="Leave out the contact book, private notes and the studio's key.",
)
@json_option
@click.pass_obj
def backup_command(studio: str | None, file: Path, without_private: bool, as_json: bool) -> int:
    """Back the whole studio up into the new file FILE, and try it by restoring it.

    The studio may be in use meanwhile.  Exit status 3 when the backup is whole
    but what it is of is damaged.
    """
    from provenance.studio.folder import choose_folder
    from provenance.studio.handover.backup import back_up

    made = back_up(choose_folder(studio), file, private=not without_private, progress=progress_line)
    if as_json:
        json_line(
            {
                "file": str(made.path),
                "octets": made.octets,
                "files": made.files,
                "entries": made.head.seq,
                "head_sha256": made.head.digest,
                "private": not without_private,
                "damaged": made.report.damaged,
            }
        )
        return 3 if made.report.damaged else 0
    line(f"{made.path}: {made.files} files, {made.octets} octets, {made.head.seq} entries")
    if made.report.damaged:
        tell_audit(made.report, as_json=False)
        narrate("the backup holds the studio as it is, and the studio is damaged: keep older ones")
        return 3
    line("restored on trial and audited: whole")
    if made.unnoted:
        narrate(f"the studio will not know of this backup: {made.unnoted}")
    if without_private:
        narrate("the contact book, private notes and the key are not in it")
    return 0


@click.command("restore")
@click.argument("file", type=click.Path(path_type=Path))
@click.argument("folder", metavar="DIR", type=click.Path(path_type=Path))
@json_option
def restore_command(file: Path, folder: Path, as_json: bool) -> int:
    """Restore the backup or bag FILE into the new folder DIR, and audit what stands there.

    Exit status 3 when FILE is not whole (then nothing is restored), or holds a
    studio that was damaged already.
    """
    from provenance.studio.handover.restore import restore

    restored = restore(file, folder, progress=progress_line)
    if not as_json:
        line(f"{restored.path}: {restored.files} files restored, each as its digests say")
    tell_audit(restored.report, as_json=as_json)
    if not restored.private:
        narrate("no contact book and no private notes came along")
    return 3 if restored.report.damaged else 0
