"""Where the next paper of a kind goes, beside the earlier ones."""

from itertools import chain, count
from pathlib import Path

from provenance.errors import Problem, Refused


def next_pdf(place: Path, stem: str) -> Path:
    """A file of the folder `place` that is not there yet: ``stem.pdf``, ``stem-2.pdf`` ...

    Raises Refused when there can be no such folder.
    """
    try:
        place.mkdir(exist_ok=True)
    except OSError as error:
        raise Refused(
            Problem(
                what=f"{place} cannot be made: {error.strerror or error}",
                mend="see that the folder is yours to write in and has room",
            )
        ) from error
    names = chain((f"{stem}.pdf",), (f"{stem}-{number}.pdf" for number in count(2)))
    return next(path for name in names if not (path := place / name).exists())
