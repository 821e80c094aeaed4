"""`provenance edition-list EDITION`, `provenance heirs-page [EDITION]`"""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from provenance.cli.main import json_option
from provenance.cli.output import json_line, line, narrate

if TYPE_CHECKING:
    from provenance.craft.roll import Roll
    from provenance.studio.folder import StudioFolder

_OUT = click.option(
    "--out", type=click.Path(path_type=Path, dir_okay=False), help="Draw it as a PDF."
)
_FULL = click.option("--full", is_flag=True, help="With persons and terms; for the studio alone.")


@click.command("edition-list")
@click.argument("edition")
@_FULL
@_OUT
@json_option
@click.pass_obj
def edition_list_command(
    studio: str | None, edition: str, full: bool, out: Path | None, as_json: bool
) -> None:
    """List every impression of EDITION, and what is still to be printed.

    Without --full it names no person, no place and no mark: a form for buyers.
    """
    from provenance.model.edition import Edition
    from provenance.studio.folder import choose_folder
    from provenance.studio.references import resolve_as
    from provenance.studio.rolls.view import edition_list

    folder = choose_folder(studio)
    with folder.open() as register:
        held = resolve_as(register.read, Edition, edition)
        roll = edition_list(register.read, folder, held, register.clock(), full=full)
    _give(roll, folder, out, as_json=as_json)


@click.command("heirs-page")
@click.argument("edition", required=False)
@_FULL
@_OUT
@json_option
@click.pass_obj
def heirs_page_command(
    studio: str | None, edition: str | None, full: bool, out: Path | None, as_json: bool
) -> None:
    """Tell an heir everything about EDITION, or about the whole studio, on paper.

    Where every impression is, what is away and on which terms, what is open,
    what may and must not be done, and the keys.  It names persons: say --full.
    """
    if not full:
        raise click.UsageError("the heir's page names persons and terms: say --full")
    from provenance.model.edition import Edition
    from provenance.studio.folder import choose_folder
    from provenance.studio.references import resolve_as
    from provenance.studio.rolls.view import heirs_page

    folder = choose_folder(studio)
    with folder.open() as register:
        held = resolve_as(register.read, Edition, edition) if edition else None
        roll = heirs_page(register.read, folder, held, register.clock())
    _give(roll, folder, out, as_json=as_json)


def _give(roll: "Roll", folder: "StudioFolder", out: Path | None, *, as_json: bool) -> None:
    if out is not None:
        # loads what draws pages
        from provenance.studio.rolls.paper import write_roll

        path = write_roll(roll, out, folder)
        if as_json:
            json_line({"path": str(path), "full": bool(roll.seal)})
            return
        narrate(f"{roll.kind}: {roll.seal}" if roll.seal else roll.kind)
        line(str(path))
        return
    from provenance.studio.rolls.text import as_data, as_lines

    if as_json:
        json_line(as_data(roll))
        return
    for one in as_lines(roll):
        line(one)
