"""`provenance contacts`, `provenance erase CONTACT`"""

import sys

import click

from provenance.cli.main import json_option
from provenance.cli.output import json_line, line, narrate, table


@click.command("contacts")
@json_option
@click.pass_obj
def contacts_command(studio: str | None, as_json: bool) -> None:
    """List the pages of the contact book, with the beginning of each key."""
    from msgspec import to_builtins

    from provenance.records.private import Contacts
    from provenance.studio.folder import choose_folder

    folder = choose_folder(studio)
    with folder.open():
        pages = Contacts(folder.path).list()
    if as_json:
        for key, page in pages:
            json_line({"key": key, **to_builtins(page)})
        return
    table(
        ("key", "name", "place", ""),
        [(key[:12], page.name, page.place, "dealer" if page.dealer else "") for key, page in pages],
    )


@click.command("erase")
@click.argument("contact", nargs=-1, required=True)
@click.option("--yes", is_flag=True, help="Do not ask.")
@json_option
@click.pass_obj
def erase_command(studio: str | None, contact: tuple[str, ...], yes: bool, as_json: bool) -> int:
    """Erase CONTACT, by name or by the beginning of a key, from the studio's folder.

    The page, the terms of every sale and loan with that person, and drafts that
    name them are overwritten and removed.  The journal stays valid: the key it
    holds leads nowhere.  What is beyond this folder is said.
    """
    from provenance.studio.erasing import BEYOND, erase_contact, find_contact
    from provenance.studio.folder import choose_folder

    folder = choose_folder(studio)
    with folder.open() as register:
        key, page = find_contact(folder, " ".join(contact))
        if not yes:
            if not sys.stdin.isatty():
                raise click.UsageError("erasing cannot be taken back; add --yes")
            click.confirm(f"Erase {page.name} for good?", abort=True, err=True)
        erased = erase_contact(register, folder, key)
    if as_json:
        json_line(
            {
                "key": erased.key,
                "terms": erased.terms,
                "drafts": list(erased.drafts),
                "events": erased.events,
                "remains": [
                    {"file": one.file, "entries": list(one.records)} for one in erased.remains
                ],
                "beyond": list(BEYOND),
            }
        )
        return 1 if erased.remains else 0
    line(f"erased the page {erased.key[:12]}")
    line(f"  terms   {erased.terms}")
    line(f"  drafts  {', '.join(erased.drafts) or 'none'}")
    line(f"  {erased.events} entries of the journal keep the key, which leads nowhere now")
    for one in erased.remains:
        entries = ", ".join(f"#{seq}" for seq in one.records)
        narrate(
            f"still to be read in {one.file}"
            + (f", entries {entries}" if entries else "")
            + "; the journal is never changed" * bool(entries)
        )
    line("beyond this folder, and not erased:")
    for said in BEYOND:
        line(f"  {said}")
    return 1 if erased.remains else 0
