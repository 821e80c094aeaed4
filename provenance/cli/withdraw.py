"""`provenance withdraw NUMBER`"""

import click

from provenance.cli.main import json_option
from provenance.cli.output import json_line, narrate


@click.command("withdraw")
@click.argument("number")
@click.option("--reason", required=True, help="Why it is withdrawn.")
@click.option("--who", help="Who withdraws it: a role or initials.")
@json_option
@click.pass_obj
def withdraw_command(
    studio: str | None, number: str, reason: str, who: str | None, as_json: bool
) -> None:
    """Withdraw a certificate; it stays on record with the reason."""
    from provenance.studio.certifying.revisions import withdraw
    from provenance.studio.folder import choose_folder
    from provenance.studio.settings import read_settings

    folder = choose_folder(studio)
    with folder.open() as register, register.act(who or read_settings(folder).who) as act:
        held = withdraw(act, number, reason).body
    if as_json:
        json_line({"certificate": held.number, "revision": held.revision, "state": held.state})
        return
    narrate(f"withdrew certificate {held.number}, revision {held.revision}")
