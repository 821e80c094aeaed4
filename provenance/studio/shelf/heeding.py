"""What to heed, said once: the strongest first, and nothing twice."""

from collections.abc import Iterable

from provenance.craft.hazards.label import Label
from provenance.craft.hazards.meetings import BY_ROLE, Met
from provenance.craft.hazards.tables import Hazards


def said_once(met: Iterable[Met]) -> tuple[str, ...]:
    """A line for each kind of meeting, dangers before cautions."""
    ranked = sorted(met, key=lambda one: one.severity != "danger")
    return tuple(dict.fromkeys(met_text(one) for one in ranked))


def neighbours_said_once(met: Iterable[Met]) -> tuple[str, ...]:
    """A line for each kind of meeting of trays in a row, with every pair that has it."""
    pairs: dict[str, dict[str, None]] = {}
    for one in sorted(met, key=lambda one: one.severity != "danger"):
        pair = f"{one.first} next to {one.second}"
        pairs.setdefault(met_text(one), {})[pair] = None
    lines = tuple(f"{', '.join(named)}: {text}" for text, named in pairs.items())
    return (*lines, f"the neighbours are {BY_ROLE}") if lines else ()


def met_text(met: Met) -> str:
    """A meeting in a line: how grave, what comes of it, what to do."""
    return f"{met.severity}: {met.meeting.effect} {met.meeting.do}"


def label_text(label: Label, hazards: Hazards) -> str:
    """``Danger: Burns skin and eyes badly (H314).``: what its label would say, by estimate.

    Empty when no code is reached and everything in it is known.
    """
    codes = [f"{hazards.statement[code].say.rstrip('.')} ({code})" for code in label.codes]
    said = f"{label.signal_word}: {'; '.join(codes)}." if codes else ""
    if codes and label.ph_at_least is not None:
        said += f" By its hydroxide above pH {hazards.burns_above_ph:g}, unless it was tested."
    if label.not_known:
        said += f" No source was consulted for {', '.join(label.not_known)}.".replace("_", " ")
    return said.strip()


def precautions_text(label: Label, hazards: Hazards) -> str:
    """``Wear gloves and eye protection (P280). …``: what its codes call for; empty without any."""
    return " ".join(
        f"{hazards.precaution[code].rstrip('.')} ({code})." for code in label.precautions
    )
