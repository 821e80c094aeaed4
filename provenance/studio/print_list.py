"""The list of prints: a light door of its own, since it is asked for most."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from provenance.errors import NotFound, Problem
from provenance.records.glance import glance
from provenance.records.listing import PRINT_COLUMNS, print_rows

STATES = "wpncrx"

Row = tuple[int, str, str, str, str, str, str]


@contextmanager
def open_prints(
    folder: Path, *, edition: str | None = None, states: str = "", limit: int | None = None
) -> Iterator[tuple[tuple[str, ...], Iterator[Row]]]:
    """The heads and rows of a list of prints.  Raises NotFound for an unknown edition or state."""
    unknown = sorted(set(states) - set(STATES))
    if unknown:
        raise NotFound(
            Problem(what=f"there is no state {unknown[0]!r}", mend=f"states are: {STATES}")
        )
    with glance(folder) as connection:
        if edition is not None:
            codes = [
                code
                for (code,) in connection.execute(
                    "SELECT code FROM record WHERE kind = 'edition' AND live ORDER BY code"
                )
            ]
            if edition.casefold() not in {code.casefold() for code in codes}:
                raise NotFound(
                    Problem(
                        what=f"there is no edition {edition}",
                        mend=f"on record are: {', '.join(codes)}",
                    )
                )
        yield (
            PRINT_COLUMNS,
            print_rows(connection, edition=edition, states=states, limit=limit),
        )
