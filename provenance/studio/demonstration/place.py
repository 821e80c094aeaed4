"""Where the demo studio may be made, and how it is known again."""

from pathlib import Path

from provenance.errors import Problem, Refused
from provenance.model.studio import Studio
from provenance.records.connection import FILE
from provenance.studio.demonstration.story import STORY, Story, copy_story, own_story, shipped_story
from provenance.studio.folder import StudioFolder

_ELSEWHERE = "name a new or an empty folder: provenance demo --into DIR"


def days_of(folder: StudioFolder) -> Path:
    """Where the demo's day sheets lie."""
    return folder.path / "days"


def scans_of(folder: StudioFolder) -> Path:
    """Where the demo's scans lie."""
    return folder.path / "scans"


def claim_place(folder: StudioFolder) -> Story:
    """The story to go on with in `folder`, copied there when it is new.

    Raises Refused when the folder holds another studio or other files.
    """
    days = days_of(folder)
    if (days / STORY).is_file():
        story = own_story(days)
        if (folder.path / FILE).exists():
            _same_studio(folder, story)
        return story
    if (folder.path / FILE).exists():
        _same_studio(folder, None)
    _nothing_else(folder.path, days)
    try:
        days.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise Refused(
            Problem(
                what=f"the demo cannot be made here ({error.strerror})",
                record=str(folder.path),
                mend=_ELSEWHERE,
            )
        ) from error
    return copy_story(days)


def _same_studio(folder: StudioFolder, story: Story | None) -> None:
    with folder.open() as register:
        studio = register.read.get(Studio, 1).body
    if story is None or (studio.name, studio.mark) != (story.studio, story.mark):
        raise Refused(
            Problem(
                what=f"this folder holds a studio of its own, {studio.name}; it was left as it is",
                record=str(folder.path),
                mend=_ELSEWHERE,
            )
        )


def _nothing_else(path: Path, days: Path) -> None:
    """Refuse a folder that holds anything but day sheets of a demo that was cut off."""
    if path.exists() and not path.is_dir():
        raise Refused(
            Problem(what="this is a file, not a folder", record=str(path), mend=_ELSEWHERE)
        )
    ours = {days / sheet for sheet in shipped_story().sheets} if path.exists() else set()
    for found in path.rglob("*") if path.exists() else ():
        if not found.is_dir() and found not in ours:
            raise Refused(
                Problem(
                    what=f"this folder holds other files ({found.relative_to(path)});"
                    " they were left as they are",
                    record=str(path),
                    mend=_ELSEWHERE,
                )
            )
