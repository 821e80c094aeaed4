"""Rules of trays in a row, and of water: Q14 to Q16, Q18 and Q19."""

from collections.abc import Iterator
from itertools import pairwise

from provenance.craft.hazards.meetings import families_in, meetings_between
from provenance.craft.hazards.tables import Hazards
from provenance.craft.sequence.deeds import Deed, Sequence
from provenance.craft.sequence.finding import Fault
from provenance.craft.sequence.texts import Rules
from provenance.craft.sequence.toning import purpose
from provenance.craft.sequence.washing import FLOWING, MINUTE_MS
from provenance.craft.solutions.needed import WATER
from provenance.model.quantity_text import format_duration, format_temperature

MEETINGS: dict[str, str] = {
    "sulfide-acid": "Q14",
    "hydroxide-ammonium": "Q15",
    "cyanoferrate-strong-acid": "Q16.strong",
    "cyanoferrate-weak-acid": "Q16.weak",
}
"""Meetings of the tables of hazards, and the cases that they are."""

WARM_TENTH_C = 250
LONG_AFTER_AID_MS = 60 * MINUTE_MS


def meeting_faults(sequence: Sequence, rules: Rules, hazards: Hazards) -> Iterator[Fault]:
    """Trays that a sheet went through one after the other without water between."""
    for first, second in _neighbours(sequence):
        met = meetings_between(
            _families(first, rules, hazards),
            _families(second, rules, hazards),
            hazards,
            "neighbours",
        )
        for case in dict.fromkeys(MEETINGS[one.id] for one, _ in met if one.id in MEETINGS):
            if case == "Q16.weak" and _reduces(sequence, first, second):
                continue
            yield Fault(
                case,
                f"no rinse between {first.name} and {second.name}",
                deeds=(first, second),
                basis="shown" if sequence.shows_gap(first, second) else "missing",
            )


def water_faults(sequence: Sequence, rules: Rules) -> Iterator[Fault]:
    """Washing that is too warm or too long, and an eliminator in place of it."""
    for deed in sequence.deeds:
        warmth = deed.temperature_tenth_c
        if deed.role == "wash" and warmth is not None and warmth > WARM_TENTH_C:
            yield Fault("Q19.warm", f"{deed.name} at {format_temperature(warmth)}", (deed,))
        if rules.says("eliminator", f"{deed.name} {deed.words}".casefold()):
            yield Fault("Q18", f"{deed.name} is a peroxide eliminator", (deed,))
        if deed.role == "washing aid":
            yield from _long_after(sequence, deed)


def _long_after(sequence: Sequence, aid: Deed) -> Iterator[Fault]:
    water: list[Deed] = []
    for deed in sequence.deeds:
        if not aid.when.before(deed.when):
            continue
        if deed.role not in FLOWING:
            break
        water.append(deed)
    time = sum(deed.most_ms or 0 for deed in water)
    if time > LONG_AFTER_AID_MS:
        what = f"{format_duration(time)} of washing after {aid.name}"
        yield Fault("Q19.long", what, (aid, *water))


def _neighbours(sequence: Sequence) -> Iterator[tuple[Deed, Deed]]:
    """Steps that are known to follow each other on one date, with nothing that may lie between."""
    for first, second in pairwise(sequence.deeds):
        if first.role in WATER or second.role in WATER or not first.when.beside(second.when):
            continue
        if first.when.before(second.when) and not sequence.since((first,), second):
            yield first, second


def _reduces(sequence: Sequence, first: Deed, second: Deed) -> bool:
    """Whether a bleach and a fixer work on a print together: reducing goes to and fro."""
    bleach = first if first.role == "bleach" else second
    return "fix" in (first.role, second.role) and purpose(sequence, bleach) == "reducing"


def _families(deed: Deed, rules: Rules, hazards: Hazards) -> frozenset[str]:
    """What is in the tray: as far as it is known, else what such a bath usually holds."""
    if deed.holds is not None:
        return families_in(deed.holds, hazards)
    families = frozenset(hazards.role.get(deed.role, ()))
    if deed.role == "fix" and rules.says("plain hypo", deed.words):
        families -= {"ammonium", "weak_acid"}
    if rules.says("not acid", deed.words):
        families -= {"weak_acid"}
    if rules.says("strong acid", deed.words):
        families |= {"strong_acid"}
    return families
