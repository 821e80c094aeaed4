"""What the densities of patches before and after a bleach tell, and what they do not.

The rehalogenating bleach before a toner leaves what the sulfide could not reach.
The oxidising bleach that tests a toned strip takes what no toner converted, so
what it leaves was converted (definition after Reilly, *Topics in Photographic
Preservation* 5, 1992; the test is that of ISO 18915).  Both are shares of a
density, which stands for silver only roughly, and neither says which toner took
what: selenium often raises density, and sulfide covers differently.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from provenance.errors import Problem, Refused
from provenance.model.study import BleachedPatch, BleachTest, ToningStudy

READING_ERROR_MD = 20
"""How far a density may lie off, in thousandths (P: a densitometer repeats to 0.01-0.02)."""
_LEAST_NET_MD = 5 * READING_ERROR_MD
"""A lighter patch is lost in the error of two readings."""

Saying = Literal[
    "share left unbleached",
    "out of reach of sulfide",
    "share converted, by density",
    "not the silver",
    "not each toner",
    "not the whole conversion",
    "not this print",
    "estimate",
]
"""What can be said of a study, and what cannot, by its name in the wording."""

CAN_SAY: dict[BleachTest, tuple[Saying, ...]] = {
    "toning bleach": ("share left unbleached", "out of reach of sulfide"),
    "oxidising bleach": ("share converted, by density",),
}
CANNOT_SAY: dict[BleachTest, tuple[Saying, ...]] = {
    "toning bleach": ("not the silver", "not each toner", "not the whole conversion"),
    "oxidising bleach": ("not the silver", "not each toner", "not this print"),
}


@dataclass(frozen=True)
class Share:
    """The density that a bleach left of one patch, as thousandths of what it was."""

    before_md: int
    """Net of the paper's own density."""
    after_md: int
    left_permille: int
    least_permille: int
    most_permille: int
    """The band that the error of the readings leaves, from 0 to 1000."""


@dataclass(frozen=True)
class Coverage:
    """Every patch of a study, darkest last, with what it can and cannot say.

    `too_light` are the net densities of patches that two readings cannot judge.
    """

    bleach: BleachTest
    shares: tuple[Share, ...]
    too_light: tuple[int, ...]

    @property
    def can_say(self) -> tuple[Saying, ...]:
        """What the study supports."""
        return CAN_SAY[self.bleach]

    @property
    def cannot_say(self) -> tuple[Saying, ...]:
        """What must not be read from it."""
        return CANNOT_SAY[self.bleach]


def coverage(study: ToningStudy) -> Coverage:
    """The share that the bleach of a study left of each density.

    Raises Refused, naming every patch, for one lighter than the paper itself,
    for one that grew darker in a bleach, and when no patch is dark enough.
    """
    problems = [
        Problem(what, study.code, f"patch {place}", mend)
        for place, patch in enumerate(study.patches, 1)
        for what, mend in _faults(patch, study.d_min_md)
    ]
    if problems:
        raise Refused(*problems)
    net = sorted(
        (one.before_md - study.d_min_md, one.after_md - study.d_min_md) for one in study.patches
    )
    dark = [(before, max(0, after)) for before, after in net if before >= _LEAST_NET_MD]
    if not dark:
        raise Refused(
            Problem(
                "no patch is dark enough to tell what a bleach left of it",
                study.code,
                "patches",
                f"read patches of more than {_LEAST_NET_MD / 1000:g} over the paper",
            )
        )
    return Coverage(
        study.bleach,
        tuple(_share(before, after) for before, after in dark),
        tuple(before for before, _after in net if before < _LEAST_NET_MD),
    )


def _faults(patch: BleachedPatch, d_min_md: int) -> Sequence[tuple[str, str]]:
    """What is wrong with a patch; a reading may lie off by as much as its error."""
    faults: list[tuple[str, str]] = []
    for when, density in (("before", patch.before_md), ("after", patch.after_md)):
        if density < d_min_md - READING_ERROR_MD:
            faults.append(
                (
                    f"its density {when} the bleach, {density / 1000:g}, is less than that of"
                    f" the paper, {d_min_md / 1000:g}",
                    "read the paper and the patch again, with the same filter and backing",
                )
            )
    if patch.after_md > patch.before_md + READING_ERROR_MD:
        faults.append(
            (
                f"{patch.before_md / 1000:g} before and {patch.after_md / 1000:g} after the bleach"
                " would be more than 100 %",
                "before comes first; read both again with the same filter",
            )
        )
    return faults


def _share(before_md: int, after_md: int) -> Share:
    def permille(after: int, before: int) -> int:
        return max(0, min(1000, round(1000 * after / before)))

    return Share(
        before_md,
        after_md,
        permille(after_md, before_md),
        permille(after_md - READING_ERROR_MD, before_md + READING_ERROR_MD),
        permille(after_md + READING_ERROR_MD, before_md - READING_ERROR_MD),
    )


@dataclass(frozen=True)
class Estimate:
    """What a bleach of another time is expected to leave; it never carries a claim.

    It rests on the same bath, paper and temperature, and on the bleach taking the
    same share in every equal stretch of time.
    """

    before_md: int
    left_permille: int
    says: Saying = "estimate"


def estimate_from_time(study: ToningStudy, bleached_ms: int) -> tuple[Estimate, ...]:
    """What is expected of each patch of `study` after `bleached_ms` in its bleach.

    Raises Refused when the study has no time, tests the oxidising bleach, whose
    time is not one of the process, or was made at less than half or more than
    twice the time asked for.
    """
    if study.bleach != "toning bleach" or not study.bleached_ms:
        raise Refused(
            Problem(
                "nothing can be estimated for another time from this study",
                study.code,
                "bleached",
                "use a study of the toning bleach that notes how long it acted",
            )
        )
    ratio = bleached_ms / study.bleached_ms
    if not 0.5 <= ratio <= 2:
        raise Refused(
            Problem(
                "the time is too far from the one that was studied",
                study.code,
                "bleached",
                "study this time itself, or one within half and twice of it",
            )
        )
    return tuple(
        Estimate(share.before_md, round(1000 * (share.left_permille / 1000) ** ratio))
        for share in coverage(study).shares
    )
