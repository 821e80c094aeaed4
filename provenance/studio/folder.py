"""The studio folder: everything that belongs to one studio lies in it."""

import os
import re
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from provenance.errors import NotFound, Problem, Refused
from provenance.resources import resource

if TYPE_CHECKING:
    from provenance.records.clock import Clock
    from provenance.records.register import Register

_NAME = re.compile(r"\w[\w. +-]{0,99}")
VARIABLE = "PROVENANCE_STUDIO"


@dataclass(frozen=True)
class StudioFolder:
    """Where things are in a studio folder.  Copy the folder and it works elsewhere."""

    path: Path

    @property
    def images(self) -> Path:
        """Thumbnails, named by their digest."""
        return self.path / "images"

    @property
    def certificates(self) -> Path:
        """Certificates as issued."""
        return self.path / "certificates"

    @property
    def settings(self) -> Path:
        """The studio's choices."""
        return self.path / "settings.toml"

    def open(self, clock: "Clock | None" = None) -> "Register":
        """The studio's register.  Raises NotFound, Refused or Damaged."""
        # lists need only the folder, and are asked for often: the door is loaded where it is used
        from provenance.records.register import Register

        return Register.open(self.path, clock=clock)

    def template(self, *parts: str) -> Path:
        """A template: the studio's own where it has one, else the one that came along.

        Raises NotFound, with the names there are.
        """
        folder = self.path.joinpath("templates", *parts[:-1])
        own = folder / parts[-1]
        try:
            # a name comes from settings and day sheets; as a path it could lead anywhere
            if not all(_NAME.fullmatch(part) for part in parts):
                raise FileNotFoundError
            return own if own.is_file() else resource("templates", *parts)
        except FileNotFoundError:
            known = sorted(
                path.stem
                for place in (folder, resource("templates", *parts[:-1]))
                if place.is_dir()
                for path in place.glob("*.toml")
            )
            raise NotFound(
                Problem(
                    what=f"there is no template {'/'.join(parts)}",
                    mend=f"there are: {', '.join(known)}",
                )
            ) from None


def choose_folder(given: str | Path | None) -> StudioFolder:
    """The folder to work in: the one given, else $PROVENANCE_STUDIO, else the user's own."""
    if given:
        return StudioFolder(Path(given).expanduser())
    named = os.environ.get(VARIABLE)
    if named:
        return StudioFolder(Path(named).expanduser())
    from platformdirs import user_data_path

    return StudioFolder(user_data_path("provenance", appauthor=False) / "studio")


def make_folders(folder: StudioFolder) -> None:
    """Make the folders that files are put into.  Raises Refused."""
    try:
        for place in (folder.images, folder.certificates):
            place.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise Refused(f"{error.filename} cannot be made: {error.strerror}") from error
