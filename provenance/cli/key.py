"""`provenance key new|show|retire`"""

import sys
from collections.abc import Callable

import click

from provenance.cli.main import json_option
from provenance.cli.output import json_line, line, narrate


def passphrase(*, twice: bool = False) -> Callable[[], str] | None:
    """Asks for the passphrase at a terminal; None where there is none."""
    if not sys.stdin.isatty():
        return None
    return lambda: str(
        click.prompt("Passphrase", hide_input=True, err=True, confirmation_prompt=twice)
    )


@click.group("key")
def key_command() -> None:
    """Make, show or retire the key that seals certificates.

    Without a key a certificate bears a sum, which finds accidents only.
    """


@key_command.command("new")
@json_option
@click.pass_obj
def new_key(studio: str | None, as_json: bool) -> None:
    """Make the studio's key, under a passphrase.

    The passphrase comes from PROVENANCE_PASSPHRASE, or is asked for twice.
    Nobody can bring it back: write it down and keep it apart.
    """
    from provenance.studio.folder import choose_folder
    from provenance.studio.keys.public import grouped
    from provenance.studio.keys.ring import make_key

    folder = choose_folder(studio)
    with folder.open():
        made = make_key(folder, passphrase(twice=True))
    if as_json:
        json_line({"fingerprint": made.fingerprint})
        return
    narrate("made the studio's key; publish its fingerprint where your name is known")
    line(grouped(made.fingerprint))


@key_command.command("show")
@json_option
@click.pass_obj
def show_key(studio: str | None, as_json: bool) -> None:
    """Show the fingerprints of the studio's key and of those retired."""
    from provenance.studio.folder import choose_folder
    from provenance.studio.keys.public import grouped
    from provenance.studio.keys.ring import current_key, known_keys

    folder = choose_folder(studio)
    current = current_key(folder)
    for key in known_keys(folder):
        state = "in use" if key == current else "retired"
        if as_json:
            json_line(
                {"fingerprint": key.fingerprint, "state": state, "public_pem": key.pem.decode()}
            )
        else:
            line(f"{state:<8}{grouped(key.fingerprint)}")


@key_command.command("retire")
@json_option
@click.pass_obj
def retire_command(studio: str | None, as_json: bool) -> None:
    """Erase the private half of the studio's key.

    What it sealed stays sealed; certificates bear a sum until a new key is made.
    """
    from provenance.studio.folder import choose_folder
    from provenance.studio.keys.public import grouped
    from provenance.studio.keys.ring import retire_key

    retired = retire_key(choose_folder(studio))
    if as_json:
        json_line({"fingerprint": retired.fingerprint})
        return
    narrate("erased the private half of the key")
    line(grouped(retired.fingerprint))
