"""A small studio to test with: one negative, one edition, paper, baths and a printing."""

import hashlib
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import msgspec

from provenance.model.certificate import Certificate
from provenance.model.check_characters import with_check_characters
from provenance.model.chemistry import Bath, Draw, Stock
from provenance.model.custody import CustodyEvent
from provenance.model.edition import Edition
from provenance.model.finish import Finish
from provenance.model.matching import MatchReport
from provenance.model.negative import Negative
from provenance.model.paper import Paper
from provenance.model.printing import Printing, Step
from provenance.model.prints import Print, Scan, Signature
from provenance.model.proof import Test
from provenance.model.quantities import Size
from provenance.model.readings import How, Patch, Reading, Tone, Wedge, WedgeStep
from provenance.model.studio import Studio
from provenance.model.study import (
    BleachedPatch,
    SpotCalibration,
    SpotPoint,
    ToningStudy,
    WashReading,
    WashStudy,
)
from provenance.records.act import Act
from provenance.records.clock import SetClock
from provenance.records.register import Register

WHO = "printer"
IMAGE = Size(height_tenth_mm=2400, width_tenth_mm=3000)
SHEET = Size(height_tenth_mm=3050, width_tenth_mm=4060)
PRINTED_ON = "2031-03-02"
RECORD = b"{}"
"""What stands behind the certificates of the tests."""
REPORT = b"%PDF-1.7 thiosulfate 0.6"
"""What a laboratory sent."""


def clock() -> SetClock:
    """Noon of a day after everything that the studio has on record."""
    return SetClock(datetime(2031, 6, 1, 12, 0, tzinfo=UTC))


def studio(**other: Any) -> Studio:
    """The studio's own record."""
    fields = {
        "studio_id": "0123456789abcdef0123456789abcdef",
        "name": "The drying room",
        "artist": "A. Printer",
        "mark": "DR",
    }
    return Studio(**fields | other)


def new_register(folder: Path, **other: Any) -> Register:
    """The register of a new studio in `folder`, open, with nothing but the studio in it."""
    return Register.create(folder, studio(**other), clock=clock())


@dataclass
class Shelf:
    """The ids of what the small studio holds before its first print."""

    negative: int
    edition: int
    paper: int
    printing: int
    fix: int
    wash: int


def negative(**other: Any) -> Negative:
    """The negative of the slipway."""
    return Negative(**{"code": "N-1", "title": "Slipway", "made": "1998-03"} | other)


def edition(negative: int, **other: Any) -> Edition:
    """The edition of 25 with two artist's proofs."""
    fields: dict[str, Any] = {
        "negative": negative,
        "code": "QUAY",
        "name": "Quay",
        "promise": "Twenty-five prints and two artist's proofs; no others in this size.",
        "numbered": 25,
        "artist_proofs": 2,
        "image": IMAGE,
        "sheet": SHEET,
        "opened": "2031-03",
    }
    return Edition(**fields | other)


def furnish(act: Act) -> Shelf:
    """Enter what is needed before a print can be made."""
    one = act.enter(negative())
    paper = act.enter(Paper(code="FB-1", base="fibre", sheet=SHEET))
    return Shelf(
        negative=one,
        edition=act.enter(edition(one)),
        paper=paper,
        printing=act.enter(Printing(negative=one, done_on=PRINTED_ON, paper=paper)),
        fix=act.enter(Bath(code="F-1", role="fix", made_on="2031-03-01")),
        wash=act.enter(Bath(code="W-1", role="wash")),
    )


def stock(**other: Any) -> Stock:
    """A litre in a bottle, mixed the day before the printing."""
    fields = {"code": "S-1", "mixed_on": "2031-03-01", "volume_hundredth_ml": 100_000}
    return Stock(**fields | other)


def draw(stock: int, volume_hundredth_ml: int = 2_000) -> Draw:
    """20 ml from a bottle, unless said otherwise."""
    return Draw(stock=stock, volume_hundredth_ml=volume_hundredth_ml)


