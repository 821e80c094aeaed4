"""A plan in words, part by part, as screens and the command line say it."""

from dataclasses import dataclass

from provenance.model.quantity_text import format_stops
from provenance.studio.reprinting.pictures import predicted_text, runner_up_lines
from provenance.studio.reprinting.plan import ReprintPlan


@dataclass(frozen=True)
class Said:
    """One line: what it is about, what it says, more in small."""

    about: str
    text: str
    more: str = ""


def exposure_said(plan: ReprintPlan) -> list[Said]:
    """Base, grade, areas and strip."""
    new, found = plan.exposure, []
    if new is None:
        found.append(Said("base", "not on record; begin with a strip"))
    else:
        found.append(
            Said(
                "base",
                f"{new.seconds:.1f} s, {new.low_s:.1f} to {new.high_s:.1f} s",
                f"paper {new.paper_stops:+.2f}, size {new.magnification_stops:+.2f},"
                f" aperture {new.aperture_stops:+.2f} stop",
            )
        )
    found.append(Said("grade", plan.change.grade or "as it was", plan.change.basis))
    found += [Said("next best", told) for told in runner_up_lines(plan)]
    if len(plan.parts_s) > 1:
        found += [Said(f"at {one}", f"{seconds:.1f} s") for one, seconds in plan.parts_s.items()]
    for area in plan.areas:
        for one in area.changes:
            at = f" at {one.grade}" if one.grade else ""
            done = "burn" if one.seconds > 0 else "dodge"
            stops = format_stops(round(1000 * one.stops))
            found.append(Said(done, f"{area.area}: {abs(one.seconds):.1f} s ({stops}){at}"))
    if plan.strip is not None:
        times = ", ".join(f"{one.total_s:.1f}" for one in plan.strip.patches)
        found.append(Said("strip", f"{times} s"))
    return found


def targets_said(plan: ReprintPlan) -> list[Said]:
    """The density that each spot is to have."""
    return [
        Said(
            aim.spot,
            f"{aim.density:.2f} ± {aim.tolerance:.2f}"
            + (f", predicted {predicted_text(aim.predicted)}" if aim.predicted else ""),
        )
        for aim in plan.aims
    ]


def trays_said(plan: ReprintPlan) -> list[Said]:
    """The trays in order, with what is not as it was; then what the plan leaves out."""
    session = plan.session
    if session is None:
        return []
    found = [
        Said(
            one.name,
            " ".join(filter(None, (one.contents, one.aim))),
            "; ".join(map(str, one.differences)),
        )
        for one in session.trays
    ]
    return found + [Said("left out", one) for one in session.left_out]


def mixes_said(plan: ReprintPlan) -> list[Said]:
    """What to mix of what is on the shelf."""
    mixes = plan.session.mixes if plan.session is not None else ()
    found = [Said(one.step, one.text, "; ".join(one.told)) for one in mixes]
    assumed = dict.fromkeys(one.assumption for one in mixes)
    return found + [Said("assumed", one) for one in assumed if one]
