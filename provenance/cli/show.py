"""`provenance show REF`"""

from typing import TYPE_CHECKING

import click

from provenance.cli.main import json_option
from provenance.cli.output import json_line, line, pad
from provenance.model.prints import Print

if TYPE_CHECKING:
    from provenance.records.reader import Reader
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

    A print is shown with its life, what a certificate would say today, and what
    stands against issuing one.
    """
    from provenance.studio.browsing import as_data, name_of
    from provenance.studio.folder import choose_folder
    from provenance.studio.plain import plain_fields
    from provenance.studio.references import resolve
    from provenance.studio.settings import read_settings

    folder = choose_folder(studio)
    with folder.open() as register:
        stored = resolve(register.read, " ".join(ref))
        name = name_of(register.read, stored)
        if isinstance(stored.body, Print):
            _show_print(register.read, folder, stored.id, name, as_json=as_json)
            return
    if as_json:
        json_line(as_data(stored))
        return
    line(f"{stored.kind} {name}   #{stored.id}, entry {stored.version}")
    for name_of_field, text in plain_fields(stored.body, read_settings(folder).units):
        line(f"  {pad(name_of_field, 18)}  {text}")


def _show_print(
    reader: "Reader", folder: "StudioFolder", record: int, name: str, *, as_json: bool
) -> None:
    from provenance.studio.browsing import as_data
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
            }
        )
        return
    _tell_life(view, name)
    _tell_statement(view)
    if view.obstacles:
        line("")
        line("against certifying it today")
        for problem in view.obstacles:
            line(f"  {problem.what}" + (f"; {problem.mend}" if problem.mend else ""))


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