def bath(*drawn: Draw, **other: Any) -> Bath:
    """A litre of toner for one use, made on the day of the printing."""
    fields: dict[str, Any] = {
        "code": "B-1",
        "role": "thiourea",
        "made_on": PRINTED_ON,
        "volume_hundredth_ml": 100_000,
        "one_shot": True,
        "drawn": drawn,
    }
    return Bath(**fields | other)


def sheet(shelf: Shelf, mark: str, **other: Any) -> Print:
    """A print as it comes from the enlarger, with `mark` in pencil on its back."""
    fields: dict[str, Any] = {
        "edition": shelf.edition,
        "printing": shelf.printing,
        "mark": mark,
        "image": IMAGE,
        "sheet": SHEET,
    }
    return Print(**fields | other)


def signature(**other: Any) -> Signature:
    """The artist's own, in pencil."""
    return Signature(**{"on": "2031-03-09", "medium": "pencil", "where": "verso"} | other)


def step(shelf: Shelf, *sheets: int, **other: Any) -> Step:
    """Five minutes in the fixing bath."""
    fields: dict[str, Any] = {
        "role": "fix",
        "sheets": sheets,
        "bath": shelf.fix,
        "done_on": PRINTED_ON,
        "place": 1,
        "duration_ms": 300_000,
    }
    return Step(**fields | other)


def silver_test(*covers: int, **other: Any) -> Test:
    """A residual-silver spot that stayed clear."""
    fields: dict[str, Any] = {
        "question": "silver",
        "method": "sulfide spot",
        "specimen": "border",
        "covers": covers,
        "done_on": PRINTED_ON,
        "place": 9,
        "verdict": "passed",
    }
    return Test(**fields | other)


def finish(*prints: int, **other: Any) -> Finish:
    """Dried on screens and flattened, two days after the printing."""
    fields: dict[str, Any] = {
        "prints": prints,
        "done_on": "2031-03-04",
        "drying": "on screens",
        "flattening": "under weight",
    }
    return Finish(**fields | other)


def wash_study(paper: int, **other: Any) -> WashStudy:
    """What methylene blue found after no, five, twenty and sixty minutes."""
    found = ((0, 180_000), (5, 22_000), (20, 4_000), (60, 900))
    fields: dict[str, Any] = {
        "code": "WASH-1",
        "paper": paper,
        "done_on": PRINTED_ON,
        "method": "methylene blue",
        "readings": tuple(
            WashReading(washed_ms=minutes * 60_000, left_ng_per_cm2=left) for minutes, left in found
        ),
    }
    return WashStudy(**fields | other)


def toning_study(paper: int, **other: Any) -> ToningStudy:
    """Three patches of a strip before and after the oxidising bleach."""
    patches = ((260, 210), (860, 680), (1860, 1330))
    fields: dict[str, Any] = {
        "code": "TONE-1",
        "paper": paper,
        "done_on": PRINTED_ON,
        "bleach": "oxidising bleach",
        "d_min_md": 60,
        "patches": tuple(BleachedPatch(before_md=one, after_md=two) for one, two in patches),
    }
    return ToningStudy(**fields | other)


def spot_calibration(paper: int, **other: Any) -> SpotCalibration:
    """Four silver-nitrate spots of which a laboratory measured the thiosulfate."""
    points = ((20, 200), (60, 600), (120, 1_300), (250, 3_100))
    fields: dict[str, Any] = {
        "code": "SPOT-1",
        "paper": paper,
        "done_on": PRINTED_ON,
        "method": "silver-nitrate spot",
        "points": tuple(SpotPoint(darker_md=one, found_ng_per_cm2=two) for one, two in points),
    }
    return SpotCalibration(**fields | other)


def release(print_: int, **other: Any) -> CustodyEvent:
    """The print leaves the studio."""
    return CustodyEvent(**{"print": print_, "event": "released", "on": "2031-04-01"} | other)


