"""How the new paper differs from the old one: by their wedges, as far as there are any."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import hypot

from provenance.craft.caution import Caution
from provenance.craft.sensitometry.choice import Candidate, ranked
from provenance.craft.sensitometry.curve import Curve
from provenance.craft.sensitometry.matching import Target
from provenance.craft.sensitometry.paper_range import (
    SPEED_POINT,
    paper_range,
    slower_by,
)
from provenance.craft.sensitometry.wedges import (
    comparison_cautions,
    curve_of,
    targets_of,
    wedge_cautions,
)
from provenance.errors import Problem, Refused
from provenance.model.paper import Paper
from provenance.model.readings import Wedge
from provenance.records.reader import Stored
from provenance.studio.reprinting.reference import Reference


@dataclass(frozen=True)
class Question:
    """Something that nobody has answered yet.  `words` are what its wording names."""

    id: str
    text: str
    words: Mapping[str, str] = field(default_factory=dict)

    def __str__(self) -> str:
        return self.text


UNKNOWN_ERROR = 0.15
"""Standard error in log H where nothing is known of the papers: the band is then one
stop to either side (common practice: papers of a kind are seldom further apart)."""


@dataclass(frozen=True)
class PaperChange:
    """The change of exposure for the paper, the grade to take, and on what that rests."""

    delta_log_h: float
    error_log_h: float
    grade: str
    basis: str
    old: Curve | None = None
    new: Curve | None = None
    candidates: tuple[Candidate, ...] = ()
    """Best first; the first is the one that was taken."""
    targets: tuple[Target, ...] = ()
    cautions: tuple[Caution, ...] = ()
    questions: tuple[Question, ...] = ()


def paper_change(
    reference: Reference, paper: Stored[Paper], wedges: list[Stored[Wedge]], grade: str | None
) -> PaperChange:
    """How to expose `paper` in place of the reference's, at `grade` or at the best one.

    Raises Refused for a grade of which there is no wedge, where there are others.
    """
    targets = targets_of(reference.reading.body.patches) if reference.reading else ()
    old_grade = reference.exposure.grade
    old_paper = reference.history.paper
    latest = {one.body.grade: one for one in wedges}
    if grade is not None and latest and grade.casefold() not in map(str.casefold, latest):
        raise Refused(
            Problem(
                what=f"there is no wedge of {paper.body.code} at {grade}",
                record=paper.body.code,
                field="grade",
                mend=f"there are wedges at: {', '.join(latest)}; leave --grade out to choose",
            )
        )
    if grade is not None:
        latest = {one: wedge for one, wedge in latest.items() if one.casefold() == grade.casefold()}
    same = old_paper is not None and old_paper.id == paper.id
    if same and (grade or old_grade).casefold() == old_grade.casefold():
        return PaperChange(
            0.0,
            0.0,
            old_grade,
            "the same batch of paper at the same grade: nothing changes for it",
            targets=targets,
            questions=(
                Question(
                    "aged",
                    f"is {paper.body.code} as fast as it was? paper ages; the strip tells",
                    {"paper": paper.body.code},
                ),
            ),
        )
    if reference.wedge is None or not latest:
        lacking = paper if reference.wedge is not None or old_paper is None else old_paper
        whose = lacking.body.code
        return PaperChange(
            0.0,
            UNKNOWN_ERROR,
            grade or old_grade,
            "no wedges to compare the papers by: no change is reckoned, and a stop either way",
            targets=targets,
            questions=(
                Question(
                    "tablet",
                    f"print the tablet on {whose} at its grade, and read it",
                    {"paper": whose},
                ),
            ),
        )
    return _compared(reference.wedge, latest, targets, old_grade)


def _compared(
    old_wedge: Stored[Wedge],
    latest: dict[str, Stored[Wedge]],
    targets: tuple[Target, ...],
    old_grade: str,
) -> PaperChange:
    old = curve_of(old_wedge.body)
    curves = {name: curve_of(wedge.body) for name, wedge in latest.items()}
    reached = any(old.reads(one.density) for one in targets)
    if targets and reached:
        order = ranked(old, curves, targets)
        best = order[0]
        delta, error, name = best.match.delta_log_h, best.match.error, best.name
        basis = "by the print's own tones on both papers"
        cautions = best.match.cautions
    else:
        order = ()
        name = _nearest(old, curves, old_grade)
        delta = slower_by(old, curves[name])
        error = hypot(*(one.error_at(one.d_min + SPEED_POINT) for one in (old, curves[name])))
        basis = "by the speeds of both papers alone, since no tone of the print was read"
        cautions = ()
    new_wedge = latest[name].body
    return PaperChange(
        delta,
        error,
        name,
        basis,
        old,
        curves[name],
        order,
        targets,
        (
            *cautions,
            *wedge_cautions(old_wedge.body, old),
            *wedge_cautions(new_wedge, curves[name]),
            *comparison_cautions(old_wedge.body, new_wedge),
        ),
    )


def _nearest(old: Curve, curves: dict[str, Curve], old_grade: str) -> str:
    """The grade whose range is nearest; the one of the same name where none can be told."""
    found: dict[str, float] = {}
    for name, curve in curves.items():
        try:
            found[name] = abs(paper_range(curve).log_h - paper_range(old).log_h)
        except Refused:
            continue
    if found:
        return min(found, key=lambda name: found[name])
    return old_grade if old_grade in curves else next(iter(curves))
