"""What is on record about a print that another one is to match, and what is missing."""

from dataclasses import dataclass
from functools import cached_property

from provenance.craft.exposure.magnification import framing
from provenance.craft.exposure.reprint import Magnification
from provenance.craft.history import PrintHistory
from provenance.model.dates import earliest
from provenance.model.printing import Exposure
from provenance.model.readings import Reading, Wedge
from provenance.records.dossier import print_history
from provenance.records.reader import Reader, Stored

MEASURED_ERROR = 0.003
"""Relative: two lengths read to half a millimetre on 200 mm (calculated)."""
COMPUTED_ERROR = 0.01
"""Relative: easel and carrier hide a margin that sizes do not tell (common practice)."""


@dataclass(frozen=True)
class Missing:
    """Something a match would rest on, and the weaker plan that remains without it."""

    id: str
    what: str
    weaker: str

    def __str__(self) -> str:
        return f"{self.what}: {self.weaker}"


@dataclass(frozen=True)
class Reference:
    """A print with its exposure, the wedges of its paper, and its readings."""

    history: PrintHistory
    wedges: tuple[Stored[Wedge], ...]
    """On its very paper, in the order in which they were made."""
    reading: Stored[Reading] | None
    """The latest."""

    @property
    def exposure(self) -> Exposure:
        """Its exposure, as far as it is on record."""
        return self.history.printing.body.exposure or Exposure()

    @cached_property
    def wedge(self) -> Stored[Wedge] | None:
        """The latest wedge at the grade that the print was made with."""
        grade = self.exposure.grade.casefold()
        alike = [one for one in self.wedges if one.body.grade.casefold() == grade]
        return alike[-1] if alike else None

    @property
    def magnification(self) -> Magnification | None:
        """As it is on record, else of the whole frame in the image; None when neither is."""
        on_record = self.exposure.magnification_thousandth
        if on_record:
            measured = self.exposure.magnification_from == "measured"
            error = MEASURED_ERROR if measured else COMPUTED_ERROR
            return Magnification(on_record / 1000, error)
        crop = self.exposure.crop
        part = crop.size if crop is not None else self.history.negative.body.format
        if part is None:
            return None
        return Magnification(framing(part, self.history.print.body.image).whole, COMPUTED_ERROR)

    @property
    def missing(self) -> tuple[Missing, ...]:
        """What a match lacks, the gravest first."""
        exposure = self.exposure
        absent: list[tuple[str, object, str, str]] = [
            (
                "base",
                exposure.base_exposures_ms,
                "its base exposure is not on record",
                "no time can be told, only stops; begin with a strip",
            ),
            (
                "paper",
                self.history.paper,
                "its paper is not on record",
                "nothing is known of how the two papers differ; judge a wide strip",
            ),
            (
                "wedge",
                self.wedge,
                "there is no wedge of its paper at its grade",
                "the papers cannot be compared; judge a wide strip",
            ),
            (
                "tones",
                self.reading,
                "its tones were not read",
                "speeds can be compared, tones cannot; judge by eye beside the reference",
            ),
            (
                "magnification",
                exposure.magnification_thousandth,
                "its magnification was not measured",
                "it is computed from sizes"
                if self.magnification
                else "no change for size can be told",
            ),
            (
                "aperture",
                exposure.aperture_tenth,
                "its aperture is not on record",
                "the plan holds for the same aperture only",
            ),
            (
                "head",
                exposure.head,
                "the head of the enlarger is not on record",
                "it may be condenser",
            ),
            (
                "lens",
                exposure.lens,
                "its lens is not on record",
                "another lens may pass more or less",
            ),
            (
                "emergence",
                exposure.emergence_ms,
                "the developer's emergence time is not on record",
                "its activity cannot be compared",
            ),
            (
                "process",
                self.history.printing.body.process,
                "no process sheet is on record",
                "name one with --process, or work by the steps that are on record",
            ),
        ]
        return tuple(Missing(id_, what, weaker) for id_, there, what, weaker in absent if not there)


def reference_of(reader: Reader, record: int) -> Reference:
    """What is on record about the print with id `record`.  Raises NotFound."""
    history = print_history(reader, record)
    paper = history.paper
    return Reference(
        history,
        tuple(wedges_on(reader, paper.id)) if paper is not None else (),
        latest_reading(reader, record),
    )


def wedges_on(reader: Reader, paper: int) -> list[Stored[Wedge]]:
    """The wedges of a paper, in the order in which they were made."""
    found = reader.linked(paper, Wedge, "paper")
    return sorted(found, key=lambda one: (earliest(one.body.done_on), one.id))


def latest_reading(reader: Reader, record: int) -> Stored[Reading] | None:
    """The readings of a print that were taken last, of dry ones where there are any."""
    found = reader.linked(record, Reading, "print")
    order = sorted(
        found, key=lambda one: (one.body.how.state == "dry", earliest(one.body.done_on), one.id)
    )
    return order[-1] if order else None
