"""Where the files that come with the program are: templates and the demo.

In a wheel they lie inside the package (``provenance/_data``); in a checkout
they lie beside it.
"""

from pathlib import Path

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
