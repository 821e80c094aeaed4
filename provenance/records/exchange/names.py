"""What a file may be called in an archive that is read or written."""

import re

from provenance.errors import Problem, Refused

MOST_LETTERS = 400
_DEVICE = re.compile(r"(?:con|prn|aux|nul|com[0-9]|lpt[0-9])(?:\..*)?", re.IGNORECASE)
"""Names that mean a device on some systems, whatever stands behind the dot."""
_STRANGE = re.compile(
    '[\x00-\x1f\x7f-\x9f<>:"|?*\\\\\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ud800-\udfff]'
)
"""Controls, marks that turn the direction of writing, halves of characters, and what some
system or other takes for more than a letter."""


def is_plain(name: str) -> bool:
    """Whether `name` is a path below the folder it is unpacked into, the same on every system."""
    parts = name.split("/")
    return (
        0 < len(name) <= MOST_LETTERS
        and not _STRANGE.search(name)
        and all(part not in ("", ".", "..") for part in parts)
        and not any(part.endswith((" ", ".")) or _DEVICE.fullmatch(part) for part in parts)
    )


def check_name(name: str) -> str:
    """`name` itself, when it is plain.  Raises Refused for one that leads elsewhere."""
    if not is_plain(name):
        raise Refused(
            Problem(
                "holds a file whose name leads elsewhere, or means another file on some systems",
                ascii(name[:80]),
                mend="nothing was unpacked; ask whoever made the archive",
            )
        )
    return name
