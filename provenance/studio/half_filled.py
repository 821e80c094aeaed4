"""Half-filled forms: kept in the private folder, never in the journal, until they are done."""

import hashlib
from collections.abc import Mapping
from datetime import timedelta

import msgspec

from provenance.errors import Refused
from provenance.records.clock import Moment
from provenance.records.private import Drafts
from provenance.studio.folder import StudioFolder


class HalfFilled(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """What was typed into a form, and when it was kept."""

    at: str
    """Local time to the minute, as ``2031-03-14 21:40``."""
    values: dict[str, str]


def draft_name(form: str, about: str) -> str:
    """Under which name the draft of a form is kept; `about` is what the form is about."""
    if not about:
        return form
    return f"{form}-{hashlib.sha256(about.encode()).hexdigest()[:16]}"


def keep(folder: StudioFolder, name: str, values: Mapping[str, str], at: Moment) -> None:
    """Keep what was typed, in place of what was kept before.  Raises Refused."""
    local = at.utc() + timedelta(minutes=at.offset_min)
    draft = HalfFilled(at=f"{local:%Y-%m-%d %H:%M}", values=dict(values))
    Drafts(folder.path).put(name, msgspec.json.encode(draft).decode())


def kept(folder: StudioFolder, name: str) -> HalfFilled | None:
    """What was kept, if it can still be read."""
    try:
        text = Drafts(folder.path).get(name)
        return None if text is None else msgspec.json.decode(text, type=HalfFilled)
    except (Refused, msgspec.MsgspecError, UnicodeDecodeError):
        # a spoiled draft must not keep anybody from a fresh form
        return None


def drop(folder: StudioFolder, name: str) -> None:
    """Erase what was kept, if anything was."""
    Drafts(folder.path).drop(name)
