"""Founding a studio: its folder, its choices and its register."""

import json
import re
import unicodedata
from collections.abc import Mapping
from contextlib import suppress
from typing import Any

import msgspec

from provenance.records.clock import Clock
from provenance.records.files import write_whole
from provenance.studio.daysheet.forms import StudioForm
from provenance.studio.daysheet.record import Recorded, found_studio
from provenance.studio.folder import StudioFolder, make_folders
from provenance.studio.settings import MatchSetting, Settings

_WITHOUT_WEIGHT = frozenset({"studio", "the", "of", "and", "at", "in", "a"})
_ABOUT = {
    "units": 'how lengths are shown: "metric" or "inch"',
    "page": 'the paper of certificates: "A4" or "letter"',
    "language": "the language of certificates, by the name of its wording",
    "who": "who enters records, unless a day sheet says otherwise: a role or initials",
    "colon_dilution": 'how 1:10 is read: "parts" takes it for 1+10, "total" for 1+9',
    "silver_limit": 'most dissolved silver in a fixing bath: "strictest", "commercial", "single",'
    ' "first of two"',
    "silver_coated_mg_per_m2": "silver in a paper, milligrams to the square metre, for estimates",
    "silver_developed_percent": "share of it that becomes the image, for estimates",
    "disclosure": "the disclosure to be answered before certifying: union, trade, or none",
    "address": "where the studio answers for its certificates; their QR codes lead there",
    "backup_days": "after how many days a backup is asked for; 0 for never",
    "sheet_limits": "how many sheets one filling of a bath may serve, by what it is for",
    "residual_limits": "the studio's own limits for what may be left in a print, by name",
    "match_tolerances": "how far a spot of a later print may be off its reference",
    "keys": "keys of the terminal application, by the names of its actions",
}
"""What each setting decides, as settings.toml says it."""


def propose_mark(name: str) -> str:
    """Two to four capitals from the name of a studio, which begin its certificates' numbers."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().upper()
    words = re.findall(r"[A-Z]+", plain)
    telling = [word for word in words if word.casefold() not in _WITHOUT_WEIGHT] or words
    if len(telling) == 1:
        return telling[0][:2] if len(telling[0]) > 1 else ""
    return "".join(word[0] for word in telling[:4])


def settings_text(settings: Settings) -> str:
    """`settings` as settings.toml holds them, each with what it decides."""
    lines: list[str] = []
    for name, about in _ABOUT.items():
        if name in _TABLES:
            continue
        value = getattr(settings, name)
        lines.append(f"# {about}")
        lines.append(f"{name} = {_written(value)}" if value is not None else f'# {name} = ""')
    lines += _table("sheet_limits", settings.sheet_limits)
    lines += [f"# {_ABOUT['residual_limits']}", "[residual_limits]"]
    for name, limit in settings.residual_limits.items():
        lines.append(f"[residual_limits.{_written(name)}]")
        given = ((part, getattr(limit, part)) for part in limit.__struct_fields__)
        lines += [f"{part} = {_written(value)}" for part, value in given if value is not None]
    tolerances = settings.match_tolerances
    chosen = {} if tolerances == MatchSetting() else msgspec.structs.asdict(tolerances)
    lines += _table("match_tolerances", chosen)
    lines += _table("keys", settings.keys)
    return "\n".join(lines) + "\n"


_TABLES = ("sheet_limits", "residual_limits", "match_tolerances", "keys")
"""Settings with names of their own; they stand last, as TOML has it."""


def _table(name: str, values: Mapping[Any, str | float]) -> list[str]:
    rows = [f"{_written(key)} = {_written(value)}" for key, value in values.items()]
    return [f"# {_ABOUT[name]}", f"[{name}]", *rows]


def _written(value: str | float) -> str:
    # a JSON string is a TOML basic string, but for one control character
    return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")


def found(
    folder: StudioFolder, form: StudioForm, settings: Settings, *, clock: Clock | None = None
) -> Recorded:
    """Found a studio with its settings, which take the place of those that are there.

    Raises Refused, and then leaves the settings as they were.
    """
    before = folder.settings.read_bytes() if folder.settings.exists() else None
    make_folders(folder)
    write_whole(folder.settings, settings_text(settings).encode())
    try:
        found_studio(folder, form, clock=clock, who=settings.who).close()
    except BaseException:
        with suppress(OSError):
            if before is None:
                folder.settings.unlink()
            else:
                folder.settings.write_bytes(before)
        raise
    return Recorded(act=1, entered=(f"studio {form.name}",), entries=1)
