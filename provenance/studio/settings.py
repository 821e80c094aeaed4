"""What a studio has chosen: units, paper, language, the reading of a colon."""

import re
import tomllib
from typing import Annotated, Literal

import msgspec

from provenance.errors import Problem, Refused
from provenance.model.certificate import Page
from provenance.studio.folder import StudioFolder


Address = Annotated[str, msgspec.Meta(pattern=r"^(https?://[!-~]{3,80})?$")]


class Settings(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """The content of settings.toml; everything has a default.

    `colon_dilution` says how the studio reads ``1:9``: as one part and nine
    ("parts") or as one part in nine ("total").  Until it is chosen, a colon is
    refused.  `address` is where the studio answers for its certificates: their QR
    codes lead there.  `keys` gives keys to actions of the terminal application by
    their names.
    """

    units: Literal["metric", "inch"] = "metric"
    page: Page = "A4"
    language: str = "en"
    who: str = "printer"
    colon_dilution: Literal["parts", "total"] | None = None
    address: Address = ""
    keys: dict[str, str] = {}


def read_settings(folder: StudioFolder) -> Settings:
    """The studio's settings; the defaults where there is no file.  Raises Refused."""
    try:
        text = folder.settings.read_text(encoding="utf-8")
    except FileNotFoundError:
        return Settings()
    except (OSError, UnicodeDecodeError) as error:
        raise Refused(Problem(what=f"cannot be read: {error}", record="settings.toml")) from error
    try:
        return msgspec.convert(tomllib.loads(text), Settings)
    except (tomllib.TOMLDecodeError, msgspec.ValidationError) as error:
        field = next(iter(re.findall(r"(?:field |\$\.)`?(\w+)`?", str(error))), "")
        line = next(
            (n for n, row in enumerate(text.splitlines(), 1) if row.strip().startswith(field)), None
        )
        raise Refused(
            Problem(
                what=str(error),
                record="settings.toml",
                field=field,
                line=line if field else None,
                mend=f"the settings are: {', '.join(Settings.__struct_fields__)}",
            )
        ) from error
