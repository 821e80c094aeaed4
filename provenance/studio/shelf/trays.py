"""Trays: what stands in them, what went through, and for how much more they are fit."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Literal

from provenance.craft.baths import Ledger, Remaining, age, remaining
from provenance.craft.fixing import (
    AGE_SOURCE,
    OPEN_TRAY_DAYS,
    ROTATION_SOURCE,
    WORKING_FIXER_DAYS,
    Rotation,
    SilverLimit,
    limit_named,
    rotation,
)
from provenance.craft.solutions.needed import WATER
from provenance.model.chemistry import Bath, Stock
from provenance.model.dates import earliest
from provenance.model.edition import Edition
from provenance.model.formula import Formula
from provenance.model.prints import Print
from provenance.model.quantities import Size
from provenance.model.quantity_text import Units, format_dilution, format_size, format_volume
from provenance.records.at_hand import baths_in_use
from provenance.records.reader import Reader, Stored
from provenance.studio.settings import Settings
from provenance.studio.shelf.passes import CARRIED, Passes
from provenance.studio.shelf.retired import with_retired
from provenance.studio.shelf.toner_bounds import TonerBound, toner_bound

State = Literal[
    "fresh", "in use", "may be past its limit", "past its limit", "past its time", "spent",
    "retired",
]  # fmt: skip
"""What to think of a tray, the gravest last but for `retired`."""


@dataclass(frozen=True)
class Tray:
    """A bath as it stands today.  Silver and what is left are estimates (`assumption`)."""

    bath: Stored[Bath]
    made_from: str
    """In one line: of what, how thin, how much."""
    age_days: int | None
    """None when the day it was made is not on record."""
    keeps_days: int | None
    keeps_source: str
    sheets: int
    """How many prints went through; one that came twice counts once."""
    uses: int
    """On how many days it was used."""
    ledger: Ledger | None
    """None for a bath whose volume is not on record."""
    limit: SilverLimit | None
    """The silver limit that was chosen; None for a bath that is no fixer."""
    fit_for: Remaining | None
    """None where nothing can be told, and for the second bath of a pair."""
    size: Size | None
    """The sheet that `fit_for` counts."""
    first: Stored[Bath] | None
    """The first bath, when this is the second of a pair in use."""
    second: Stored[Bath] | None
    """The second bath, when this is the first of a pair in use."""
    advice: Rotation | None
    """What to do with the pair, said of its first bath."""
    most_sheets: int | None = None
    """How many sheets a filling may serve, where the studio has said so."""
    bound: TonerBound | None = None
    """What a bleach or toner can never exceed; None where it is not known."""

    @property
    def state(self) -> State:
        """What to think of it, the gravest that holds."""
        body = self.bath.body
        if body.retired_on is not None:
            return "retired"
        if body.one_shot and self.uses > 0:
            return "spent"
        if self.past_its_time:
            return "past its time"
        if self.most_sheets is not None and self.sheets > self.most_sheets:
            return "past its limit"
        if self.limit is not None and self.ledger is not None:
            if self.ledger.dissolved_mg_per_l > self.limit.mg_per_l:
                return "past its limit"
            if self.ledger.dissolved_at_worst_mg_per_l > self.limit.mg_per_l:
                return "may be past its limit"
        return "in use" if self.sheets else "fresh"

    @property
    def past_its_time(self) -> bool:
        """Whether it is older than such a bath is kept."""
        return (
            self.age_days is not None
            and self.keeps_days is not None
            and self.age_days > self.keeps_days
        )

    @property
    def sheets_left(self) -> int | None:
        """How many more the studio's own limit allows; None where it set none."""
        return None if self.most_sheets is None else max(0, self.most_sheets - self.sheets)

    @property
    def open_tray_text(self) -> str:
        """That a fixer is older than an open tray keeps; empty for any other."""
        days = self.age_days or 0
        if self.bath.body.role != "fix" or self.past_its_time or days <= OPEN_TRAY_DAYS:
            return ""
        return f"past the {OPEN_TRAY_DAYS} days of an open tray"

    @property
    def silver_share(self) -> float | None:
        """How far the estimate has come on the way to the limit; 1 is the limit."""
        if self.limit is None or self.ledger is None:
            return None
        return self.ledger.dissolved_mg_per_l / self.limit.mg_per_l

    @property
    def age_share(self) -> float | None:
        """How far its age has come on the way to how long such a bath is kept."""
        if self.age_days is None or not self.keeps_days:
            return None
        return self.age_days / self.keeps_days

    def fit_text(self, units: Units = "metric") -> str:
        """``9 more, 20.3 × 25.4 cm; at worst 0``, or why that cannot be told."""
        if self.state in ("spent", "retired"):
            return self.state
        if self.bath.body.role in WATER:
            return ""
        if self.first is not None:
            return f"second bath of {self.first.body.code}"
        if self.fit_for is not None and self.size is not None:
            return (
                f"{self.fit_for.sheets} more, {format_size(self.size, units)};"
                f" at worst {self.fit_for.sheets_at_worst}"
            )
        if self.sheets_left is not None:
            return f"{self.sheets_left} more; the studio's limit is {self.most_sheets} sheets"
        if self.bath.body.role != "fix":
            return "one use" if self.bath.body.one_shot else "no limit known: test it"
        return "its volume is not on record" if self.ledger is None else "no sheet size is known"

    @property
    def silver_text(self) -> str:
        """``0.3 g/L of silver, at worst 0.6``; empty for what is no fixer."""
        if self.limit is None or self.ledger is None:
            return ""
        usual, worst = (
            f"{load / 1000:.2g}"
            for load in (
                self.ledger.dissolved_mg_per_l,
                self.ledger.dissolved_at_worst_mg_per_l,
            )
        )
        return f"{usual} g/L of silver, at worst {worst}"

    @property
    def assumption(self) -> str:
        """What the estimates rest on, each with its worth; empty where there are none."""
        said = []
        if self.limit is not None and self.ledger is not None:
            said.append(
                f"{self.ledger.coating}; up to {self.limit.mg_per_l / 1000:g} g/L for"
                f" {self.limit.meaning}: {self.limit.source}"
            )
            if any(use.fixed_before for use in self.ledger.uses):
                said.append(CARRIED)
        if self.advice is not None:
            said.append(f"moving a second bath up: {ROTATION_SOURCE}")
        if self.past_its_time:
            said.append(f"kept {self.keeps_days} days: {self.keeps_source}")
        return "; ".join(said)


