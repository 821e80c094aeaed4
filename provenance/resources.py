"""Where the files that come with the program are: templates and the demo.

In a wheel they lie inside the package (``provenance/_data``); in a checkout
they lie beside it.
"""

from pathlib import Path

from provenance.errors import Problem, Refused

_PACKAGE = Path(__file__).resolve().parent
_PLACES = (_PACKAGE / "_data", _PACKAGE.parent)


def resource(*parts: str) -> Path:
    """The path of a file or folder that came with the program.

    Raises FileNotFoundError, naming the part, when the installation lacks it.
    """
    for place in _PLACES:
        path = place.joinpath(*parts)
        if path.exists():
            return path
    raise FileNotFoundError(f"the installation lacks {'/'.join(parts)}")


def text_of(path: Path) -> str:
    """The text of a template, which may be a studio's own.  Raises Refused, naming the file."""
    try:
        return path.read_text(encoding="utf-8-sig")
    except (OSError, UnicodeDecodeError) as error:
        why = error.strerror if isinstance(error, OSError) else "it is not UTF-8 text"
        raise Refused(
            Problem(f"cannot be read: {why}", path.name, mend=f"mend {path}, or move it away")
        ) from error
