"""`provenance certify EDITION --all`"""

import sys
from pathlib import Path
from typing import Literal

import click

from provenance.cli.interrupt import held_back
from provenance.cli.key import passphrase
from provenance.cli.output import counted, json_line, line, narrate, safe, tell_error
from provenance.errors import Problem, Refused


def certify_edition(
    studio: str | None,
    edition: str,
    *,
    out: Path | None,
    page: Literal["A4", "letter"] | None,
    who: str | None,
    as_json: bool,
) -> int:
    """Issue every certificate of an edition that can be issued; the exit status.

    Ctrl-C lets the certificate in hand be finished, and stops before the next.
    """
    from provenance.studio.certifying.batch import certify_each, owing
    from provenance.studio.certifying.copies import put_copy
    from provenance.studio.certifying.stationery import gather
    from provenance.studio.folder import choose_folder

    if out is not None and not out.is_dir():
        raise click.UsageError("with --all, --out must be a folder that exists")
    folder = choose_folder(studio)
    stationery = gather(folder, passphrase())
    issued, against = 0, list[Problem]()
    with folder.open() as register, held_back() as interrupted:
        prints = owing(register, edition)
        try:
            for at, outcome in enumerate(
                certify_each(register, folder, prints, stationery, who=who, page=page), 1
            ):
                _clear()
                against += outcome.problems
                if (made := outcome.issued) is not None:
                    issued += 1
                    path = made.path
                    try:
                        path = path if out is None else put_copy(made, out)
                    except Refused as error:
                        against += error.problems
                    told = {
                        "print": outcome.name,
                        "certificate": made.number,
                        "revision": made.revision,
                        "path": str(path),
                        "sentences": len(made.claims),
                    }
                    _ = json_line(told) if as_json else line(str(path))
                _progress(outcome.name, at, len(prints))
                if interrupted() and at < len(prints):
                    raise KeyboardInterrupt
        finally:
            _clear()
            if not as_json:
                owed = counted(len(prints), "print")
                narrate(f"certificates issued: {issued}, for {owed} that had none")
            if against:
                tell_error(Refused(*against), as_json=as_json)
    return 1 if against else 0


def _progress(name: str, done: int, whole: int) -> None:
    """One line on a terminal that says how far it has come."""
    if sys.stderr.isatty() and done < whole:
        sys.stderr.write(safe(f"{done} of {whole}: {name}"))
        sys.stderr.flush()


def _clear() -> None:
    """Take that line away: what is issued is told in its place."""
    if sys.stderr.isatty():
        sys.stderr.write("\r\x1b[K")
        sys.stderr.flush()
