"""Screens as they were agreed, as text; PROVENANCE_UPDATE_GOLDENS=1 writes them anew."""

import os
from pathlib import Path

FOLDER = Path(__file__).parent


def agreed(name: str, text: str) -> bool:
    """Whether `text` is the screen that was agreed under `name`."""
    path = FOLDER / f"{name}.txt"
    if os.environ.get("PROVENANCE_UPDATE_GOLDENS") == "1":
        path.write_text(text + "\n", encoding="utf-8")
    return path.read_text(encoding="utf-8") == text + "\n"
