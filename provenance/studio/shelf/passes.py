"""Which sheets went through which bath, in the order of work, and the silver they brought."""

from dataclasses import dataclass
from datetime import date
from functools import cache

from provenance.craft.baths import Ledger, Use
from provenance.craft.carry_over import SOURCE as CARRY_OVER
from provenance.craft.carry_over import carried_over_mg
from provenance.craft.silver import Coating, silver_in
from provenance.model.chemistry import Bath
from provenance.model.dates import earliest
from provenance.model.printing import Step
from provenance.model.prints import Print
from provenance.model.quantities import Size
from provenance.records.reader import Reader, Stored

CARRIED = (
    f"sheets that were fixed before bring what they carry over: {CARRY_OVER}; nothing is counted"
    " as carried out"
)


@dataclass(frozen=True)
class Pass:
    """One sheet that went through a bath; the silver is an estimate, nought but in a fixer."""

    print: int
    step: int
    done_on: str
    size: Size
    fixed_before: bool
    """Whether it had been in a fixing bath already, whose silver it only carries over."""
    silver_mg: float
    silver_at_worst_mg: float


class Passes:
    """All passes on record, worked out once for each bath that is asked about."""

    def __init__(self, reader: Reader, coating: Coating) -> None:
        self._reader = reader
        self._coating = coating
        self._steps = cache(self._steps_in)
        self._fixes = cache(self._fixes_of)
        self._loads = cache(self._brought_in)

    def of(self, bath: int) -> list[Pass]:
        """The sheets that went through `bath`, in the order of work.

        Steps of one day are taken in the order in which they were entered, and
        the sheets of a step in the order in which they are named.
        """
        fixer = self._reader.get(Bath, bath).body.role == "fix"
        return [
            self._pass(step, sheet, fixer=fixer)
            for step in self._steps(bath)
            for sheet in step.body.sheets
        ]

    def ledger(self, bath: int) -> Ledger | None:
        """The ledger of a bath; None where its volume is not on record."""
        volume = self._reader.get(Bath, bath).body.volume_hundredth_ml
        return ledger_of(self.of(bath), volume, self._coating) if volume else None

    def _steps_in(self, bath: int) -> list[Stored[Step]]:
        return sorted(self._reader.linked(bath, Step, "bath"), key=_order)

    def _pass(self, step: Stored[Step], sheet: int, *, fixer: bool) -> Pass:
        size = self._reader.get(Print, sheet).body.sheet
        former = self._fixed_before(step, sheet) if fixer else None
        usual = worst = 0.0
        if fixer and former is None:
            silver = silver_in(size, self._coating)
            usual, worst = silver.to_fixer_mg, silver.to_fixer_at_worst_mg
        elif former is not None and former.body.bath not in (None, step.body.bath):
            usual, worst = (carried_over_mg(size, load) for load in self._strength(former, sheet))
        return Pass(sheet, step.id, step.body.done_on, size, former is not None, usual, worst)

    def _fixed_before(self, step: Stored[Step], sheet: int) -> Stored[Step] | None:
        """The fix that `sheet` came from, where `step` is not its first."""
        fixes = self._fixes(sheet)
        place = [one.id for one in fixes].index(step.id)
        return fixes[place - 1] if place else None

    def _fixes_of(self, sheet: int) -> list[Stored[Step]]:
        steps = self._reader.linked(sheet, Step, "sheets")
        return sorted(
            (one for one in steps if one.body.role == "fix"),
            key=lambda one: (earliest(one.body.done_on), one.body.place, one.id),
        )

    def _strength(self, step: Stored[Step], sheet: int) -> tuple[float, float]:
        """Silver in the bath of `step` when `sheet` left it, in mg/L: usual, and at worst.

        What that bath had been given by carrying over is left out: it is far less.
        """
        bath = step.body.bath
        assert bath is not None  # noqa: S101 - the caller looked
        volume = self._reader.get(Bath, bath).body.volume_hundredth_ml
        if not volume:
            return 0.0, 0.0
        usual, worst = self._loads(bath)[step.id, sheet]
        return usual * 100_000 / volume, worst * 100_000 / volume

    def _brought_in(self, bath: int) -> dict[tuple[int, int], tuple[float, float]]:
        """The silver that unfixed sheets had brought into a bath after each pass."""
        loads: dict[tuple[int, int], tuple[float, float]] = {}
        usual = worst = 0.0
        for step in self._steps(bath):
            for sheet in step.body.sheets:
                if self._fixed_before(step, sheet) is None:
                    silver = silver_in(self._reader.get(Print, sheet).body.sheet, self._coating)
                    usual += silver.to_fixer_mg
                    worst += silver.to_fixer_at_worst_mg
                loads[step.id, sheet] = usual, worst
        return loads


def ledger_of(passes: list[Pass], volume_hundredth_ml: int, coating: Coating) -> Ledger:
    """The ledger of passes through one filling."""
    counted: dict[tuple[Size, bool], int] = {}
    for one in passes:
        counted[one.size, one.fixed_before] = counted.get((one.size, one.fixed_before), 0) + 1
    before = [one for one in passes if one.fixed_before]
    return Ledger(
        volume_hundredth_ml=volume_hundredth_ml,
        uses=tuple(Use(size, sheets, fixed) for (size, fixed), sheets in counted.items()),
        coating=coating,
        carried_in_mg=sum(one.silver_mg for one in before),
        carried_in_at_worst_mg=sum(one.silver_at_worst_mg for one in before),
    )


def _order(step: Stored[Step]) -> tuple[date, int]:
    return earliest(step.body.done_on), step.id
