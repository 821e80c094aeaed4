"""Rules of bleach and toner: Q2 to Q7."""

from collections.abc import Iterator
from typing import Literal

from provenance.craft.sequence.deeds import Deed, Sequence
from provenance.craft.sequence.finding import Fault
from provenance.craft.sequence.washing import MINUTE_MS, RESIN_MS, is_full, said, washed_for
from provenance.craft.solutions.needed import WATER
from provenance.model.chemistry import TONERS, Role

SELENIUM_WASH_MS = 10 * MINUTE_MS
SULFIDE_WASH_MS = 30 * MINUTE_MS

_FIX: frozenset[Role] = frozenset({"fix"})
_BLEACH: frozenset[Role] = frozenset({"bleach"})
_INDIRECT: frozenset[Role] = frozenset({"sulfide", "thiourea"})
_ENDS: frozenset[Role] = TONERS | {"develop", "fix"}
"""What a bleach is followed by, once it is known what it was for."""


def toning_faults(sequence: Sequence) -> Iterator[Fault]:
    """What the rules of bleach and toner find."""
    yield from _bleach_unwashed(sequence)
    yield from _selenium_unwashed(sequence)
    yield from _sulfide_unwashed(sequence)
    yield from _bleach_unrinsed(sequence)
    yield from _selenium_first(sequence)
    if sequence.finished:
        yield from _left_bleached(sequence)
        yield from _unwashed_after(sequence)


def purpose(sequence: Sequence, bleach: Deed) -> Literal["toning", "reducing", "not known"]:
    """What a bleach is for: what follows it tells, a fix that it reduces the print.

    The step about to be done is taken to be for toning unless a fix is planned
    to follow, since that is the bleach that an unwashed print cannot bear.
    """
    if sequence.unplaced(bleach, _ENDS):
        return "not known"
    after = [deed.role for deed in sequence.later(bleach, _ENDS)]
    after += [role for role in sequence.coming if role in _ENDS]
    if not after:
        return "toning" if bleach == sequence.next else "not known"
    return "reducing" if after[0] == "fix" else "toning"


def _bleach_unwashed(sequence: Sequence) -> Iterator[Fault]:
    for bleach in sequence.of("bleach"):
        fixes = sequence.earlier(bleach, _FIX)
        if not fixes or purpose(sequence, bleach) != "toning":
            continue
        between = sequence.since(fixes, bleach)
        if is_full(sequence, between) is not False:
            continue
        yield _too_little(
            sequence, "Q2", fixes[-1], bleach, between, "{said} between {first} and {second}"
        )


def _selenium_unwashed(sequence: Sequence) -> Iterator[Fault]:
    for selenium in sequence.of("selenium"):
        fixes = sequence.earlier(selenium, _FIX)
        if not fixes or _from_second_fix(sequence, fixes):
            continue
        between = sequence.since(fixes, selenium)
        if washed_for(sequence, between, _least(sequence, SELENIUM_WASH_MS)) is False:
            yield _too_little(
                sequence, "Q3.selenium", fixes[-1], selenium, between, "{said} before {second}"
            )


def _from_second_fix(sequence: Sequence, fixes: tuple[Deed, ...]) -> bool:
    """Whether the last fix was a second bath that nothing on record calls spent."""
    if len(fixes) < 2:
        return False
    first, second = fixes[-2:]
    if first.bath_id is not None and first.bath_id == second.bath_id:
        return False
    load = sequence.loads.get(second.bath_id) if second.bath_id is not None else None
    return load is None or not (load.past_silver or load.past_sheets)


def _sulfide_unwashed(sequence: Sequence) -> Iterator[Fault]:
    for sulfide in sequence.of("sulfide"):
        fixes = sequence.earlier(sulfide, _FIX)
        direct = not (sequence.earlier(sulfide, _BLEACH) or sequence.unplaced(sulfide, _BLEACH))
        if not fixes or not direct:
            continue
        between = sequence.since(fixes, sulfide)
        if washed_for(sequence, between, _least(sequence, SULFIDE_WASH_MS)) is False:
            yield _too_little(
                sequence, "Q3.sulfide", fixes[-1], sulfide, between, "{said} before {second}"
            )


def _least(sequence: Sequence, time_ms: int) -> int:
    """The wash asked for; on a paper that holds no fixer in its base, its own full wash."""
    return time_ms if sequence.base == "fibre" else RESIN_MS


def _too_little(
    sequence: Sequence,
    case: str,
    first: Deed,
    second: Deed,
    between: tuple[Deed, ...],
    what: str,
) -> Fault:
    held = tuple(deed for deed in between if deed.role in WATER or deed.role == "washing aid")
    shown = bool(held) or sequence.shows_gap(first, second)
    told = said(held) if held or sequence.planned else "no wash on record"
    return Fault(
        case,
        what.format(said=told, first=first.name, second=second.name),
        deeds=(first, *held, second),
        basis="shown" if shown else "missing",
    )


def _bleach_unrinsed(sequence: Sequence) -> Iterator[Fault]:
    for toner in sequence.of(*_INDIRECT):
        before = sequence.earlier(toner, _ENDS | _BLEACH)
        if not before or before[-1].role != "bleach":
            continue
        bleach = before[-1]
        if not any(deed.role in WATER for deed in sequence.since((bleach,), toner)):
            yield Fault(
                "Q4",
                f"no rinse between {bleach.name} and {toner.name}",
                deeds=(bleach, toner),
                basis="shown" if sequence.shows_gap(bleach, toner) else "missing",
            )


def _left_bleached(sequence: Sequence) -> Iterator[Fault]:
    for bleach in sequence.of("bleach"):
        if sequence.later(bleach, _ENDS) or sequence.unplaced(bleach, _ENDS):
            continue
        ended = "" if sequence.planned else " on record"
        yield Fault(
            "Q5",
            f"no developer, toner or fix{ended} after {bleach.name}",
            deeds=(bleach,),
            basis="shown" if sequence.planned or bleach.kept else "missing",
        )


def _selenium_first(sequence: Sequence) -> Iterator[Fault]:
    for selenium in sequence.of("selenium"):
        for bleach in sequence.later(selenium, _BLEACH):
            toned = sequence.later(bleach, _INDIRECT)
            if toned:
                yield Fault(
                    "Q6",
                    f"{selenium.name} before {bleach.name} and {toned[0].name}",
                    deeds=(selenium, bleach, toned[0]),
                )
                return


def _unwashed_after(sequence: Sequence) -> Iterator[Fault]:
    toned = sequence.of(*TONERS)
    if not toned:
        return
    between = sequence.since((*toned, *sequence.of("fix")))
    if is_full(sequence, between) is not False:
        return
    held = tuple(deed for deed in between if deed.role in WATER or deed.role == "washing aid")
    told = said(held) if held or sequence.planned else "no wash on record"
    yield Fault(
        "Q7.wash",
        f"{told} after {toned[-1].name}",
        deeds=(toned[-1], *held),
        basis="shown" if held or sequence.planned else "missing",
        answered_by=sequence.passed.get("thiosulfate"),
    )
