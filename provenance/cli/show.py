"""`provenance show REF`"""

from typing import TYPE_CHECKING

import click

from provenance.cli.findings import finding_shape, tell_findings
from provenance.cli.main import json_option
from provenance.cli.output import json_line, line, narrate, pad
from provenance.errors import NotFound
from provenance.model.certificate import Certificate
from provenance.model.edition import Edition
from provenance.model.prints import Print
from provenance.model.process import ProcessSheet
from provenance.model.study import ToningStudy, WashStudy

if TYPE_CHECKING:
    from provenance.craft.sequence.finding import Finding
    from provenance.records.reader import Reader
    from provenance.studio.certifying.changes import Change
    from provenance.studio.folder import StudioFolder
    from provenance.studio.print_view import PrintView

_HEADINGS = {
    "made": "how it was made",
    "tested": "what was tested",
    "unknown": "what is not known",
}


@click.command("show")
@click.argument("ref", nargs=-1, required=True)
@json_option
@click.pass_obj
def show_command(studio: str | None, ref: tuple[str, ...], as_json: bool) -> None:
    """Show the record that REF names: `QUAY 7/25`, `QUAY Q7`, a code, a certificate, an id.

    A print is shown with its life, what a certificate would say today, what
    stands against issuing one, and what the rules of the trade find in it; a
    process sheet with what they find in the plan; a study of washing or toning
    with its table and curve; an edition with both its
    counts, every change of its promise, and the other editions of its negative.
    """
    from msgspec import to_builtins

    from provenance.studio.browsing import as_data, name_of
    from provenance.studio.folder import choose_folder
    from provenance.studio.naming import called
    from provenance.studio.plain import plain_fields
    from provenance.studio.references import resolve
    from provenance.studio.settings import read_settings

    folder = choose_folder(studio)
    with folder.open() as register:
        try:
            stored = resolve(register.read, " ".join(ref))
        except NotFound:
            if not _show_template(folder, " ".join(ref), as_json=as_json):
                raise
            return
        name = name_of(register.read, stored)
        if isinstance(stored.body, Print):
            _show_print(register.read, folder, stored.id, name, as_json=as_json)
            return
        if isinstance(stored.body, Edition):
            from provenance.cli.editions import show_edition

            show_edition(register.read, folder, stored.id, as_json=as_json)
            return
        reader = register.read
        fields = plain_fields(
            stored.body,
            read_settings(folder).units,
            # by the name a person reads, and by the id that every command takes
            called=lambda one: f"{called(reader, one)} #{one}",
        )
    findings = _of_plan(folder, stored.body) if isinstance(stored.body, ProcessSheet) else ()
    changed = _changed(folder, stored.body) if isinstance(stored.body, Certificate) else ()
    if as_json:
        more: dict[str, object] = {}
        if isinstance(stored.body, ProcessSheet):
            more["findings"] = [finding_shape(one) for one in findings]
        if isinstance(stored.body, Certificate):
            more["changed"] = [to_builtins(one) for one in changed]
        json_line(as_data(stored) | more)
        return
    line(f"{stored.kind} {name}   #{stored.id}, entry {stored.version}")
    for name_of_field, text in fields:
        line(f"  {pad(name_of_field, 18)}  {text}")
    for change in changed:
        line(f"  {pad('this revision', 18)}  changed {change.line()}")
    if isinstance(stored.body, ToningStudy | WashStudy):
        _tell_study(folder, stored.body)
    tell_findings(findings)


def _tell_study(folder: "StudioFolder", study: ToningStudy | WashStudy) -> None:
    """The table and the curve of a study."""
    from provenance.studio.settings import read_settings
    from provenance.studio.study_text import study_lines
    from provenance.studio.wordings import load_wording

    wording = load_wording(folder, read_settings(folder).language)
    for told in ["", *study_lines(study, wording)]:
        line(f"  {told}".rstrip())


def _changed(folder: "StudioFolder", certificate: Certificate) -> "tuple[Change, ...]":
    """What a revision changed; nothing for the first, or where its record is not at hand."""
    from provenance.errors import ProvenanceError
    from provenance.studio.certifying.revisions import changes_of, kept_record

    if certificate.revision == 1:
        return ()
    try:
        return changes_of(kept_record(folder, certificate))
    except ProvenanceError as error:
        for problem in error.problems:
            narrate(str(problem))
        return ()


def _of_plan(folder: "StudioFolder", process: ProcessSheet) -> "tuple[Finding, ...]":
    from provenance.studio.sequences import plan_findings

    return plan_findings(folder, process)


def _show_template(folder: "StudioFolder", code: str, *, as_json: bool) -> bool:
    """Show a process sheet that no printing has used yet; whether there is one."""
    from msgspec import to_builtins

    from provenance.studio.plain import plain_fields
    from provenance.studio.processes import load_process, process_codes
    from provenance.studio.settings import read_settings

    if code not in process_codes(folder):
        return False
    process = load_process(folder, code)
    findings = _of_plan(folder, process)
    if as_json:
        json_line(
            {
                "kind": process.KIND,
                "body": to_builtins(process),
                "findings": [finding_shape(one) for one in findings],
            }
        )
        return True
    line(f"{process.KIND} {code}   a template; nothing on record follows it yet")
    for name_of_field, text in plain_fields(process, read_settings(folder).units):
        line(f"  {pad(name_of_field, 18)}  {text}")
    tell_findings(findings)
    return True


def _show_print(
    reader: "Reader", folder: "StudioFolder", record: int, name: str, *, as_json: bool
) -> None:
    from provenance.studio.browsing import as_data
    from provenance.studio.overrides import overrides_as_data
    from provenance.studio.print_view import view_print

    view = view_print(reader, folder, record)
    if as_json:
        json_line(
            as_data(reader.get(Print, record))
            | {
                "name": name,
                "statement": [
                    {
                        "claim": claim.id,
                        "section": claim.section,
                        "sentence": claim.sentence,
                        "standing": claim.standing,
                        "evidence": list(claim.evidence),
                    }
                    for claim in view.statement
                ],
                "obstacles": [
                    {"what": problem.what, "field": problem.field, "mend": problem.mend}
                    for problem in view.obstacles
                ],
                "findings": [finding_shape(one) for one in view.findings],
            }
            | overrides_as_data(view.history)
        )
        return
    _tell_life(view, name)
    _tell_statement(view)
    if view.obstacles:
        line("")
        line("against certifying it today")
        for problem in view.obstacles:
            line(f"  {problem.what}" + (f"; {problem.mend}" if problem.mend else ""))
    tell_findings(view.findings)


def _tell_life(view: "PrintView", name: str) -> None:
    history = view.history
    line(f"{name}   {history.negative.body.title}   #{history.print.id}")
    day = ""
    for one in view.life:
        shown = one.day if one.day != day else ""
        day = one.day
        standing = f"  {one.standing}" if one.standing else ""
        line(f"  {pad(shown, 10)}  {pad(one.what, 62)}{standing}".rstrip())


def _tell_statement(view: "PrintView") -> None:
    section = ""
    for claim in view.statement:
        if claim.section != section:
            section = claim.section
            line("")
            line(_HEADINGS[section])
        evidence = ", ".join(f"#{one}" for one in claim.evidence)
        line(f"  {claim.sentence}")
        line(f"      {claim.standing}{': ' + evidence if evidence else ''}")
