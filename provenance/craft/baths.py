"""What a bath has been through: area, an estimate of its silver, age, what is left."""

from dataclasses import dataclass
from datetime import date, timedelta

from provenance.craft.fixing import SilverLimit
from provenance.craft.residual import area_m2
from provenance.craft.silver import Coating, SheetSilver, silver_in, silver_on
from provenance.errors import Problem, Refused
from provenance.model.chemistry import Bath
from provenance.model.quantities import Size


@dataclass(frozen=True)
class Use:
    """Sheets of one size that went through; those fixed before bring no silver of their own."""

    size: Size
    sheets: int
    fixed_before: bool = False


@dataclass(frozen=True)
class Ledger:
    """All uses of one filling, and what they brought into it; an estimate.

    Nothing is counted as carried out with the sheets or plated out, so the
    silver of a bath that is topped up is lower than said here.  Raises Refused
    for a bath without volume and a use without sheets.
    """

    volume_hundredth_ml: int
    uses: tuple[Use, ...]
    coating: Coating
    carried_in_mg: float = 0.0
    """Silver that came over from the baths before, after ordinary pictures."""
    carried_in_at_worst_mg: float = 0.0

    def __post_init__(self) -> None:
        if self.volume_hundredth_ml <= 0 or any(use.sheets <= 0 for use in self.uses):
            raise Refused(
                Problem(
                    what="a bath without volume, or a use without sheets, has no ledger",
                    field="volume" if self.volume_hundredth_ml <= 0 else "sheets",
                    mend="give the volume of the bath and how many sheets went through",
                )
            )

    @property
    def litres(self) -> float:
        """The volume of the bath."""
        return self.volume_hundredth_ml / 100_000

    @property
    def sheets(self) -> int:
        """Sheets of every size."""
        return sum(use.sheets for use in self.uses)

    @property
    def area_m2(self) -> float:
        """The area of paper that went through, one face."""
        return sum(area_m2(use.size) * use.sheets for use in self.uses)

    @property
    def silver(self) -> SheetSilver:
        """The silver of all that came unfixed."""
        unfixed = sum(area_m2(use.size) * use.sheets for use in self.uses if not use.fixed_before)
        return silver_on(unfixed, self.coating)

    @property
    def dissolved_mg_per_l(self) -> float:
        """Silver in a fixer after ordinary pictures."""
        return (self.silver.to_fixer_mg + self.carried_in_mg) / self.litres

    @property
    def dissolved_at_worst_mg_per_l(self) -> float:
        """Silver in a fixer when all that was coated dissolved."""
        return (self.silver.to_fixer_at_worst_mg + self.carried_in_at_worst_mg) / self.litres


@dataclass(frozen=True)
class Remaining:
    """How many more sheets a fixer is expected to serve before a limit; an estimate."""

    limit: SilverLimit
    sheets: int
    sheets_at_worst: int
    assumption: str


def remaining(ledger: Ledger, limit: SilverLimit, size: Size) -> Remaining:
    """What is left of a fixer in sheets of `size`, under the limit that the studio chose."""
    each = silver_in(size, ledger.coating)
    return Remaining(
        limit=limit,
        sheets=_left(limit, ledger, ledger.dissolved_mg_per_l, each.to_fixer_mg),
        sheets_at_worst=_left(
            limit, ledger, ledger.dissolved_at_worst_mg_per_l, each.to_fixer_at_worst_mg
        ),
        assumption=f"{ledger.coating}; up to {limit.mg_per_l / 1000:g} g/L for {limit.meaning}:"
        f" {limit.source}",
    )


def _left(limit: SilverLimit, ledger: Ledger, dissolved_mg_per_l: float, each_mg: float) -> int:
    room_mg = (limit.mg_per_l - dissolved_mg_per_l) * ledger.litres
    # a limit that is met to the milligram must not lose a sheet to rounding
    return max(0, int(room_mg / each_mg + 1e-9))


@dataclass(frozen=True)
class Age:
    """How old something mixed is, and when its time is over."""

    days: int
    discard_after: date
    left_days: int
    """Negative when its time is over."""


def age(mixed_on: date, today: date, keeps_days: int) -> Age:
    """The age of something mixed on a day that keeps so many days.

    Raises Refused when it would be mixed only after `today`.
    """
    if mixed_on > today:
        raise Refused(
            Problem(
                what=f"it was mixed on {mixed_on.isoformat()}, which is still to come",
                field="made",
                mend="correct the date",
            )
        )
    discard_after = mixed_on + timedelta(days=keeps_days)
    return Age((today - mixed_on).days, discard_after, (discard_after - today).days)


def why_unfit(bath: Bath, earlier_uses: int) -> Problem | None:
    """Why a bath should not be used again: retired, or meant for one use and used."""
    if bath.retired_on is not None:
        return Problem(
            what=f"{bath.code} was retired on {bath.retired_on}"
            + (f": {bath.retired_why}" if bath.retired_why else ""),
            record=bath.code,
            field="bath",
            mend="use another bath, or mix a fresh one",
        )
    if bath.one_shot and earlier_uses > 0:
        return Problem(
            what=f"{bath.code} is for one use, and was used",
            record=bath.code,
            field="bath",
            mend="mix a fresh one",
        )
    return None
