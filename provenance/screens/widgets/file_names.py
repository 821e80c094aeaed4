"""Completes the name of a file as it is typed."""

import asyncio
from pathlib import Path

from textual.suggester import Suggester


class FileNames(Suggester):
    """Suggests the first file or folder whose name begins with what is typed."""

    def __init__(self) -> None:
        super().__init__(use_cache=False, case_sensitive=True)

    async def get_suggestion(self, value: str) -> str | None:
        """The whole of what is typed with the rest of a name, or None."""
        return await asyncio.to_thread(complete, value)


def complete(typed: str) -> str | None:
    """`typed` with the rest of the first name that fits, a folder with its stroke."""
    folder, stroke, beginning = typed.rpartition("/")
    try:
        place = Path(f"{folder}{stroke}").expanduser() if stroke else Path()
        names = sorted(
            (path for path in place.iterdir() if path.name.startswith(beginning)),
            key=lambda path: path.name,
        )
        found = next((path for path in names if beginning or not path.name.startswith(".")), None)
        if found is None or not (beginning or stroke):
            return None
        return f"{folder}{stroke}{found.name}" + ("/" if found.is_dir() else "")
    except (OSError, RuntimeError, ValueError):
        return None
