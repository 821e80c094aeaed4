"""`provenance contacts`, `provenance erase CONTACT`, `provenance erase --unnamed`"""

import sys
from typing import TYPE_CHECKING

import click

from provenance.cli.main import json_option
from provenance.cli.output import counted, json_line, line, narrate, safe, table

if TYPE_CHECKING:
    from provenance.studio.folder import StudioFolder


@click.command("contacts")
@json_option
@click.pass_obj
def contacts_command(studio: str | None, as_json: bool) -> int:
    """List the pages of the contact book, with the beginning of each key.

    Exit status 3 when one of them is not legible.
    """
    from msgspec import to_builtins

    from provenance.records.private import Contacts
    from provenance.studio.folder import choose_folder

    folder = choose_folder(studio)
    with folder.open():
        book = Contacts(folder.path)
        pages, spoilt = book.list(), sorted(book.altered())
    if as_json:
        for key, page in pages:
            json_line({"key": key, "legible": True, **to_builtins(page)})
        for key in spoilt:
            json_line({"key": key, "legible": False})
    else:
        rows = [
            (key[:12], page.name, page.place, "dealer" if page.dealer else "")
            for key, page in pages
        ]
        rows += [(key[:12], "", "", "not legible") for key in spoilt]
        table(("key", "name", "place", ""), rows)
        for key in spoilt:
            narrate(
                f"damaged: the page {key[:12]} is not the one that was entered; bring it back from"
                f" a backup, or give it up: provenance erase {key[:12]}"
            )
    return 3 if spoilt else 0


@click.command("erase")
@click.argument("contact", nargs=-1)
@click.option("--unnamed", is_flag=True, help="Erase the pages of terms that no record names.")
@click.option("--contacts", is_flag=True, help="With --unnamed: persons that no record names too.")
@click.option("--yes", is_flag=True, help="Do not ask.")
@json_option
@click.pass_obj
def erase_command(
    studio: str | None,
    contact: tuple[str, ...],
    unnamed: bool,
    contacts: bool,
    yes: bool,
    as_json: bool,
) -> int:
    """Erase CONTACT, by name or by the beginning of a key, from the studio's folder.

    The page, legible or not, the terms of every sale and loan with that person,
    and drafts that name them are overwritten and removed.  The journal stays
    valid: the key it holds leads nowhere.  What is beyond this folder is said.

    With --unnamed: what a program left that was ended before its records.
    """
    from provenance.studio.folder import choose_folder

    if unnamed and contact:
        raise click.UsageError("--unnamed goes without a name: erase a person by itself")
    if not unnamed and (contacts or not contact):
        raise click.UsageError(
            "--contacts goes with --unnamed" if contacts else "say whom, or give --unnamed"
        )
    folder = choose_folder(studio)
    if unnamed:
        return _erase_unnamed(folder, contacts=contacts, yes=yes, as_json=as_json)
    return _erase_person(folder, " ".join(contact), yes=yes, as_json=as_json)


def _sure(question: str, *, yes: bool) -> None:
    """Ask, unless it was answered beforehand.  Raises UsageError, or Abort for a no."""
    if yes:
        return
    if not sys.stdin.isatty():
        raise click.UsageError("erasing cannot be taken back; add --yes")
    # a question goes to the terminal as it is, and a page may come from anybody
    click.confirm(safe(question), abort=True, err=True)


def _erase_unnamed(folder: "StudioFolder", *, contacts: bool, yes: bool, as_json: bool) -> int:
    from provenance.cli.progress import progress_line
    from provenance.records.private_unnamed import clear_unnamed, find_unnamed
    from provenance.studio.erasing import BEYOND

    with folder.open() as register:
        found = find_unnamed(register, contacts=contacts)
        if files := len(found.terms) + len(found.contacts):
            _sure(f"Erase {counted(files, 'page')} that no record names for good?", yes=yes)
            found = clear_unnamed(register, contacts=contacts, progress=progress_line)
    # the act of another program may have named some of them meanwhile
    terms, persons = len(found.terms), len(found.contacts)
    gone = terms + persons
    if as_json:
        json_line({"terms": terms, "contacts": persons, "beyond": list(BEYOND)})
        return 0
    line("erased the pages that no record names" if gone else "there is no page to erase")
    line(f"  terms     {terms}")
    if contacts:
        line(f"  contacts  {persons}")
    if gone:
        _say_beyond(BEYOND)
    return 0


def _say_beyond(beyond: tuple[str, ...]) -> None:
    line("beyond this folder, and not erased:")
    for said in beyond:
        line(f"  {said}")


def _erase_person(folder: "StudioFolder", whom: str, *, yes: bool, as_json: bool) -> int:
    from provenance.studio.erasing import BEYOND, erase_contact, find_contact

    with folder.open() as register:
        key, page = find_contact(register.read, folder, whom)
        named = page.name if page else f"the page {key[:12]}, which is not legible,"
        _sure(f"Erase {named} for good?", yes=yes)
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
                "unsure": list(erased.unsure),
                "beyond": list(BEYOND),
            }
        )
        return 1 if erased.remains else 0
    line(f"erased the page {erased.key[:12]}")
    line(f"  terms   {erased.terms}")
    line(f"  drafts  {', '.join(erased.drafts) or 'none'}")
    keep = "entry of the journal keeps" if erased.events == 1 else "entries of the journal keep"
    line(f"  {erased.events} {keep} the key, which leads nowhere now")
    for one in erased.remains:
        entries = ", ".join(f"#{seq}" for seq in one.records)
        narrate(
            f"still to be read in {one.file}"
            + (f", entries {entries}" if entries else "")
            + "; the journal is never changed" * bool(entries)
        )
    for unsure in erased.unsure:
        narrate(f"not certain: {unsure}")
    _say_beyond(BEYOND)
    return 1 if erased.remains else 0
