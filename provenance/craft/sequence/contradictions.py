"""What a print's record holds against what a certificate would say of it."""

from provenance.craft.history import PrintHistory
from provenance.craft.sequence.finding import Fault
from provenance.craft.sequence.reading import of_history
from provenance.craft.sequence.toning import toning_faults


def contradictions(history: PrintHistory) -> tuple[Fault, ...]:
    """The errors of bleach, toner and their washes: a statement says them, and some block it."""
    return tuple(fault for fault in toning_faults(of_history(history)) if fault.level == "E")
