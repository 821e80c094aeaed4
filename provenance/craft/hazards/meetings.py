"""Dangerous meetings: in one mix, and between trays that a sheet goes through in a row."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from itertools import combinations, pairwise
from typing import Literal

from provenance.craft.hazards.tables import ANYTHING, Caution, Hazards, Meeting, Severity, Waste
from provenance.craft.solutions.needed import WATER
from provenance.model.process import PlannedStep, ProcessSheet

Where = Literal["mixed", "neighbours"]

BY_ROLE = "judged by what such a bath usually holds; its own formula was not looked at"


@dataclass(frozen=True)
class Met:
    """A meeting that happens, between two things named."""

    first: str
    second: str
    meeting: Meeting
    severity: Severity


def meetings_between(
    first: Collection[str], second: Collection[str], hazards: Hazards, where: Where
) -> tuple[tuple[Meeting, Severity], ...]:
    """The meetings of two sets of families."""
    return tuple(
        (meeting, severity)
        for meeting in hazards.meeting
        if (severity := _severity(meeting, where)) is not None
        and (_meets(meeting, first, second) or _meets(meeting, second, first))
    )


def meetings_in_mix(substance_ids: Collection[str], hazards: Hazards) -> tuple[Met, ...]:
    """What can happen when these substances are poured together."""
    return tuple(
        Met(first, second, meeting, severity)
        for first, second in combinations(dict.fromkeys(substance_ids), 2)
        for meeting, severity in meetings_between(
            hazards.families_of(first), hazards.families_of(second), hazards, "mixed"
        )
    )


def meetings_in_process(
    process: ProcessSheet,
    hazards: Hazards,
    contents: Mapping[str, Collection[str]] | None = None,
) -> tuple[Met, ...]:
    """Neighbours in a plan that have no rinse or wash between them.

    `contents` gives, for steps by name, the ids of what their baths hold; other
    steps are judged by their role (`BY_ROLE`).  Tests keep nothing apart.
    """
    known = contents or {}
    wet = [step for step in process.steps if step.role is not None]
    return tuple(
        Met(first.name, second.name, meeting, severity)
        for first, second in pairwise(wet)
        if first.role not in WATER and second.role not in WATER
        for meeting, severity in meetings_between(
            _families(first, known, hazards),
            _families(second, known, hazards),
            hazards,
            "neighbours",
        )
    )


def cautions_for(families: Collection[str], hazards: Hazards) -> tuple[Caution, ...]:
    """What these families call for by themselves, each once."""
    return tuple(one for one in hazards.caution if set(families) & set(one.families))


def wastes_for(families: Collection[str], hazards: Hazards) -> tuple[Waste, ...]:
    """What is collected by itself; local rules decide."""
    return tuple(one for one in hazards.waste if set(families) & set(one.families))


def keep_from(families: Collection[str], hazards: Hazards) -> tuple[str, ...]:
    """For a label: the names of what must not come near, in the order of the tables."""
    others: dict[str, None] = {}
    for meeting in hazards.meeting:
        if meeting.mixed != "danger":
            continue
        if set(families) & set(meeting.one):
            others |= dict.fromkeys(meeting.other)
        if ANYTHING not in meeting.other and set(families) & set(meeting.other):
            others |= dict.fromkeys(meeting.one)
    return tuple(
        "anything else" if name == ANYTHING else hazards.family[name].name for name in others
    )


def families_in(substance_ids: Collection[str], hazards: Hazards) -> frozenset[str]:
    """The families of everything in a bath."""
    return frozenset(name for one in substance_ids for name in hazards.families_of(one))


def _severity(meeting: Meeting, where: Where) -> Severity | None:
    return meeting.mixed if where == "mixed" else meeting.neighbours


def _meets(meeting: Meeting, first: Collection[str], second: Collection[str]) -> bool:
    return bool(set(meeting.one) & set(first)) and (
        ANYTHING in meeting.other or bool(set(meeting.other) & set(second))
    )


def _families(
    step: PlannedStep, known: Mapping[str, Collection[str]], hazards: Hazards
) -> frozenset[str]:
    if step.name in known:
        return families_in(known[step.name], hazards)
    return frozenset(hazards.role.get(step.role, ())) if step.role else frozenset()
