"""What a studio has chosen: units, paper, language, the reading of a colon."""

import re
import tomllib
from typing import Annotated, Literal

import msgspec

from provenance.craft.comparing import Tolerances
from provenance.craft.fixing import SilverLimit, limit_named
from provenance.craft.limits import ResidualLimit, read_limit
from provenance.craft.silver import Coating
from provenance.errors import Problem, Refused
from provenance.model.certificate import Page
from provenance.model.chemistry import Role
from provenance.model.process import Question
from provenance.model.sources import Grade, Sourced
from provenance.studio.folder import StudioFolder
from provenance.toml import read_toml

Address = Annotated[str, msgspec.Meta(pattern=r"^(https?://[!-~]{3,80})?$")]


class LimitSetting(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A limit for what may be left in a print: how much, as what, and whose it is."""

    question: Question
    amount: str
    reckoned_as: str | None = None
    source: str
    standing: Grade = "P"

    def read(self, name: str) -> ResidualLimit:
        """The limit.  Raises Refused."""
        if not self.source.strip():
            raise Refused(Problem("a limit says whose it is", name, "source", "name the source"))
        told = Sourced(self.standing, self.source)
        return read_limit(name, self.question, self.amount, self.reckoned_as, told)


class MatchSetting(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """How far a spot of a later print may be off: densities, lightnesses (L*) and ΔE00.

    From `light_from` up the one density holds, from `dark_to` down the other;
    between them it goes in proportion.
    """

    light_from: float = Tolerances.light_from
    light_density: float = Tolerances.light_density
    dark_to: float = Tolerances.dark_to
    dark_density: float = Tolerances.dark_density
    delta_e00: float = Tolerances.delta_e00
    source: str = ""
    standing: Grade = "P"

    def read(self) -> Tolerances:
        """The tolerances, as a match keeps them.  Raises Refused."""
        for field, value, most, places in (
            ("light_from", self.light_from, 100, 2),
            ("light_density", self.light_density, 1, 3),
            ("dark_to", self.dark_to, 100, 2),
            ("dark_density", self.dark_density, 1, 3),
            ("delta_e00", self.delta_e00, 20, 2),
        ):
            if not 0 < value <= most or round(value, places) != value:
                mend = f"give a number above zero, at most {most}, with at most {places} decimals"
                raise Refused(Problem(f"{value:g} is no tolerance", field=field, mend=mend))
        if self.dark_to >= self.light_from:
            raise Refused(
                Problem("it does not lie below light_from", field="dark_to", mend="give less")
            )
        if self == MatchSetting():
            return Tolerances()
        if not self.source.strip():
            raise Refused(
                Problem("a tolerance says whose it is", field="source", mend="name the source")
            )
        return Tolerances(
            self.light_from,
            self.light_density,
            self.dark_to,
            self.dark_density,
            self.delta_e00,
            Sourced(self.standing, self.source),
        )


class Settings(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """The content of settings.toml; everything has a default.

    `colon_dilution` says how the studio reads ``1:9``: as one part and nine
    ("parts") or as one part in nine ("total").  Until it is chosen, a colon is
    refused.  `silver_limit` names the limit for dissolved silver of every fixing
    bath that has none of its own; the two after it are what estimates of silver
    rest on.  `sheet_limits` gives by what a bath is for how many sheets one filling
    may serve.  `match_tolerances` is what later prints are held to.  `address` is where
    the studio answers for its certificates: their QR codes lead there.  `backup_days` is after
    how many days a backup is asked for, 0 for never.  `keys` gives keys to actions of
    the terminal application by their names.
    """

    units: Literal["metric", "inch"] = "metric"
    page: Page = "A4"
    language: str = "en"
    who: str = "printer"
    colon_dilution: Literal["parts", "total"] | None = None
    silver_limit: str = "single"
    silver_coated_mg_per_m2: int = 1500
    silver_developed_percent: int = 50
    sheet_limits: dict[Role, Annotated[int, msgspec.Meta(ge=1, le=10_000)]] = {}
    address: Address = ""
    disclosure: str = ""
    backup_days: Annotated[int, msgspec.Meta(ge=0, le=3650)] = 14
    residual_limits: dict[str, LimitSetting] = {}
    match_tolerances: MatchSetting = MatchSetting()
    keys: dict[str, str] = {}

    def __post_init__(self) -> None:
        # what they stand for refuses what is no choice
        _ = self.limit, self.coating, self.limits, self.tolerances

    @property
    def limit(self) -> SilverLimit:
        """The silver limit of a fixing bath that has none of its own."""
        return limit_named(self.silver_limit)

    @property
    def limits(self) -> tuple[ResidualLimit, ...]:
        """The studio's own limits for what may be left in a print."""
        return tuple(given.read(name) for name, given in self.residual_limits.items())

    @property
    def tolerances(self) -> Tolerances:
        """How far a later print may be off."""
        return self.match_tolerances.read()

    @property
    def coating(self) -> Coating:
        """What is taken of a paper's silver."""
        return Coating(self.silver_coated_mg_per_m2, self.silver_developed_percent)


_CHOSEN = {
    "limit": "silver_limit",
    "coating": "silver_coated_mg_per_m2",
    "developed": "silver_developed_percent",
}
"""What a choice is called where it is looked up, and in the file."""


def read_settings(folder: StudioFolder) -> Settings:
    """The studio's settings; the defaults where there is no file.  Raises Refused."""
    try:
        text = folder.settings.read_text(encoding="utf-8")
    except FileNotFoundError:
        return Settings()
    except (OSError, UnicodeDecodeError) as error:
        raise Refused(Problem(what=f"cannot be read: {error}", record="settings.toml")) from error
    try:
        return msgspec.convert(read_toml(text), Settings)
    except (tomllib.TOMLDecodeError, msgspec.ValidationError) as error:
        field = next(iter(re.findall(r"(?:field |\$\.)`?(\w+)`?", str(error))), "")
        known = f"the settings are: {', '.join(Settings.__struct_fields__)}"
        raise Refused(_problem(text, str(error), field, known)) from error
    except Refused as error:
        problem = error.problems[0]
        field = _CHOSEN.get(problem.field, problem.field)
        what = f"{problem.record}: {problem.what}" if problem.record else problem.what
        raise Refused(_problem(text, what, field, problem.mend)) from error


def _problem(text: str, what: str, field: str, mend: str) -> Problem:
    rows = text.splitlines()
    line = next((n for n, row in enumerate(rows, 1) if row.strip().startswith(field)), None)
    return Problem(what, "settings.toml", field, mend, line if field else None)
