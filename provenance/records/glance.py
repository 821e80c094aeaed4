"""A look at the view without loading what writes it: for lists that must be quick."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from provenance.records.connection import FILE, GENERATION, connect, generation
from provenance.records.faults import database_faults
from provenance.records.schema import fingerprint
from provenance.records.witness import disagreement, read_witness


@contextmanager
def glance(folder: Path) -> Iterator[sqlite3.Connection]:
    """The register in `folder`, for reading its view.

    Everything that is not as usual (no register, an older view, a witness that
    disagrees) is left to `Register.open`, which mends it or says what is wrong.
    """
    path = folder / FILE
    if not (path.exists() and _as_usual(folder, path)):
        from provenance.records.register import Register

        Register.open(folder).close()
    with database_faults(path), closing(connect(path)) as connection:
        yield connection


def _as_usual(folder: Path, path: Path) -> bool:
    try:
        with closing(connect(path)) as connection:
            witness = read_witness(folder)
            row = connection.execute("SELECT fingerprint FROM view_made_by").fetchone()
            return (
                row == (fingerprint(),)
                and generation(connection) == GENERATION
                and not (witness and disagreement(connection, witness))
            )
    except sqlite3.Error:
        return False
