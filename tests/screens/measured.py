"""A studio that has printed on two papers: wedges of both, readings, one match that failed."""

from math import exp
from pathlib import Path

from msgspec import structs

from provenance.model.negative import Negative
from provenance.model.paper import Paper
from provenance.model.printing import Burn, Exposure
from provenance.model.quantities import Point, Size
from provenance.model.readings import Reading, Wedge, WedgeStep
from provenance.studio.reprinting.matching import compare_prints, decide
from tests import studios

PLACES = {"sky": (600, 150), "wall": (200, 450), "hull": (400, 800)}


def logistic_wedge(paper: int, grade: str, centre: float, log_range: float) -> Wedge:
    """A paper of known speed and contrast: D-min 0.05, net 2.00, a tablet printed with 10 s."""
    steepness = 5.5355 * 1.10 / log_range
    steps = tuple(
        WedgeStep(
            tablet_md=place * 100,
            tones=studios.tones(
                round(50 + 2000 / (1 + exp(-steepness * (1 - place / 10 - centre))))
            ),
        )
        for place in range(31)
    )
    ends = {"unexposed": studios.tones(50), "full": studios.tones(2050)}
    return studios.wedge(paper, grade=grade, steps=steps, **ends)


def placed(reading: Reading) -> Reading:
    """The same, with where each spot lies."""
    patches = tuple(
        structs.replace(
            one,
            at=Point(across_permille=PLACES[one.spot][0], down_permille=PLACES[one.spot][1]),
        )
        for one in reading.patches
    )
    return structs.replace(reading, patches=patches)


def measured(folder: Path) -> dict[str, int]:
    """The ids of papers, prints and the negative, by code and mark."""
    with studios.new_register(folder) as register:
        with register.act(studios.WHO) as act:
            shelf = studios.furnish(act)
        negative = register.read.get(Negative, shelf.negative)
        size = Size(height_tenth_mm=560, width_tenth_mm=690)
        studios.revise(register, negative.id, format=size)
        exposure = Exposure(
            base_ms=20_000,
            grade="2",
            aperture_tenth=80,
            head="diffuse",
            lens="105 mm",
            magnification_thousandth=4_000,
            magnification_from="measured",
            burns=(Burn(area="sky", milli_stop=500), Burn(area="hull", milli_stop=-250)),
        )
        studios.revise(register, shelf.printing, exposure=exposure)
        ids = {"N-1": shelf.negative, "FB-1": shelf.paper}
        ids["FB-2"] = studios.enter(register, Paper(code="FB-2", base="fibre", surface="gloss"))
        studios.enter(register, logistic_wedge(shelf.paper, "2", -0.5, 1.10))
        studios.enter(register, logistic_wedge(ids["FB-2"], "2", -0.35, 1.10))
        studios.enter(register, logistic_wedge(ids["FB-2"], "4", -0.20, 0.70))
        for mark, wall in (("Q1", 650), ("Q2", 655), ("Q3", 720)):
            ids[mark] = studios.enter(register, studios.sheet(shelf, mark))
            tones = {"sky": 150, "wall": wall, "hull": 1600}
            studios.enter(register, placed(studios.reading(ids[mark], tones)))
        with register.act("artist") as act:
            held = compare_prints(register.read, ids["Q2"], ids["Q1"])
            decide(act, held, accepted=True, by="artist", on="2031-03-05", why="", source="notes")
    return ids
