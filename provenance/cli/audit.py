"""`provenance audit`"""

import sys

import click

from provenance.cli.main import json_option
from provenance.cli.output import json_line, line, narrate


def _progress(name: str, done: int, whole: int) -> None:
    """One line on a terminal that says how far the audit has come."""
    if sys.stderr.isatty():
        end = "\r" if done < whole else "\r\x1b[K"
        sys.stderr.write(f"{name}: {done} of {whole}{end}")
        sys.stderr.flush()


@click.command("audit")
@click.option("--rebuild", is_flag=True, help="Make the view anew from the journal first.")
@json_option
@click.pass_obj
def audit_command(studio: str | None, rebuild: bool, as_json: bool) -> int:
    """Check the journal's chain, the view, every file and certificate.

    Exit status 3 when anything is damaged; what it says is how to go on.
    """
    from provenance.records.audit import audit, rebuild_view
    from provenance.studio.folder import choose_folder

    folder = choose_folder(studio)
    if rebuild:
        rebuild_view(folder.path)
        narrate("the view was made anew from the journal")
    report = audit(folder.path, progress=_progress)
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
        return 3 if report.damaged else 0
    for finding in report.findings:
        where = f"{finding.record}: " if finding.record else ""
        mend = f"; {finding.mend}" if finding.mend else ""
        line(f"{finding.level:<6}  {where}{finding.what}{mend}")
    line(f"{report.entries} entries, head {report.head[:16]}")
    line("damaged: see above" if report.damaged else "whole: everything is as it was written")
    return 3 if report.damaged else 0
