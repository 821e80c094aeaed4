"""What opening the application has to know of runs in hand."""

from provenance.records.at_hand import runs_in_hand
from provenance.records.register import Register


def paper_may_be_out(register: Register) -> bool:
    """Whether sheets in hand, as far as is on record, may not be fixed yet."""
    if not runs_in_hand(register.read):
        return False
    from provenance.studio import unfixed

    return unfixed.paper_may_be_out(register.read, register.clock())


def in_hand_text(register: Register) -> str:
    """What is said on opening while a run is in hand."""
    runs = runs_in_hand(register.read)
    if not runs:
        return ""
    from provenance.studio.run_board import run_title

    title = run_title(register.read, runs[-1])
    others = f" and {len(runs) - 1} more" if len(runs) > 1 else ""
    return f"A run is in hand: {title}{others}. The wet side takes it up where it is."
