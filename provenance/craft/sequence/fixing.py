"""Rules of fixing, its baths and the wash after it: Q1, Q8 to Q13, Q20."""

from collections.abc import Iterator

from provenance.craft.fixing import WORKING_FIXER_DAYS
from provenance.craft.sequence.deeds import Deed, Load, Sequence
from provenance.craft.sequence.finding import Fault
from provenance.craft.sequence.texts import Rules
from provenance.craft.sequence.toning import purpose
from provenance.craft.sequence.washing import FLOWING, MINUTE_MS, is_full, said
from provenance.model.chemistry import TONERS, Bath
from provenance.model.dates import earliest, latest
from provenance.model.quantity_text import format_duration

RESIN_FIX_MS = 2 * MINUTE_MS


def fixing_faults(sequence: Sequence, rules: Rules) -> Iterator[Fault]:
    """What the rules of fixing find."""
    if sequence.finished:
        yield from _not_on_record(sequence)
        yield from _wash_after_fix(sequence, rules)
    if sequence.base == "resin-coated":
        yield from _resin_coated(sequence)
    yield from _fresher_second(sequence)
    yield from _baths(sequence)


def _not_on_record(sequence: Sequence) -> Iterator[Fault]:
    """What a claim needs and nobody wrote down; a plan for finished prints begins later."""
    fixes, begun = sequence.of("fix"), bool(sequence.of("develop"))
    lacking = []
    if not begun and not sequence.planned:
        lacking.append("developer")
    if (begun or not sequence.planned) and not _stopped(sequence, fixes):
        lacking.append("stop or rinse before the fix")
    if not fixes and (begun or not sequence.planned):
        lacking.append("fix")
    if (fixes or begun or not sequence.planned) and not _washed(sequence, fixes):
        lacking.append("wash after the fix")
    if lacking:
        yield Fault(
            "Q1",
            f"{'not in the plan' if sequence.planned else 'not on record'}: {', '.join(lacking)}",
            basis="shown" if sequence.planned else "missing",
        )


def _stopped(sequence: Sequence, fixes: tuple[Deed, ...]) -> bool:
    return any(
        not fixes or not fixes[0].when.before(stop.when) for stop in sequence.of("stop", "rinse")
    )


def _washed(sequence: Sequence, fixes: tuple[Deed, ...]) -> bool:
    return any(deed.role == "wash" for deed in sequence.since(fixes))


def _wash_after_fix(sequence: Sequence, rules: Rules) -> Iterator[Fault]:
    fixes = sequence.of("fix")
    if not fixes or any(deed.role in TONERS for deed in sequence.since(fixes)):
        return
    between = sequence.since(fixes)
    held = tuple(deed for deed in between if deed.role in FLOWING or deed.role == "washing aid")
    if not held or is_full(sequence, between) is not False:
        return
    if sequence.base == "resin-coated":
        case = "Q9.wash"
    elif sequence.base == "fibre" and not rules.says("plain hypo", fixes[-1].words):
        case = "Q8"
    else:
        return
    yield Fault(
        case,
        f"{said(held)} after {fixes[-1].name}",
        deeds=(fixes[-1], *held),
        answered_by=sequence.passed.get("thiosulfate"),
    )


def _resin_coated(sequence: Sequence) -> Iterator[Fault]:
    fixes = sequence.of("fix")
    time = sum(deed.most_ms or 0 for deed in fixes)
    if time > RESIN_FIX_MS:
        yield Fault("Q9.fix", f"{format_duration(time)} of fixing in all", deeds=fixes)
    for bleach in sequence.of("bleach"):
        if purpose(sequence, bleach) == "toning":
            yield Fault("Q9.toning", f"{bleach.name} on resin-coated paper", deeds=(bleach,))


def _fresher_second(sequence: Sequence) -> Iterator[Fault]:
    for second in sequence.of("fix"):
        before = sequence.earlier(second, {"fix"})
        if not before:
            continue
        first = before[-1]
        apart = any(
            deed.role in FLOWING or deed.role in TONERS for deed in sequence.since((first,), second)
        )
        if not apart and (why := _staler(sequence, first, second)):
            yield Fault("Q11", f"{second.name} is the {why}", deeds=(first, second))


def _staler(sequence: Sequence, first: Deed, second: Deed) -> str:
    """In what the second bath is behind the first; empty when it is not known to be."""
    if None in (first.bath_id, second.bath_id) or first.bath_id == second.bath_id:
        return ""
    silver = [_load(sequence, deed).dissolved_mg_per_l for deed in (first, second)]
    if silver[0] is not None and silver[1] is not None:
        return "more loaded of the two" if silver[1] > silver[0] else ""
    made = [deed.bath.made_on if deed.bath else None for deed in (first, second)]
    if made[0] is not None and made[1] is not None and latest(made[1]) < earliest(made[0]):
        return "older of the two"
    return ""


def _load(sequence: Sequence, deed: Deed) -> Load:
    return sequence.loads.get(deed.bath_id, Load()) if deed.bath_id is not None else Load()


def _baths(sequence: Sequence) -> Iterator[Fault]:
    used: set[int] = set()
    for deed in sequence.deeds:
        if deed.bath is None or deed.bath_id is None:
            continue
        code, load = deed.bath.code, _load(sequence, deed)
        if load.past_silver and load.limit is not None:
            held = f"{(load.dissolved_mg_per_l or 0) / 1000:.2g} g/L{_with(load.awaited)}"
            limit = f"{load.limit.mg_per_l / 1000:g} g/L for {load.limit.meaning}"
            yield Fault("Q10.silver", f"{code} is estimated to hold {held}; limit {limit}", (deed,))
        if load.past_sheets:
            through = f"{load.sheets} sheets through {code}{_with(load.awaited)}"
            what = f"{through}; limit {load.most_sheets}"
            yield Fault("Q10.sheets", what, (deed,))
        if deed.role == "fix" and deed.bath.film_used and not _both_passed(sequence):
            yield Fault("Q12", f"{code} was used for film", (deed,))
        if deed.role == "fix" and deed.bath.hardening:
            yield Fault("Q13", f"{code} is a hardening fixer", (deed,))
        if deed.bath.one_shot and (deed.bath_id in used or (load.earlier_uses or 0) > 0):
            yield Fault("Q20.once", f"{code} is for one use, and was used before", (deed,))
        used.add(deed.bath_id)
        yield from _too_old(deed, deed.bath, load)


def _with(awaited: int) -> str:
    """Which sheets are counted though they have not been through yet."""
    return f" with the {awaited} sheets still to go in" if awaited > 1 else ""


def _both_passed(sequence: Sequence) -> bool:
    return {"silver", "thiosulfate"} <= sequence.passed.keys()


def _too_old(deed: Deed, bath: Bath, load: Load) -> Iterator[Fault]:
    keeps = load.keeps_days
    if keeps is None and deed.role == "fix":
        keeps = WORKING_FIXER_DAYS
    if keeps is None or bath.made_on is None:
        return
    age = (deed.when.first - latest(bath.made_on)).days
    if age > keeps:
        yield Fault("Q20.age", f"{bath.code} was {age} days old; it keeps {keeps}", (deed,))
