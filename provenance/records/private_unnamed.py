"""Clears pages that no entry names: a program was killed between its pages and its entries."""

import re
from dataclasses import dataclass
from pathlib import Path

from provenance.errors import Damaged, Problem, Refused
from provenance.records.audit import audit
from provenance.records.checks.pages import unnamed
from provenance.records.private import Contacts
from provenance.records.private_folder import overwrite
from provenance.records.progress import Progress
from provenance.records.register import Register
from provenance.records.terms import TermsBook
from provenance.records.witness import read_witness

_PART = re.compile(r"\.[0-9a-f]{64}\.json\.[0-9a-f]{16}\.part")
"""What a page is called until it is whole."""


@dataclass(frozen=True)
class Unnamed:
    """The files of pages that no entry of any version names."""

    terms: tuple[Path, ...]
    contacts: tuple[Path, ...]
    """Empty where they were not asked for."""


def find_unnamed(register: Register, *, contacts: bool = False) -> Unnamed:
    """The pages of terms that no entry names, whole or in part; `contacts`: persons too.

    Outside of an act some of them may be another program's, whose entries are to come.
    """
    folder, connection = register.folder, register.read.connection
    terms, persons = folder / "private" / "terms", folder / "contacts"
    agreed = unnamed(connection, set(TermsBook(folder).filed()))
    people = unnamed(connection, set(Contacts(folder).filed())) if contacts else set()
    return Unnamed(
        terms=(*_files(terms, agreed), *_parts(terms)),
        contacts=(*_files(persons, people), *_parts(persons)) if contacts else (),
    )


def clear_unnamed(
    register: Register, *, contacts: bool = False, progress: Progress | None = None
) -> Unnamed:
    """Erase what `find_unnamed` finds while nobody else writes; what was erased.

    Raises Damaged when the audit finds damage, Refused when the witness is gone, when
    another program is in the middle of an act, or when a file cannot be erased.
    """
    _refuse_where_anything_is_lost(register.folder, progress)
    # a page is on disk before its entry: only with the lock it is sure that none is to come
    with register.act("studio", rehearse=True):
        register.check_witness()
        found = find_unnamed(register, contacts=contacts)
        files = (*found.terms, *found.contacts)
        for done, path in enumerate(files, start=1):
            _erase(path)
            if progress:
                progress("pages", done, len(files))
    return found


def _refuse_where_anything_is_lost(folder: Path, progress: Progress | None) -> None:
    kept = "a page that no record names may be all that is left of what was lost"
    if audit(folder, progress=progress).damaged:
        mend = "see `provenance audit`, mend all damage, and clear the pages then"
        raise Damaged(
            Problem(f"there is damage: {kept}; nothing was erased", str(folder), "", mend)
        )
    if read_witness(folder) is None:
        mend = "it is written with the next entry; see first whether the last ones are there"
        what = f"the file `head` is gone, and {kept}; nothing was erased"
        raise Refused(Problem(what, str(folder), "", mend))


def _files(place: Path, keys: set[str]) -> list[Path]:
    return [place / f"{key}.json" for key in sorted(keys)]


def _parts(place: Path) -> list[Path]:
    return sorted(one for one in place.glob(".*.part") if _PART.fullmatch(one.name))


def _erase(path: Path) -> None:
    try:
        overwrite(path)
    except FileNotFoundError:
        # somebody deleted it by hand meanwhile
        return
    except OSError as error:
        mend = "see to it that it can be, and clear the pages again; those before it are gone"
        raise Refused(
            Problem(f"cannot be erased ({error.strerror})", str(path), "", mend)
        ) from error
