"""A run: one stretch of work at the trays, recorded while it happens."""

from typing import ClassVar, Literal

from provenance.model.body import Body, Count, Part, Ref, Whole

RunState = Literal["in hand", "finished", "given up"]

DONE_UNCLOCKED = "it was done, and no key was pressed"
"""The reason that says of what a rule missed that it had been done."""


class Tray(Part, frozen=True, kw_only=True):
    """Which bath stands in for a planned step."""

    step: str
    bath: Ref


class Override(Part, frozen=True, kw_only=True):
    """A finding that the printer went on in spite of, and why.

    `what` is what was found, as it was told at the trays.  `why` was chosen with
    wet hands from a short list; `explained` and `done` were said after drying,
    and are empty until then.
    """

    finding: str
    step: str
    sheets: tuple[Ref, ...]
    why: str
    explained: str = ""
    what: str = ""
    done: bool = False
    """Whether what the rule missed had been done after all, and only no key was pressed."""

    @property
    def unexplained(self) -> bool:
        """Whether nothing was said of it after drying."""
        return not (self.explained or self.done)

    @property
    def says_done(self) -> bool:
        """Whether the printer said, then or later, that what the rule missed had been done."""
        return self.done or self.why == DONE_UNCLOCKED


class OwnAim(Part, frozen=True, kw_only=True):
    """A sheet's own aim in a step, where it differs from the plan's."""

    step: str
    sheet: Ref
    aim_ms: Count


class Run(Body, frozen=True, kw_only=True):
    """The plan that is followed, the sheets in hand, and the trays.

    The steps of a run are records of their own that name it; what is here does
    not change while sheets go through the trays, save for aims, overrides and
    the end.
    """

    KIND: ClassVar[str] = "run"
    FORM: ClassVar[int] = 2
    LINKS: ClassVar[dict[str, str]] = {"process": "process", "sheets": "print", "baths": "bath"}

    process: Ref
    sheets: tuple[Ref, ...]
    trays: tuple[Tray, ...] = ()
    began_on: str
    temperature_tenth_c: Whole | None = None
    aims: tuple[OwnAim, ...] = ()
    overrides: tuple[Override, ...] = ()
    state: RunState = "in hand"

    @property
    def baths(self) -> tuple[int, ...]:
        """The baths that stand in the trays."""
        return tuple(dict.fromkeys(tray.bath for tray in self.trays))

    def bath_for(self, step: str) -> int | None:
        """The bath that stands in for a planned step."""
        return next((tray.bath for tray in self.trays if tray.step == step), None)

    def aim_for(self, step: str, sheet: int) -> int | None:
        """The aim that `sheet` has of its own in a step, in ms; None where it is the plan's."""
        own = (one.aim_ms for one in self.aims if (one.step, one.sheet) == (step, sheet))
        return next(own, None)
