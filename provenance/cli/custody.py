"""`provenance custody REF`, `provenance describe REF`"""

import click

from provenance.cli.main import json_option
from provenance.cli.output import json_line, line, pad


@click.command("custody")
@click.argument("ref", nargs=-1, required=True)
@click.option("--full", is_flag=True, help="With people and terms; for the studio alone.")
@json_option
@click.pass_obj
def custody_command(studio: str | None, ref: tuple[str, ...], full: bool, as_json: bool) -> None:
    """Show where the print REF is, how it got there, and its line of provenance.

    Without --full nobody is named.
    """
    from provenance.studio.browsing import name_of
    from provenance.studio.custody import custody_of
    from provenance.studio.folder import choose_folder
    from provenance.studio.references import resolve_print

    folder = choose_folder(studio)
    with folder.open() as register:
        held = resolve_print(register.read, " ".join(ref))
        name = name_of(register.read, held)
        seen = custody_of(register.read, folder, held.id, private=full)
    if as_json:
        json_line(
            {
                "print": held.id,
                "name": name,
                "where": seen.where.where,
                "since": seen.where.since,
                "holder": seen.holder,
                "events": [
                    {
                        "id": step.id,
                        "event": step.event,
                        "on": step.on,
                        "to": step.party,
                        "from": step.giver,
                        "until": step.until,
                        "terms": step.terms,
                    }
                    for step in seen.steps
                ],
                "provenance": seen.line,
            }
        )
        return
    since = f" since {seen.where.since}" if seen.where.since else ""
    whom = f", {seen.holder}" if seen.holder else ""
    line(f"{name}   {seen.where.where}{since}{whom}")
    for step in seen.steps:
        said = [
            step.event,
            f"to {step.party}" if step.party else "",
            f"from {step.giver}" if step.giver else "",
            f"until {step.until}" if step.until else "",
            step.terms,
        ]
        line(f"  {pad(step.on, 10)}  {'  '.join(filter(None, said))}   #{step.id}")
    line("")
    line(seen.line)


@click.command("describe")
@click.argument("ref", nargs=-1, required=True)
@json_option
@click.pass_obj
def describe_command(studio: str | None, ref: tuple[str, ...], as_json: bool) -> None:
    """Describe the print REF as Object ID asks, so that it can be looked for when it is lost.

    Under each heading stands what is on record; what is missing is said, with
    where to write it down.
    """
    from provenance.craft.object_id import object_id
    from provenance.records.dossier import print_history
    from provenance.studio.browsing import name_of
    from provenance.studio.folder import choose_folder
    from provenance.studio.references import resolve_print

    folder = choose_folder(studio)
    with folder.open() as register:
        held = resolve_print(register.read, " ".join(ref))
        name = name_of(register.read, held)
        headings = object_id(print_history(register.read, held.id))
    missing = [one.name for one in headings if not one.words]
    if as_json:
        said = {one.name: one.words for one in headings}
        json_line({"print": held.id, "name": name, "described": said, "missing": missing})
        return
    whole = len(headings)
    line(f"{name}   {whole - len(missing)} of {whole} headings of Object ID are on record")
    for one in headings:
        line(f"  {pad(one.name, 26)}  {one.words or f'not on record; {one.mend}'}")
