"""A worksheet that has everything: letters on the sketch, charts, notes by daylight."""

from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

from provenance.craft.chart import Bar, Chart, Frame, Sign, Trace
from provenance.documents.match_sheet import MatchSheet
from provenance.documents.worksheet import Crop, Figure, Line, Note, Part, Worksheet
from tests.documents.pages import picture

CHART = Chart(
    "log H",
    "density",
    Frame(-1.0, 1.0, 0.0, 2.0),
    (Trace([(-1, 0.1), (0, 0.9), (1, 1.9)]), Trace([(-0.8, 0.1), (1, 1.8)], dashed=True)),
    (Bar((-0.1, 0.9), (0.1, 0.9)),),
    (Sign("A", (0, 0.9)),),
)
FULL = Worksheet(
    title="To match QUAY 3/25: Slipway",
    about="negative N-1, paper FB-2, 3 to print",
    base="40.7 s",
    beside=("strip decides: 38.9 to 42.5 s", "grade 2"),
    parts=(
        Part("Burns and dodges", (Line("a  wall", "burn 16.9 s at 2", "card, from below"),)),
        Part("Trays", (Line("developer", "2:00", "1+9 then, 1+14 now"),)),
        Part("Densities, dry", (Line("A  sky", "0.15 ± 0.02", "predicted 0.15 ± 0.01"),)),
    ),
    before=(Part("To mix", (Line("developer", "100 ml, 900 ml water", box=False),)),),
    ladder=("32.3", "36.2", "40.7", "45.7", "51.3"),
    crop=Crop((560, 690), 20, 10, (540, 650), (("a", 0.2, 0.5), ("A", 0.6, 0.1))),
    crop_alternative="The frame of the negative, and in it the part that is printed",
    figures=(
        Figure(CHART, ("log H", "density"), "Old and new paper", "Two curves"),
        Figure(CHART, ("target", "predicted"), "Predicted over target", "Tones near a line"),
    ),
    notes=(Note("Open questions", ("a mask lay on the negative: is it still there?",)),),
    drawn_at_utc=datetime(2031, 6, 1, tzinfo=UTC),
    author="A. Printer",
)


MATCH = MatchSheet(
    title="QUAY Q8 against QUAY BAT",
    verdict="The prints differ at: wall",
    heads=("", "spot", "then", "off by", "allowed", "ΔE00", "verdict"),
    rows=(
        ("a", "sky", "0.15", "+0.000", "± 0.020", "", "matches"),
        ("B", "wall", "0.62", "+0.085", "± 0.020", "1.20", "differs"),
    ),
    differs=(False, True),
    image=(3000, 2400),
    letters=(("a", 0.6, 0.1), ("B", 0.2, 0.5)),
    sketch_alternative="Where the spots lie",
    picture=(picture(240, 300), "Picture of the print"),
    lines=("2031-06-01: not accepted by the artist.",),
    drawn_at_utc=datetime(2031, 6, 1, tzinfo=UTC),
    author="A. Printer",
)


def worksheet(**changes: Any) -> Worksheet:
    """The full one, with other fields."""
    return replace(FULL, **changes)


def crowded() -> Worksheet:
    """More trays than leave room for the rest: that goes to the back."""
    many = tuple(Line(f"step {at}", "2:00", "1+9 then, 1+19 now") for at in range(24))
    return worksheet(parts=(Part("Trays", many),))
