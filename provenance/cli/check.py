"""`provenance check FILE`"""

from pathlib import Path
from textwrap import wrap
from typing import TYPE_CHECKING

import click

from provenance.cli.main import json_option
from provenance.cli.output import json_line, line, safe

if TYPE_CHECKING:
    from provenance.studio.checking.check import Checked
    from provenance.studio.checking.verdict import Verdict

_WIDTH = 80


@click.command("check")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--key", type=click.Path(path_type=Path), help="The public key the studio gave.")
@json_option
@click.pass_obj
def check_command(studio: str | None, file: Path, key: Path | None, as_json: bool) -> int:
    """Check the file of a certificate: intact, sealed, on record.

    The register of the studio folder is asked where there is one; the file is
    checked without it too.  Exit status 3 when the file is not as it was
    issued, 1 when the register speaks against it.
    """
    from provenance.studio.checking.check import check
    from provenance.studio.folder import choose_folder
    from provenance.studio.keys.public import read_public_key

    trusted = None if key is None else read_public_key(_read(key), key.name)
    found = check(file, choose_folder(studio), trusted)
    if as_json:
        json_line(_data(found))
    else:
        _tell(found)
    if found.altered:
        return 3
    return 0 if found.stands else 1


def _data(found: "Checked") -> dict[str, object]:
    replaces = found.replaces
    return {
        "certificate": found.number,
        "revision": found.revision,
        "about": found.about,
        "in_short": found.in_short,
        **{
            name.replace(" ", "_"): {"answer": one.answer, "says": list(one.says)}
            for name, one in _verdicts(found).items()
        },
        "replaces": None
        if replaces is None
        else {
            "revision": replaces.revision,
            "why": replaces.why,
            "changed": [
                {name: getattr(one, name) for name in one.__struct_fields__}
                for one in replaces.changed
            ],
        },
        "changed_since": list(found.since),
        "stands": found.stands,
    }


def _tell(found: "Checked") -> None:
    if found.number:
        line(f"{found.number}, revision {found.revision}: {found.about}")
    _say("", found.in_short)
    line()
    for name, verdict in _verdicts(found).items():
        for at, says in enumerate(verdict.says):
            _say(f"{name:<12}{verdict.answer:<12}" if at == 0 else " " * 24, says)
    if found.replaces is not None:
        was = f"revision {found.replaces.revision}: {found.replaces.why}"
        _say(f"{'replaces':<24}", was)
        for change in found.replaces.changed:
            _say(f"{'changed':<24}", change.line())
    for told in found.since:
        _say(f"{'since then':<24}", told)
    if found.compare:
        line()
        _say("", found.compare)


def _verdicts(found: "Checked") -> "dict[str, Verdict]":
    return {"intact": found.intact, "sealed": found.sealed, "on record": found.on_record}


def _say(head: str, text: str) -> None:
    """`text` after its head, in lines of a page's width."""
    room = _WIDTH - len(head)
    for at, part in enumerate(wrap(safe(text), room, break_long_words=False) or [""]):
        line((head if at == 0 else " " * len(head)) + part)


def _read(path: Path) -> bytes:
    from provenance.errors import Problem, Refused

    try:
        return path.read_bytes()
    except OSError as error:
        raise Refused(Problem(f"cannot be read: {error.strerror}", str(path))) from error
