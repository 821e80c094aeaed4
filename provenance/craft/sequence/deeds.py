"""What is known of a sequence: its steps and tests, their order, times and baths."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from datetime import date

from provenance.craft.fixing import SilverLimit
from provenance.model.chemistry import Bath, Role
from provenance.model.paper import Base
from provenance.model.process import Question


@dataclass(frozen=True)
class When:
    """A place in the order of work: the day as far as it is known, and a number within it."""

    first: date
    last: date
    number: int

    def before(self, other: "When") -> bool:
        """Whether this is known to come before `other`."""
        if self.beside(other):
            return self.number < other.number
        return self.last < other.first

    def beside(self, other: "When") -> bool:
        """Whether both have the same date, so that their numbers can be compared."""
        return (self.first, self.last) == (other.first, other.last)


@dataclass(frozen=True)
class Deed:
    """One step, planned or done, with as much as is known of it.

    Times are in ms: `least_ms` is what it surely lasts and `most_ms` what it may
    last; both are None when no time is known.
    """

    name: str
    role: Role
    when: When
    least_ms: int | None = None
    most_ms: int | None = None
    temperature_tenth_c: int | None = None
    words: str = ""
    """What stood in the tray, in the studio's own words, in lower case."""
    record: int = 0
    """The id of the step; 0 for a planned one."""
    bath_id: int | None = None
    bath: Bath | None = None
    holds: frozenset[str] | None = None
    """Ids of the substances in the bath, where its formula is known."""
    kept: bool = False
    """Whether it was written down as the work went."""


@dataclass(frozen=True)
class Asked:
    """One residual test, planned or made."""

    question: Question
    when: When
    name: str
    record: int = 0


@dataclass(frozen=True)
class Load:
    """What the ledger of a bath says; whatever is not known is None.

    Silver and sheets count everything that went through before the step in
    question was over, and `awaited` sheets of a run that are still to follow;
    `earlier_uses` are those of days before.
    """

    dissolved_mg_per_l: float | None = None
    limit: SilverLimit | None = None
    sheets: int | None = None
    most_sheets: int | None = None
    earlier_uses: int | None = None
    keeps_days: int | None = None
    awaited: int = 0

    @property
    def past_silver(self) -> bool:
        """Whether its silver is past the limit that the studio chose."""
        if self.dissolved_mg_per_l is None or self.limit is None:
            return False
        return self.dissolved_mg_per_l > self.limit.mg_per_l

    @property
    def past_sheets(self) -> bool:
        """Whether more sheets went through than the studio allows."""
        if self.sheets is None or self.most_sheets is None:
            return False
        return self.sheets > self.most_sheets


@dataclass(frozen=True)
class Sequence:
    """Steps and tests in the order of work, and what they are judged against."""

    deeds: tuple[Deed, ...]
    asked: tuple[Asked, ...] = ()
    base: Base | None = None
    thin: bool = False
    """Whether the paper is known to be single weight."""
    planned: bool = False
    """Whether it is a plan: what a plan leaves out will not be done."""
    finished: bool = False
    """Whether the work is taken to be over, so that what is still missing is missing."""
    coming: tuple[Role, ...] = ()
    """What is planned to follow, where that is known."""
    next: Deed | None = None
    """The step that is about to be done, the last of the deeds."""
    passed: Mapping[Question, int] = field(default_factory=dict)
    """The tests that count for the print as it is, by their ids."""
    loads: Mapping[int, Load] = field(default_factory=dict)
    """What the ledgers say, by the ids of the baths."""

    def of(self, *roles: Role) -> tuple[Deed, ...]:
        """The steps with one of these roles."""
        return tuple(deed for deed in self.deeds if deed.role in roles)

    def earlier(self, than: Deed, roles: Collection[Role]) -> tuple[Deed, ...]:
        """The steps of these roles that are known to come before `than`."""
        return tuple(
            deed for deed in self.deeds if deed.role in roles and deed.when.before(than.when)
        )

    def later(self, than: Deed, roles: Collection[Role]) -> tuple[Deed, ...]:
        """The steps of these roles that are known to come after `than`."""
        return tuple(
            deed for deed in self.deeds if deed.role in roles and than.when.before(deed.when)
        )

    def unplaced(self, beside: Deed, roles: Collection[Role]) -> tuple[Deed, ...]:
        """The steps of these roles that may have come before or after `beside`."""
        known = (*self.earlier(beside, roles), *self.later(beside, roles), beside)
        return tuple(deed for deed in self.deeds if deed.role in roles and deed not in known)

    def since(self, these: Collection[Deed], until: Deed | None = None) -> tuple[Deed, ...]:
        """The steps that may lie after all of `these` and before `until`.

        A step whose place is not known is among them, so that nobody is told
        that it was left out.
        """
        return tuple(
            deed
            for deed in self.deeds
            if deed not in these
            and deed != until
            and not any(deed.when.before(one.when) for one in these)
            and not (until is not None and until.when.before(deed.when))
        )

    def shows_gap(self, first: Deed, second: Deed) -> bool:
        """Whether nothing on record between two steps means that nothing was done.

        It does in a plan, and where both were written down as the work went.
        """
        return self.planned or (first.kept and second.kept and first.when.beside(second.when))