def trays(
    reader: Reader,
    settings: Settings,
    today: date,
    *,
    retired: bool = False,
    size: Size | None = None,
) -> list[Tray]:
    """Every tray in use, in the order in which they were entered; with `retired`, the latest
    of those that were thrown away too.

    They are counted in sheets of `size`, else each in those that went through it last.
    """
    passes = Passes(reader, settings.coating)
    usual = usual_sheet(reader)
    held = baths_in_use(reader)
    return [
        _tray(reader, bath, settings, today, passes, usual, size)
        for bath in (with_retired(reader, Bath, held) if retired else held)
    ]


def tray(
    reader: Reader,
    bath: Stored[Bath],
    settings: Settings,
    today: date,
    *,
    size: Size | None = None,
) -> Tray:
    """One tray; `size` is the sheet to count in, else that of the last sheet through it."""
    passes = Passes(reader, settings.coating)
    return _tray(reader, bath, settings, today, passes, usual_sheet(reader), size)


def limit_of(bath: Bath, settings: Settings) -> SilverLimit | None:
    """The silver limit of a fixing bath: its own, else the studio's; None for another bath."""
    if bath.role != "fix":
        return None
    return limit_named(bath.limit) if bath.limit else settings.limit


def fixers_in_use(reader: Reader) -> list[str]:
    """The codes of the fixing baths that stand ready, the latest first."""
    ready = (one.body for one in reversed(baths_in_use(reader)))
    return [body.code for body in ready if body.role == "fix"]


