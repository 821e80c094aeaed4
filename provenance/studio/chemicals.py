"""Loads the tables of substances and of hazards that a studio uses."""

from dataclasses import dataclass

from provenance.craft.hazards.tables import Hazards, read_hazards
from provenance.craft.substance_rows import read_substances
from provenance.craft.substances import Substances
from provenance.errors import NotFound
from provenance.resources import resource, text_of
from provenance.studio.folder import StudioFolder


@dataclass(frozen=True)
class Chemicals:
    """The tables of substances and of their hazards."""

    substances: Substances
    hazards: Hazards


def load_chemicals(folder: StudioFolder | None = None) -> Chemicals:
    """Both tables: the studio's own where it has them.  Raises Refused with lines."""
    substances = load_substances(folder)
    return Chemicals(substances, load_hazards(substances, folder))


def load_substances(folder: StudioFolder | None = None) -> Substances:
    """The substances: the studio's own table where it has one.  Raises Refused with lines."""
    return read_substances(table_text(folder, "substances.csv"))


def load_hazards(substances: Substances, folder: StudioFolder | None = None) -> Hazards:
    """The hazards of `substances`: the studio's own tables where it has them.  Raises Refused."""
    return read_hazards(table_text(folder, "hazards.toml"), substances)


def table_text(folder: StudioFolder | None, name: str) -> str:
    """The text of a table under templates/data: the studio's own where it has it."""
    if folder is not None:
        try:
            return text_of(folder.template("data", name))
        except NotFound:
            pass
    return text_of(resource("templates", "data", name))
