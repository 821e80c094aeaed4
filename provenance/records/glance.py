"""A look at the view without loading what writes it: for lists that must be quick."""

import sqlite3
from collections.abc import Iterator
from contextlib import ExitStack, closing, contextmanager, suppress
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
    connection = _as_usual(folder, path) if path.exists() else None
    if connection is None:
        from provenance.records.register import Register

        Register.open(folder).close()
        with database_faults(path):
            connection = connect(path)
    with database_faults(path), closing(connection):
        yield connection


def _as_usual(folder: Path, path: Path) -> sqlite3.Connection | None:
    with suppress(sqlite3.Error), ExitStack() as stack:
        connection = stack.enter_context(closing(connect(path)))
        witness = read_witness(folder)
        row = connection.execute("SELECT fingerprint FROM view_made_by").fetchone()
        if (
            row == (fingerprint(),)
            and generation(connection) == GENERATION
            and not (witness and disagreement(connection, witness))
        ):
            stack.pop_all()
            return connection
    return None