def usual_sheet(reader: Reader) -> Size | None:
    """The sheet printed on last; that of the last edition where nothing was printed."""
    prints, editions = (
        reader.connection.execute(
            "SELECT max(id) FROM record WHERE kind = ? AND live", (kind,)
        ).fetchone()[0]
        for kind in (Print.KIND, Edition.KIND)
    )
    if prints is not None:
        return reader.get(Print, prints).body.sheet
    return None if editions is None else reader.get(Edition, editions).body.sheet


def _tray(
    reader: Reader,
    bath: Stored[Bath],
    settings: Settings,
    today: date,
    passes: Passes,
    usual: Size | None,
    size: Size | None = None,
) -> Tray:
    through = passes.of(bath.id)
    ledger = passes.ledger(bath.id)
    limit = limit_of(bath.body, settings)
    first = _first(reader, bath.body)
    second = _second(reader, bath.id)
    size = size or (through[-1].size if through else usual)
    keeps, source = _keeps(reader, bath.body)
    return Tray(
        bath=bath,
        made_from=" ".join(made_from(reader, bath.body)),
        age_days=_age(bath.body, today),
        keeps_days=keeps,
        keeps_source=source,
        sheets=len({one.print for one in through}),
        uses=len({one.done_on for one in through}),
        ledger=ledger,
        limit=limit,
        fit_for=remaining(ledger, limit, size)
        if ledger and limit and size and first is None
        else None,
        size=size,
        first=first,
        second=second,
        advice=rotation(ledger.dissolved_mg_per_l, _moves(reader, bath), limit)
        if ledger and limit and second
        else None,
        most_sheets=settings.sheet_limits.get(bath.body.role),
        bound=toner_bound(reader, bath.body, size, settings.coating) if size else None,
    )


def made_from(reader: Reader, bath: Bath) -> Iterator[str]:
    """Of what a bath was made, as words: its own, else bottles or formula; thinness; volume."""
    if bath.made_from:
        yield bath.made_from
    elif bath.drawn:
        codes = (reader.get(Stock, held).body.code for held in bath.drawn_from)
        yield " + ".join(codes)
    elif bath.formula is not None:
        yield reader.get(Formula, bath.formula).body.name
    else:
        yield bath.role
    if bath.dilution is not None:
        yield format_dilution(bath.dilution)
    if bath.volume_hundredth_ml:
        yield f"in {format_volume(bath.volume_hundredth_ml)}"


def _first(reader: Reader, bath: Bath) -> Stored[Bath] | None:
    """The bath before this one, while it is in use."""
    first = None if bath.second_of is None else reader.get(Bath, bath.second_of)
    return first if first is not None and first.body.retired_on is None else None


def _second(reader: Reader, bath: int) -> Stored[Bath] | None:
    """The bath after this one, while it is in use; the latest where there were several."""
    seconds = reader.linked(bath, Bath, "second_of")
    return next((one for one in reversed(seconds) if one.body.retired_on is None), None)


def _moves(reader: Reader, bath: Stored[Bath]) -> int:
    """How often a second bath moved up, ending with this one as the first."""
    seen = {bath.id}
    before = bath.body.second_of
    while before is not None and before not in seen:
        seen.add(before)
        before = reader.get(Bath, before).body.second_of
    return len(seen) - 1


def _keeps(reader: Reader, bath: Bath) -> tuple[int | None, str]:
    if bath.role == "fix":
        return WORKING_FIXER_DAYS, str(AGE_SOURCE)
    if bath.formula is None:
        return None, ""
    formula = reader.get(Formula, bath.formula).body
    return formula.tray_days, f"formula {formula.code}" if formula.tray_days else ""


def _age(bath: Bath, today: date) -> int | None:
    """Days since it was made, the earliest that the date may mean."""
    made = earliest(bath.made_on) if bath.made_on is not None else date.min
    return None if made == date.min or made > today else age(made, today, 0).days
