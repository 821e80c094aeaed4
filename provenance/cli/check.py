"""`provenance check FILE`"""

from pathlib import Path
from typing import TYPE_CHECKING

import click

from provenance.cli.main import json_option
from provenance.cli.output import json_line, line

if TYPE_CHECKING:
    from provenance.studio.checking.verdict import Verdict


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
    verdicts = {"intact": found.intact, "sealed": found.sealed, "on record": found.on_record}
    if as_json:
        json_line(
            {
                "certificate": found.number,
                "revision": found.revision,
                **{name.replace(" ", "_"): _data(one) for name, one in verdicts.items()},
                "changed_since": list(found.since),
                "stands": found.stands,
            }
        )
    else:
        for name, one in verdicts.items():
            line(f"{name:<10} {one.answer:<11} {one.says[0]}")
            for more in one.says[1:]:
                line(f"{'':<10} {'':<11} {more}")
        for change in found.since:
            line(f"{'since':<10} {'changed':<11} {change}")
    if found.altered:
        return 3
    return 0 if found.stands else 1


def _data(verdict: "Verdict") -> dict[str, object]:
    return {"answer": verdict.answer, "says": list(verdict.says)}


def _read(path: Path) -> bytes:
    from provenance.errors import Problem, Refused

    try:
        return path.read_bytes()
    except OSError as error:
        raise Refused(Problem(f"cannot be read: {error.strerror}", str(path))) from error