def scan(print_: int, thumbnail: bytes, **other: Any) -> Scan:
    """A scan of the print, whose thumbnail has those bytes."""
    fields: dict[str, Any] = {
        "print": print_,
        "file_name": "quay.tif",
        "file_sha256": "ab" * 32,
        "width_px": 6000,
        "height_px": 4800,
        "bits": 16,
        "colour": "grey",
        "thumbnail_sha256": hashlib.sha256(thumbnail).hexdigest(),
        "thumbnail_width_px": 1200,
        "thumbnail_height_px": 960,
    }
    return Scan(**fields | other)


def certificate(register: Register, print_: int, pdf: bytes, **other: Any) -> Certificate:
    """A certificate of the print as the register stands, whose file has those bytes."""
    seq, digest = register.read.head()
    fields: dict[str, Any] = {
        "number": with_check_characters(f"DR-{print_}"),
        "revision": 1,
        "print": print_,
        "issued_at": "2031-06-01T12:00:00.000Z",
        "page": "A4",
        "language": "en",
        "statement": (),
        "record_sha256": hashlib.sha256(RECORD).hexdigest(),
        "pdf_sha256": hashlib.sha256(pdf).hexdigest(),
        "file_name": f"DR-{print_}.pdf",
        "head_seq": seq,
        "head_sha256": digest,
    }
    return Certificate(**fields | other)


def enter(register: Register, *bodies: Any) -> int:
    """Enter each body in an act of its own; the id of the last."""
    record = 0
    for body in bodies:
        with register.act(WHO) as act:
            record = act.enter(body)
    return record


def revise(register: Register, record: int, *, verb: str = "change", **fields: Any) -> int:
    """Change or correct some fields of a record in an act of its own; the new version."""
    stored = register.read.find(record)
    assert stored is not None
    body = msgspec.structs.replace(stored.body, **fields)
    with register.act(WHO) as act:
        if verb == "change":
            return act.change(record, stored.version, body)
        return act.correct(record, stored.version, body, "it was written down wrongly")


def later(register: Register, **span: int) -> None:
    """Let the studio's clock go on."""
    assert isinstance(register.clock, SetClock)
    register.clock = replace(register.clock, instant=register.clock.instant + timedelta(**span))


HOW = How(instrument="densitometer", geometry="45/0", backing="black", filter="visual", state="dry")


def tones(*densities_md: int) -> tuple[Tone, ...]:
    """Readings of one patch."""
    return tuple(Tone(density_md=one) for one in densities_md)


def wedge(paper: int, **other: Any) -> Wedge:
    """A tablet of nine steps on a paper that needs most light for black."""
    densities = (60, 90, 180, 400, 800, 1300, 1700, 1900, 2000)
    fields: dict[str, Any] = {
        "paper": paper,
        "done_on": PRINTED_ON,
        "grade": "2",
        "tablet": "T-1",
        "exposure_ms": 10_000,
        "light": "f/8, 60 cm",
        "how": HOW,
        "steps": tuple(
            WedgeStep(tablet_md=1600 - 200 * place, tones=tones(density))
            for place, density in enumerate(densities)
        ),
        "unexposed": tones(50, 50),
        "full": tones(2050),
    }
    return Wedge(**fields | other)


def reading(print_: int, spots: dict[str, int] | None = None, **other: Any) -> Reading:
    """Densities of a print at named spots, in mD."""
    read = spots or {"sky": 120, "wall": 650, "hull": 1600}
    patches = tuple(Patch(spot=spot, tones=tones(one)) for spot, one in read.items())
    fields = {"print": print_, "done_on": PRINTED_ON, "how": HOW, "patches": patches}
    return Reading(**fields | other)


def match_report(
    print_: int, reference: int, reading: int, reference_reading: int, **other: Any
) -> MatchReport:
    """A print accepted as matching another."""
    fields: dict[str, Any] = {
        "print": print_,
        "reference": reference,
        "reading": reading,
        "reference_reading": reference_reading,
        "outcome": "matches",
        "accepted": True,
        "by": "artist",
        "on": "2031-03-03",
    }
    return MatchReport(**fields | other)
