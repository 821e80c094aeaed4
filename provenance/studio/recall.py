"""Every print that met a bath, and on which side of the bath's limit."""

from dataclasses import dataclass
from itertools import accumulate
from typing import Literal

from provenance.craft import custody
from provenance.craft.baths import Ledger
from provenance.craft.fixing import SilverLimit
from provenance.craft.solutions.strength import HUNDREDTH_ML_PER_L
from provenance.model.certificate import Certificate, CertificateState
from provenance.model.chemistry import Bath
from provenance.model.custody import CustodyEvent
from provenance.model.prints import Existence, Print
from provenance.records.reader import Reader, Stored
from provenance.studio.calling import names_of
from provenance.studio.settings import Settings
from provenance.studio.shelf.passes import CARRIED, Pass, Passes, ledger_of
from provenance.studio.shelf.trays import limit_of

Side = Literal["within", "perhaps past", "past", "not known"]
"""Of the limit, with this sheet counted: by both estimates, at worst only, by neither.

“perhaps past” is past the limit when all that was coated dissolved.
"""

Where = custody.Where | Existence


@dataclass(frozen=True)
class Recalled:
    """One print in the bath; the silver is what the bath then held, an estimate."""

    print: int
    name: str
    step: int
    done_on: str
    sheets: int
    """How many sheets had gone through, this one counted."""
    mg_per_l: float | None
    """None for a bath that is no fixer, or whose volume is not on record."""
    mg_per_l_at_worst: float | None
    side: Side
    fixed_before: bool
    """Whether it came from another fixing bath."""
    certificates: tuple[tuple[str, CertificateState], ...]
    """(number, state) of each that was issued for it."""
    where: Where
    where_on: str
    """Since when, EDTF; empty in the studio."""


@dataclass(frozen=True)
class Recall:
    """All of it, in the order of work."""

    bath: Stored[Bath]
    lines: tuple[Recalled, ...]
    limit: SilverLimit | None
    """None for a bath that is no fixer."""
    own_limit: bool
    """Whether the limit is the bath's own, or else the studio's."""
    ledger: Ledger | None

    @property
    def prints(self) -> int:
        """How many prints it met."""
        return len({one.print for one in self.lines})

    @property
    def certificates(self) -> tuple[tuple[str, CertificateState], ...]:
        """(number, state) of each that was issued for one of the prints."""
        return tuple(dict.fromkeys(one for line in self.lines for one in line.certificates))

    def on_side(self, *sides: Side) -> tuple[Recalled, ...]:
        """The lines on those sides of the limit."""
        return tuple(one for one in self.lines if one.side in sides)

    @property
    def assumption(self) -> str:
        """What the estimate and the limit rest on; empty for a bath that is no fixer."""
        if self.limit is None:
            return ""
        whose = "chosen for this bath" if self.own_limit else "the studio's choice"
        said = (
            f"limit “{self.limit.name}”, {whose}: {self.limit.mg_per_l / 1000:g} g/L of silver,"
            f" {self.limit.meaning}, {self.limit.source}"
        )
        if self.ledger is None:
            return f"{said}; the volume of the bath is not on record, so no silver can be told"
        carried = f"; {CARRIED}" if any(use.fixed_before for use in self.ledger.uses) else ""
        return f"{said}; {self.ledger.coating}{carried}"


def recall(reader: Reader, bath: Stored[Bath], settings: Settings) -> Recall:
    """Every print that met `bath`, in the order of work, with what was issued for it.

    A print that went through twice stands there twice.
    """
    passes = Passes(reader, settings.coating).of(bath.id)
    limit = limit_of(bath.body, settings)
    volume = bath.body.volume_hundredth_ml
    names = names_of(reader, (one.print for one in passes))
    usual = accumulate(one.silver_mg for one in passes)
    worst = accumulate(one.silver_at_worst_mg for one in passes)
    litres = volume / HUNDREDTH_ML_PER_L if volume and limit is not None else None
    lines = tuple(
        _line(reader, one, name, sheets, limit, [mg / litres for mg in held] if litres else [])
        for sheets, (one, name, *held) in enumerate(
            zip(passes, names, usual, worst, strict=True), 1
        )
    )
    return Recall(
        bath=bath,
        lines=lines,
        limit=limit,
        own_limit=bool(bath.body.limit),
        ledger=ledger_of(passes, volume, settings.coating) if volume else None,
    )


def _line(
    reader: Reader,
    last: Pass,
    name: str,
    sheets: int,
    limit: SilverLimit | None,
    mg_per_l: list[float],
) -> Recalled:
    """One print; `mg_per_l` is what the bath then held, usual and at worst, where it is known."""
    usual, worst = mg_per_l or (None, None)
    where, where_on = _where(reader, reader.get(Print, last.print))
    return Recalled(
        print=last.print,
        name=name,
        step=last.step,
        done_on=last.done_on,
        sheets=sheets,
        mg_per_l=usual,
        mg_per_l_at_worst=worst,
        side=_side(limit, *mg_per_l) if limit is not None and mg_per_l else "not known",
        fixed_before=last.fixed_before,
        certificates=tuple(
            (one.body.number, one.body.state)
            for one in reader.linked(last.print, Certificate, "print")
        ),
        where=where,
        where_on=where_on,
    )


def _side(limit: SilverLimit, usual: float, worst: float) -> Side:
    # what meets the limit to the milligram is within it
    most = limit.mg_per_l * (1 + 1e-9)
    if usual > most:
        return "past"
    return "perhaps past" if worst > most else "within"


def _where(reader: Reader, held: Stored[Print]) -> tuple[Where, str]:
    body = held.body
    if body.existence != "exists":
        return body.existence, body.gone_on or ""
    moves = reader.linked(held.id, CustodyEvent, "print")
    now = custody.whereabouts(
        (custody.Move(move.id, move.body) for move in moves), opening=body.opening
    )
    return now.where, now.since if now.away else ""
