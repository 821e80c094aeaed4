"""What an instrument read: tones of a print at named spots, and of a step tablet's print.

Densities are thousandths of a density unit (mD), CIE Lab values hundredths.
"""

from typing import Annotated, ClassVar, Literal

import msgspec

from provenance.errors import Problem, Refused
from provenance.model.body import Body, Count, Part, Ref
from provenance.model.evidence import Source
from provenance.model.quantities import Point

Geometry = Literal["45/0", "0/45", "diffuse", "not known"]
Backing = Literal["white", "black", "not known"]
State = Literal["dry", "wet"]
Measure = Literal["density", "Lab"]

DensityMd = Annotated[int, msgspec.Meta(ge=-500, le=6000)]
"""A density in mD.  A little below nought is a reading against a white that is duller."""
LightnessHundredth = Annotated[int, msgspec.Meta(ge=0, le=10_500)]
ChromaHundredth = Annotated[int, msgspec.Meta(ge=-15_000, le=15_000)]


class How(Part, frozen=True, kw_only=True):
    """How readings were taken; two sets compare only as far as these agree."""

    instrument: str = ""
    """In the studio's own words."""
    geometry: Geometry = "not known"
    backing: Backing = "not known"
    filter: str = ""
    """Visual, or the illuminant and observer of the Lab values."""
    state: State = "dry"


class Lab(Part, frozen=True, kw_only=True):
    """A colour in CIE Lab for D50, in hundredths."""

    lightness_hundredth: LightnessHundredth
    a_hundredth: ChromaHundredth = 0
    b_hundredth: ChromaHundredth = 0


class Tone(Part, frozen=True, kw_only=True):
    """One reading: a density or a colour, as the instrument gave it, never both.

    Raises Refused otherwise.
    """

    density_md: DensityMd | None = None
    lab: Lab | None = None

    def __post_init__(self) -> None:
        if (self.density_md is None) == (self.lab is None):
            raise Refused(
                Problem(
                    what="a reading is either a density or a Lab colour",
                    field="density_md",
                    mend="give the one that the instrument showed; the other is calculated",
                )
            )

    @property
    def measure(self) -> Measure:
        """Which of the two it is."""
        return "Lab" if self.density_md is None else "density"


class Patch(Part, frozen=True, kw_only=True):
    """A named spot of a print, read once or several times.  Raises Refused without a reading."""

    spot: str
    tones: tuple[Tone, ...]
    at: Point | None = None
    """Where on the image it was read."""

    def __post_init__(self) -> None:
        if not self.tones:
            raise Refused(
                Problem(
                    what=f"“{self.spot}” has no reading",
                    field="patches",
                    mend="read it, or leave the spot out",
                )
            )


class Reading(Body, frozen=True, kw_only=True):
    """Readings of one print on one day (EDTF); each spot once.  Raises Refused otherwise."""

    KIND: ClassVar[str] = "reading"
    LINKS: ClassVar[dict[str, str]] = {"print": "print"}

    print: Ref
    done_on: str
    how: How
    patches: tuple[Patch, ...]
    source: Source = "notes"
    note: str = ""

    def __post_init__(self) -> None:
        spots = [patch.spot for patch in self.patches]
        for spot in spots:
            if spots.count(spot) > 1:
                raise Refused(
                    Problem(
                        what=f"“{spot}” is there twice",
                        field="patches",
                        mend="give both readings to one spot, or another name to one of them",
                    )
                )


class WedgeStep(Part, frozen=True, kw_only=True):
    """One step: the density of the tablet there, and what the paper gave under it."""

    tablet_md: DensityMd
    tones: tuple[Tone, ...]


class Wedge(Body, frozen=True, kw_only=True):
    """A step tablet printed on a paper at a grade, and its readings.

    `tablet` names the very piece of film: two papers compare through one tablet.
    `light` says in words what the light at the easel was (aperture, height,
    lamp); the time is kept apart, so that wedges of different times compare.
    `unexposed` gives D-min, `full` (exposed far past the shoulder) D-max.
    """

    KIND: ClassVar[str] = "wedge"
    LINKS: ClassVar[dict[str, str]] = {"paper": "paper"}

    paper: Ref
    done_on: str
    grade: str = ""
    tablet: str
    exposure_ms: Count
    light: str = ""
    developer: str = ""
    how: How
    steps: tuple[WedgeStep, ...]
    unexposed: tuple[Tone, ...]
    full: tuple[Tone, ...]
    source: Source = "notes"
    note: str = ""
