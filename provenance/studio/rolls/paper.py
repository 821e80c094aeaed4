"""A roll as a file: drawn, and written whole or not at all."""

from pathlib import Path

from provenance.craft.roll import Roll
from provenance.documents.roll import draw_roll
from provenance.errors import Problem, Refused
from provenance.records.files import write_new
from provenance.studio.folder import StudioFolder


def write_roll(roll: Roll, path: Path, folder: StudioFolder) -> Path:
    """Draw `roll` and write it to `path`.

    Raises Refused for a full form within the studio folder: it names persons,
    and would outlive their erasure there.
    """
    if roll.seal and path.resolve().is_relative_to(folder.path.resolve()):
        raise Refused(
            Problem(
                "the full form names persons, who could no longer be erased from the studio folder",
                str(path),
                mend="write it elsewhere, and keep it under lock",
            )
        )
    # nobody but its owner may read a full form
    write_new(path, draw_roll(roll), mode=0o600 if roll.seal else 0o644)
    return path


def proposed_name(roll: Roll) -> str:
    """What the file of a roll may be called: ``QUAY edition list 2031-06-01.pdf``."""
    said = f"{roll.name} {roll.kind} {roll.drawn_at_utc.date()}"
    return "".join(one if one.isalnum() or one in "-. ’" else "-" for one in said) + ".pdf"
