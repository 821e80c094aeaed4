"""Copies of certificates, outside the studio folder."""

import dataclasses
from pathlib import Path

from provenance.errors import Refused
from provenance.records.files import write_new
from provenance.studio.certifying.certify import Issued


def put_copy(issued: Issued, path: Path) -> Path:
    """Write the certificate to `path` too, or into it when it is a folder.

    The certificate is issued by now and stays in the studio folder; a copy that
    cannot be written is refused, saying so.
    """
    if path.is_dir():
        path = path / issued.path.name
    try:
        write_new(path, issued.pdf)
    except Refused as error:
        raise Refused(
            *(
                dataclasses.replace(
                    problem,
                    what=f"certificate {issued.number} is issued, but the copy failed:"
                    f" {problem.what}",
                    mend=f"copy it from {issued.path}",
                )
                for problem in error.problems
            )
        ) from error
    return path
