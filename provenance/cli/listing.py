"""`provenance list KIND` and `provenance find WORDS`"""

from collections.abc import Sequence
from itertools import islice
from pathlib import Path

import click

from provenance.cli.main import WHOLE, json_option
from provenance.cli.output import counted, json_line, line, lines, narrate, pad, safe, table


@click.command("list")
@click.argument("kind")
@click.option("--edition", metavar="CODE", help="Only prints of this edition.")
@click.option("--state", metavar="LETTERS", default="", help="Only prints in these states.")
@click.option("--limit", type=WHOLE, help="At most so many.")
@json_option
@click.pass_obj
def list_command(
    studio: str | None,
    kind: str,
    edition: str | None,
    state: str,
    limit: int | None,
    as_json: bool,
) -> None:
    """List every record of one KIND: prints, editions, negatives, papers, tests ...

    States of a print: w at work, p tested, n numbered and signed, c certified,
    r released, x spoiled, destroyed or lost.
    """
    from provenance.studio.folder import choose_folder

    folder = choose_folder(studio)
    if kind.casefold() in ("print", "prints"):
        _prints(folder.path, edition, state, limit, as_json=as_json)
        return
    from provenance.errors import Misuse
    from provenance.studio.browsing import kind_called, listed

    wanted = kind_called(kind)
    if edition is not None or state:
        raise Misuse("--edition and --state choose among prints only")
    with folder.open() as register:
        found = list(listed(register.read, wanted))[:limit]
    if as_json:
        for one in found:
            json_line({"id": one.id, "kind": one.kind, "name": one.name, "about": one.about})
        return
    table(
        ("id", kind, "about"),
        ((str(one.id), one.name, one.about) for one in found),
        right=(0,),
    )
    narrate(f"{len(found)} on record")


def _prints(
    folder: Path, edition: str | None, state: str, limit: int | None, *, as_json: bool
) -> None:
    from provenance.studio.print_list import open_prints

    with open_prints(folder, edition=edition, states=state, limit=limit) as (heads, rows):
        if as_json:
            count = sum(json_line(dict(zip(heads, row, strict=True))) for row in rows)
        else:
            line(_row([head.upper() for head in heads]))
            count = 0
            while some := [_row(row) for row in islice(rows, _AT_ONCE)]:
                count += lines(some)
    narrate(counted(count, "print"))


_FORM = "{:>9}  {:<24}  {:<12}  {:<10}  {:<5}  {:<10}  {}"
_AT_ONCE = 500
"""Lines that are written together."""
_COLUMNS = (24, 12, 10, 5, 10)


def _row(cells: Sequence[object]) -> str:
    """One print in columns; the quick way where every letter is one column wide."""
    quick = _FORM.format(*cells).rstrip()
    if quick.isascii() and quick.isprintable():
        return quick
    first, *middle, last = (safe(str(cell)) for cell in cells)
    padded = [pad(cell, columns) for cell, columns in zip(middle, _COLUMNS, strict=True)]
    return "  ".join([pad(first, 9, right=True), *padded, last]).rstrip()


@click.command("find")
@click.argument("words", nargs=-1, required=True)
@click.option("--limit", type=WHOLE, default=50, show_default=True, help="At most so many.")
@json_option
@click.pass_obj
def find_command(studio: str | None, words: tuple[str, ...], limit: int, as_json: bool) -> None:
    """Find records by words of their titles, codes, numbers, marks or notes."""
    from provenance.studio.browsing import search
    from provenance.studio.folder import choose_folder

    with choose_folder(studio).open() as register:
        found = search(register.read, " ".join(words), limit=limit)
    if as_json:
        for one in found:
            json_line({"id": one.id, "kind": one.kind, "name": one.name, "about": one.about})
        return
    table(
        ("id", "kind", "name", "about"),
        ((str(one.id), one.kind, one.name, one.about) for one in found),
        right=(0,),
    )
    narrate(f"{len(found)} found")
