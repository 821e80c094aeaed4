"""Histories of one print, built in a line: what was done, in the order of the work."""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

from provenance.craft.history import Fact, PrintHistory, work_order
from provenance.model.chemistry import Bath, Role
from provenance.model.dates import earliest
from provenance.model.edition import Edition
from provenance.model.negative import Negative
from provenance.model.paper import Paper
from provenance.model.printing import Printing, Step
from provenance.model.prints import Print, Scan, Signature
from provenance.model.process import Question
from provenance.model.proof import Method, Test
from provenance.model.quantities import Size
from provenance.model.studio import Studio

DAY = "2031-03-02"
NEXT_DAY = "2031-03-03"
PRINT, OTHER = 10, 11
NEGATIVE, EDITION, PRINTING, PAPER = 2, 3, 4, 5
FIX_A, FIX_B, FIX_C = 21, 22, 23
SIZE = Size(height_tenth_mm=2400, width_tenth_mm=3000)
MINUTE = 60_000

_METHODS: dict[Question, Method] = {"silver": "sulfide spot", "thiosulfate": "silver-nitrate spot"}


def did(role: Role, **fields: Any) -> Step:
    """Five minutes in a bath, or an hour of washing, with this print alone."""
    time = 60 * MINUTE if role == "wash" else 5 * MINUTE
    given = {"sheets": (PRINT,), "done_on": DAY, "place": 0, "duration_ms": time}
    return Step(role=role, **given | fields)


def fixed(bath: int | None = FIX_A, **fields: Any) -> Step:
    """Five minutes in a fixing bath."""
    return did("fix", bath=bath, **fields)


def asked(question: Question, verdict: str = "passed", **fields: Any) -> Test:
    """A spot on this print's border that was read in time."""
    given: dict[str, Any] = {
        "method": _METHODS[question],
        "specimen": "border",
        "covers": (PRINT,),
        "done_on": DAY,
        "place": 0,
        "contact_ms": 2 * MINUTE,
        "read_ms": 3 * MINUTE,
        "reading": "no stain",
    }
    return Test(question=question, verdict=verdict, **given | fields)


def entered(body: Step | Test, on: str, source: str = "notes") -> Fact[Any]:
    """`body` as it was entered on a day of its own."""
    fields = {name: getattr(body, name) for name in body.__struct_fields__} | {"source": source}
    return Fact(0, 0, type(body)(**fields), date.fromisoformat(on))


def history(*work: Step | Test | Fact[Any], **other: Any) -> PrintHistory:
    """A print that went through `work`, in that order; entered the same day unless said."""
    steps: list[Fact[Step]] = []
    tests: list[Fact[Test]] = []
    for place, one in enumerate(work, 1):
        given = one if isinstance(one, Fact) else Fact(0, 0, one, earliest(one.done_on))
        fields = {name: getattr(given.body, name) for name in given.body.__struct_fields__}
        body = type(given.body)(**fields | {"place": given.body.place or place})
        placed = replace(given, id=100 + place, version=200 + place, body=body)
        (steps if isinstance(body, Step) else tests).append(placed)
    parts: dict[str, Any] = {
        "studio": _fact(1, Studio(studio_id="ab" * 16, name="Studio", artist="A", mark="ST")),
        "print": _fact(PRINT, a_print()),
        "edition": _fact(EDITION, an_edition()),
        "negative": _fact(NEGATIVE, Negative(code="N-1", title="Slipway")),
        "printing": _fact(PRINTING, Printing(negative=NEGATIVE, done_on=DAY, paper=PAPER)),
        "paper": _fact(PAPER, Paper(code="FB", base="fibre", weight="double weight")),
        "baths": tuple(
            _fact(bath, Bath(code=f"F-{bath}", role="fix")) for bath in (FIX_A, FIX_B, FIX_C)
        ),
        "steps": tuple(sorted(steps, key=work_order)),
        "tests": tuple(sorted(tests, key=work_order)),
        "scans": (_fact(90, a_scan()),),
        "signature_entered_on": date.fromisoformat(DAY),
    }
    return PrintHistory(**parts | other)


def a_print(**other: Any) -> Print:
    """A print that is numbered and signed."""
    fields: dict[str, Any] = {
        "edition": EDITION,
        "printing": PRINTING,
        "mark": "Q7",
        "image": SIZE,
        "sheet": SIZE,
        "designation": "7/25",
        "signature": Signature(on=DAY),
    }
    return Print(**fields | other)


def an_edition() -> Edition:
    """An edition of 25."""
    return Edition(
        negative=NEGATIVE,
        code="QUAY",
        name="Quay",
        promise="Twenty-five prints.",
        numbered=25,
        image=SIZE,
        sheet=SIZE,
    )


def a_scan() -> Scan:
    """A scan of the print."""
    return Scan(
        print=PRINT,
        file_name="quay.tif",
        file_sha256="ab" * 32,
        width_px=3000,
        height_px=2400,
        bits=16,
        colour="grey",
        thumbnail_sha256="cd" * 32,
        thumbnail_width_px=1200,
        thumbnail_height_px=960,
    )


def known(record: int, body: Any, on: str = DAY) -> Fact[Any]:
    """A record as it was last written on a day."""
    return Fact(record, record, body, date.fromisoformat(on))


_fact = known


def days_after(days: int, day: str = DAY) -> str:
    """The day so many days later."""
    return str(date.fromisoformat(day) + timedelta(days=days))


def ordinary(*more: Step | Test | Fact[Any]) -> tuple[Step | Test | Fact[Any], ...]:
    """Developed, fixed in two baths, washed, tested, toned, washed, tested; then `more`."""
    return (
        did("develop"),
        did("stop"),
        fixed(FIX_A),
        fixed(FIX_B),
        did("washing aid"),
        did("wash"),
        asked("silver"),
        did("bleach"),
        did("thiourea"),
        did("selenium"),
        did("wash"),
        asked("thiosulfate"),
        *more,
    )
