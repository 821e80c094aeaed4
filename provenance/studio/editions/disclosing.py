"""The checklist of disclosure: of a print, of an edition, and against certifying one."""

import tomllib
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

import msgspec
from msgspec.structs import replace

from provenance.craft.disclosing import ASKED, Checked, checklist
from provenance.craft.history import PrintHistory
from provenance.errors import NotFound, Problem, Refused
from provenance.model.disclosure import Answer, Disclosure, Item
from provenance.model.edition import Edition
from provenance.model.sources import Grade, Sourced
from provenance.records.act import Act
from provenance.records.dossier import print_history
from provenance.records.reader import Reader, Stored
from provenance.studio.chemicals import table_text
from provenance.studio.folder import StudioFolder
from provenance.toml import read_toml


@dataclass(frozen=True)
class Profile:
    """Which items a studio answers before it certifies, and who asks them."""

    name: str
    about: str
    source: Sourced
    items: tuple[Item, ...]


class _Profile(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    about: str
    source: str
    standing: Grade
    items: tuple[Item, ...]


class _File(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    profile: dict[str, _Profile]


def load_profile(folder: StudioFolder | None, name: str) -> Profile | None:
    """The profile called `name`; None for an empty name.  Raises Refused and NotFound."""
    if not name:
        return None
    known = _profiles(table_text(folder, "disclosure.toml"))
    if name not in known:
        raise NotFound(
            Problem(
                f"there is no profile of disclosure called {name}",
                "settings.toml",
                "disclosure",
                f"there are: {', '.join(known)}",
            )
        )
    return known[name]


@lru_cache(maxsize=2)
def _profiles(text: str) -> dict[str, Profile]:
    try:
        read = msgspec.convert(read_toml(text), _File).profile
    except (tomllib.TOMLDecodeError, msgspec.ValidationError) as error:
        raise Refused(Problem(f"cannot be read: {error}", "disclosure.toml")) from error
    return {
        name: Profile(name, one.about, Sourced(one.standing, one.source), one.items)
        for name, one in read.items()
    }


def disclosed(reader: Reader, history: PrintHistory) -> tuple[Checked, ...]:
    """Every item of a print as it stands: stated, not applicable, disclaimed or open."""
    others = [
        one.body
        for one in reader.linked(history.negative.id, Edition, "negative")
        if one.id != history.edition.id
    ]
    return checklist(history, others, _answers(reader, history.edition.id))


def disclosed_of(reader: Reader, record: int) -> tuple[Checked, ...]:
    """The same of the print with id `record`.  Raises NotFound."""
    return disclosed(reader, print_history(reader, record))


def open_items(
    reader: Reader, folder: StudioFolder | None, history: PrintHistory, profile: str
) -> Iterator[Problem]:
    """The items of the chosen profile that nothing answers, as obstacles to a certificate."""
    chosen = load_profile(folder, profile)
    if chosen is None:
        return
    body = history.print.body
    name = f"{history.edition.body.code} {body.designation or body.mark}"
    for one in disclosed(reader, history):
        if one.reply == "open" and one.item in chosen.items:
            yield Problem(
                f"profile {chosen.name} asks for {ASKED[one.item]}, and nothing answers it",
                name,
                f"disclosure: {one.item}",
                "record it, or answer it in [[disclose]]: stated, not applicable or disclaimed",
            )


def answer(act: Act, edition: Stored[Edition], answers: tuple[Answer, ...]) -> None:
    """Answer items for all prints of an edition, in place of earlier answers to the same ones."""
    held = act.linked(edition.id, Disclosure, "edition")
    if not held:
        act.enter(Disclosure(edition=edition.id, answers=answers))
        return
    named = {one.item for one in answers}
    kept = tuple(one for one in held[0].body.answers if one.item not in named)
    act.change(held[0].id, held[0].version, replace(held[0].body, answers=(*kept, *answers)))


def _answers(reader: Reader, edition: int) -> tuple[Answer, ...]:
    held = reader.linked(edition, Disclosure, "edition")
    return held[0].body.answers if held else ()
