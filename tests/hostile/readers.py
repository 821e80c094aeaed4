"""Everything that reads what a person wrote, with texts that it takes."""

from collections.abc import Callable
from dataclasses import dataclass
from itertools import chain

from hypothesis import given, settings

from provenance.craft.dilution import parse_dilution
from provenance.craft.hazards.tables import read_hazards
from provenance.craft.numbers import read_number
from provenance.craft.residual import read_areal_mass, read_areal_unit
from provenance.craft.sensitometry.table import read_wedge_table
from provenance.craft.sequence.texts import read_rules
from provenance.craft.solutions.written import (
    parse_molarity,
    parse_percent,
    parse_strength_mg_per_l,
)
from provenance.craft.substance_rows import read_substances
from provenance.craft.units import (
    parse_duration_ms,
    parse_length_tenth_mm,
    parse_mass_mg,
    parse_size,
    parse_stops,
    parse_temperature_tenth_c,
    parse_volume_hundredth_ml,
)
from provenance.craft.washing.written import read_readings
from provenance.documents.label_layout import read_label_layout
from provenance.documents.template import read_layout
from provenance.errors import Refused
from provenance.model.check_characters import near_misses, verify
from provenance.model.dates import earliest, parse_edtf
from provenance.model.designation import parse_designation
from provenance.resources import resource
from provenance.studio.daysheet.filled import read_count
from provenance.studio.daysheet.forms import DaySheet
from provenance.studio.daysheet.short import read_baths, read_burns, read_run
from provenance.studio.formulas import parse_amount, read_formula
from provenance.studio.processes import read_process
from provenance.studio.shelf.wishing import read_taken
from provenance.studio.written.forms import read_form
from tests.hostile.texts import mean_texts

Read = Callable[[str], object]


@dataclass(frozen=True)
class Reader:
    """One thing that reads text, and good examples of what it reads."""

    name: str
    read: Read
    good: tuple[str, ...]


def _template(*parts: str) -> str:
    return resource("templates", *parts).read_text(encoding="utf-8")


def _date(text: str) -> object:
    parse_edtf(text)
    return earliest(text)


SUBSTANCES = read_substances(_template("data", "substances.csv"))
PLAN = read_process(_template("process", "fibre-split-toned.toml"), name="plan.toml")

SMALL = (
    Reader("date", _date, ("1998", "1998-03~", "199X", "2031-03-02/2031-03-09", "2031-05-04?")),
    Reader("designation", parse_designation, ("7/25", "AP II/III", "PP 1/1", "HC", "unnumbered")),
    Reader("bare number", lambda text: parse_designation(text, bare_number=True), ("7", "AP2")),
    Reader("length", parse_length_tenth_mm, ("30.5 cm", "12 in", "9 1/2 in", "40 mm")),
    Reader("size", parse_size, ("11x14 in", "30.5 x 40.6 cm", "9½ x 12 in")),
    Reader("volume", parse_volume_hundredth_ml, ("1 l", "250 ml", "2 1/2 fl oz")),
    Reader("mass", parse_mass_mg, ("12 g", "1.5 kg", "120 mg", "2 oz")),
    Reader("duration", parse_duration_ms, ("2 min 30 s", "2:30", "1 h", "12.5 s")),
    Reader("temperature", parse_temperature_tenth_c, ("20 C", "68 °F", "20,5 °C")),
    Reader("stops", parse_stops, ("+1/3", "-0.5", "1 1/2")),
    Reader("number", read_number, ("9 1/2", "9½", "30,5", "+1/3")),
    Reader("count", read_count, ("25", "1")),
    Reader("dilution", lambda text: parse_dilution(text, colon_means=None), ("1+9", "1:9", "2+1")),
    Reader("parts", lambda text: parse_dilution(text, colon_means="total"), ("1:9", "1+1+98")),
    Reader("taken", lambda text: read_taken(text, colon_means="parts"), ("1+9", "20 ml 30 ml")),
    Reader("strength", parse_strength_mg_per_l, ("12 g/L", "2 %", "120 mg/ml")),
    Reader("molarity", parse_molarity, ("0.1 M", "1/10 mol/L")),
    Reader("percent", parse_percent, ("37 %", "0.5%")),
    Reader("amount", parse_amount, ("12 g", "20 ml")),
    Reader("areal unit", read_areal_unit, ("g/m²", "µg/cm²", "mg/in²")),
    Reader("areal mass", read_areal_mass, ("0.8 µg/cm²", "0.02 g/m2")),
    Reader("certificate number", verify, ("DR-2031-0001-58",)),
    Reader("near numbers", lambda text: list(near_misses(text)), ("DR-2031-0001-58",)),
    Reader("baths of a run", read_baths, ("developer dev-2603; fix one fix-A", "a = b")),
    Reader("burns", read_burns, ("sky +1/3 grade 1; steps -1/4",)),
    Reader(
        "run in a few words",
        lambda text: read_run(text, PLAN, ("Q8", "Q9"), {}),
        ("bleach 75 s; Q8 90 s; not Q9", "developer 2 min 30 s 20.5 C in dev-2603", "silver test"),
    ),
)

LONG = (
    Reader(
        "day sheet",
        lambda text: read_form(text, DaySheet, name="day.toml"),
        tuple(path.read_text("utf-8") for path in sorted(resource("demo", "days").glob("*.toml"))),
    ),
    Reader(
        "wedge table",
        read_wedge_table,
        ("tablet;density\nunexposed;0,05\n1.5;0,06\n1.2;0,20\n0.9;0,60\n0.6;1,20\nfull;2,05\n",),
    ),
    Reader(
        "wash readings",
        lambda text: read_readings(text, "w"),
        ("washed,left\n0,180 µg/cm²\n5 min,22 µg/cm²\n",),
    ),
    Reader(
        "process sheet",
        lambda text: read_process(text, name="p.toml"),
        (_template("process", "fibre-plain.toml"),),
    ),
    Reader(
        "formula",
        lambda text: read_formula(text, SUBSTANCES, name="f.toml"),
        (
            _template("formulas", "alkaline-rapid-fixer.toml"),
            _template("formulas", "plain-hypo.toml"),
        ),
    ),
    Reader("substances", read_substances, (_template("data", "substances.csv"),)),
    Reader(
        "hazards", lambda text: read_hazards(text, SUBSTANCES), (_template("data", "hazards.toml"),)
    ),
    Reader("rules", read_rules, (_template("data", "rules.toml"),)),
    Reader("label layout", read_label_layout, (_template("label.toml"),)),
    Reader(
        "certificate layout",
        lambda text: read_layout(text, "certificate.toml"),
        (_template("certificate.toml"),),
    ),
)

ALL = tuple(chain(SMALL, LONG))


def never_falls(read: Read, text: str) -> None:
    """It is read, or refused with words for a person."""
    try:
        read(text)
    except Refused as refused:
        told = [problem.what for problem in refused.problems]
        if not all(told):
            raise AssertionError("it was refused without a word") from refused


def try_texts(one: Reader, how: settings) -> None:
    """Give it texts of every sort."""

    @how
    @given(mean_texts(*one.good))
    def holds(text: str) -> None:
        never_falls(one.read, text)

    holds()
