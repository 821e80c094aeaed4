"""`provenance audit`"""

from typing import TYPE_CHECKING

import click

from provenance.cli.main import json_option
from provenance.cli.output import counted, json_line, line, narrate

if TYPE_CHECKING:
    from provenance.records.audit import AuditReport


@click.command("audit")
@click.option("--rebuild", is_flag=True, help="Make the view anew from the journal first.")
@json_option
@click.pass_obj
def audit_command(studio: str | None, rebuild: bool, as_json: bool) -> int:
    """Check the journal's chain, the view, every file and certificate.

    Exit status 3 when anything is damaged; what it says is how to go on.
    """
    from provenance.cli.progress import progress_line
    from provenance.records.audit import audit, rebuild_view
    from provenance.studio.folder import choose_folder

    folder = choose_folder(studio)
    if rebuild:
        rebuild_view(folder.path, progress=progress_line)
        narrate("the view was made anew from the journal")
    report = audit(folder.path, progress=progress_line)
    tell_audit(report, as_json=as_json)
    return 3 if report.damaged else 0


def tell_audit(report: "AuditReport", *, as_json: bool) -> None:
    """What an audit found, a line each, and then where the journal stands."""
    if as_json:
        for finding in report.findings:
            json_line(
                {
                    "level": finding.level,
                    "what": finding.what,
                    "record": finding.record,
                    "mend": finding.mend,
                }
            )
        json_line(
            {"entries": report.entries, "head_sha256": report.head, "damaged": report.damaged}
        )
        return
    for finding in report.findings:
        where = f"{finding.record}: " if finding.record else ""
        mend = f"; {finding.mend}" if finding.mend else ""
        line(f"{finding.level:<6}  {where}{finding.what}{mend}")
    line(f"{counted(report.entries, 'entry', 'entries')}, head {report.head[:16]}")
    line("damaged: see above" if report.damaged else "whole: everything is as it was written")
