import contextlib
import subprocess
import sys
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from provenance.craft.units import (
    parse_duration_ms,
    parse_length_tenth_mm,
    parse_mass_mg,
    parse_size,
    parse_stops,
    parse_temperature_tenth_c,
    parse_volume_hundredth_ml,
)
from provenance.errors import Refused
from provenance.model.quantities import Size
from provenance.model.quantity_text import (
    format_clock,
    format_duration,
    format_length,
    format_mass,
    format_size,
    format_stops,
    format_temperature,
    format_volume,
)

Read = Callable[..., int]


@pytest.mark.parametrize(
    ("read", "text", "value"),
    [
        (parse_length_tenth_mm, "11 in", 2794),
        (parse_length_tenth_mm, "9 1/2 in", 2413),
        (parse_length_tenth_mm, "9½″", 2413),
        (parse_length_tenth_mm, '11"', 2794),
        (parse_length_tenth_mm, "27.9 cm", 2790),
        (parse_length_tenth_mm, "30,5cm", 3050),
        (parse_length_tenth_mm, "2 ft", 6096),
        (parse_length_tenth_mm, "10 m", 100_000),
        # 9 1/8 in is 231.775 mm, and 1/4 tenth short of 231.8.
        (parse_length_tenth_mm, "9 1/8 in", 2318),
        # Exactly half a tenth goes to the even one.
        (parse_length_tenth_mm, "0.25 mm", 2),
        (parse_length_tenth_mm, "0.35 mm", 4),
        (parse_volume_hundredth_ml, "1 L", 100_000),
        (parse_volume_hundredth_ml, "500 ml", 50_000),
        (parse_volume_hundredth_ml, "32 US fl oz", 94_635),
        (parse_volume_hundredth_ml, "32 U.S. fl. oz.", 94_635),
        (parse_volume_hundredth_ml, "20 imp fl oz", 56_826),
        (parse_volume_hundredth_ml, "1 imperial pint", 56_826),
        (parse_volume_hundredth_ml, "2 UK pints", 113_652),
        (parse_volume_hundredth_ml, "1 US gallon", 378_541),
        (parse_mass_mg, "7.5 g", 7500),
        (parse_mass_mg, "300 grains", 19_440),
        (parse_mass_mg, "2 oz", 56_699),
        (parse_mass_mg, "1 lb", 453_592),
        (parse_mass_mg, "1 kg", 1_000_000),
        (parse_temperature_tenth_c, "20 C", 200),
        (parse_temperature_tenth_c, "68 F", 200),
        (parse_temperature_tenth_c, "20.5 °C", 205),
        (parse_temperature_tenth_c, "200 F", 933),
        (parse_temperature_tenth_c, "20,5ºC", 205),
        (parse_temperature_tenth_c, "20 degrees c", 200),
        (parse_duration_ms, "2 min 30 s", 150_000),
        (parse_duration_ms, "2 min. 30 sec.", 150_000),
        (parse_duration_ms, "1h30min", 5_400_000),
        (parse_duration_ms, "2:30", 150_000),
        (parse_duration_ms, "90:00", 5_400_000),
        (parse_duration_ms, "1:02:30", 3_750_000),
        (parse_duration_ms, "0:10.5", 10_500),
        (parse_duration_ms, "45 s", 45_000),
        (parse_duration_ms, "1/2 min", 30_000),
        (parse_duration_ms, "40 minutes", 2_400_000),
        (parse_duration_ms, "1 h", 3_600_000),
        (parse_stops, "+1/2", 500),
        (parse_stops, "-1/3", -333),
        (parse_stops, "−½ stop", -500),
        (parse_stops, "0.25", 250),
        (parse_stops, "1 1/3 stops", 1333),
        (parse_stops, "0", 0),
    ],
)
def test_quantities_are_read(read: Read, text: str, value: int) -> None:
    assert read(text) == value


@pytest.mark.parametrize(
    ("read", "text", "reason"),
    [
        (parse_length_tenth_mm, "20 m", "more than 1000.0 cm"),
        (parse_length_tenth_mm, "0 cm", "less than the smallest"),
        (parse_length_tenth_mm, "-3 cm", "less than the smallest"),
        (parse_length_tenth_mm, "5", "has no unit"),
        (parse_length_tenth_mm, "in", "is not a length"),
        (parse_length_tenth_mm, "", "is not a length"),
        (parse_length_tenth_mm, "5 kg", "not a length in a unit known here"),
        (parse_length_tenth_mm, "5 kin", "not a length in a unit known here"),
        (parse_length_tenth_mm, "5 mm*mm", "not a length in a unit known here"),
        (parse_length_tenth_mm, "1,000 mm", "can be read as 1000 or as 1.000"),
        (parse_volume_hundredth_ml, "32 fl oz", "946.35 ml .US fl oz. or 909.22 ml .imperial"),
        (parse_volume_hundredth_ml, "1 pint", "473.18 ml .US pint. or 568.26 ml .imperial pint"),
        (parse_volume_hundredth_ml, "2 gallons", "7.57082 L .* or 9.09218 L "),
        (parse_volume_hundredth_ml, "20 oz", "can be read as"),
        (parse_volume_hundredth_ml, "2000 L", "more than 1000 L"),
        (parse_mass_mg, "3 gr", "194 mg .grain. or 3 g .gram."),
        (parse_mass_mg, "0.0001 g", "less than the smallest"),
        (parse_mass_mg, "500 kg", "more than 100 kg"),
        (parse_temperature_tenth_c, "20", "in °C or °F"),
        (parse_temperature_tenth_c, "20 K", "in °C or °F"),
        (parse_temperature_tenth_c, "200 C", "which no bath has"),
        (parse_temperature_tenth_c, "0 C", "which no bath has"),
        (parse_temperature_tenth_c, "-3 C", "is −3 °C, which no bath has"),
        (parse_temperature_tenth_c, "warm C", "is not a number"),
        (parse_duration_ms, "2", "has no unit: 2 s or 2 min"),
        (parse_duration_ms, "2.5", "has no unit"),
        (parse_duration_ms, "30 s 2 min", "from the longer unit to the shorter"),
        (parse_duration_ms, "1 min 1 min", "from the longer unit to the shorter"),
        (parse_duration_ms, "400 h", "more than 168 h"),
        (parse_duration_ms, "1:75", "is not a duration"),
        (parse_duration_ms, "1:61:00", "more than 59 minutes"),
        (parse_duration_ms, "0:00", "less than the smallest"),
        (parse_duration_ms, "-3 s", "is not a duration"),
        (parse_duration_ms, "2 min 3", "is not a duration"),
        (parse_duration_ms, "3 cm", "not a duration in a unit known here"),
        (parse_stops, "11", "thousandfold"),
        (parse_stops, "half", "is not a number"),
    ],
)
def test_what_cannot_be_meant_is_refused(read: Read, text: str, reason: str) -> None:
    with pytest.raises(Refused, match=reason) as refused:
        read(text, field="aim")
    assert refused.value.problems[0].field == "aim"
    assert refused.value.problems[0].mend


@pytest.mark.parametrize(
    ("text", "height", "width"),
    [
        ("11x14 in", 2794, 3556),
        ("30.5 x 40.6 cm", 3050, 4060),
        ("24 × 30 cm", 2400, 3000),
        ("24 cm X 30 cm", 2400, 3000),
        ('8" x 10"', 2032, 2540),
        ("11 in x 30 cm", 2794, 3000),
        ("9 1/2 by 12 in", 2413, 3048),
    ],
)
def test_sizes_are_read(text: str, height: int, width: int) -> None:
    assert parse_size(text) == Size(height_tenth_mm=height, width_tenth_mm=width)


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("24 x 30", "does not give the unit at its end"),
        ("11 in x 14", "does not give the unit at its end"),
        ("8x10x3 in", "not a height by a width"),
        ("11 in", "not a height by a width"),
        ("x 14 in", "not a height by a width"),
        ("20 m x 3 m", "more than 1000.0 cm"),
        ("0 x 3 cm", "less than the smallest"),
        ("2 x 3 kg", "not a length"),
    ],
)
def test_half_sizes_are_refused(text: str, reason: str) -> None:
    with pytest.raises(Refused, match=reason) as refused:
        parse_size(text, field="sheet")
    assert refused.value.problems[0].field == "sheet"


SIDES = st.integers(1, 100_000)


@given(SIDES, SIDES)
def test_what_is_shown_in_centimetres_reads_back(height: int, width: int) -> None:
    size = Size(height_tenth_mm=height, width_tenth_mm=width)
    assert parse_size(format_size(size)) == size
    assert parse_length_tenth_mm(format_length(height)) == height


@given(st.integers(1, 39_000))
def test_hundredths_of_an_inch_come_through_the_disk(hundredths: int) -> None:
    whole, rest = divmod(hundredths, 100)
    text = f"{whole}.{rest:02d}".rstrip("0").rstrip(".") + " in"
    assert format_length(parse_length_tenth_mm(text), "inch") == text


@given(st.integers(1, 100_000_000))
def test_volumes_and_masses_read_back(value: int) -> None:
    assert parse_volume_hundredth_ml(format_volume(value)) == value
    assert parse_mass_mg(format_mass(value)) == value


@given(st.integers(1, 168 * 3_600_000))
def test_durations_read_back(duration_ms: int) -> None:
    assert parse_duration_ms(format_duration(duration_ms)) == duration_ms
    assert parse_duration_ms(format_clock(duration_ms)) == duration_ms


@given(st.integers(1, 1000))
def test_temperatures_read_back(tenth_c: int) -> None:
    assert parse_temperature_tenth_c(format_temperature(tenth_c)) == tenth_c


@given(st.integers(33, 212))
def test_whole_degrees_fahrenheit_come_through_the_disk(fahrenheit: int) -> None:
    text = f"{fahrenheit} °F"
    assert format_temperature(parse_temperature_tenth_c(text), "F") == text


@given(st.integers(-10_000, 10_000).filter(bool))
def test_stops_read_back(milli_stop: int) -> None:
    assert parse_stops(format_stops(milli_stop)) == milli_stop


READERS = (
    parse_length_tenth_mm,
    parse_size,
    parse_volume_hundredth_ml,
    parse_mass_mg,
    parse_duration_ms,
    parse_temperature_tenth_c,
    parse_stops,
)


@given(st.sampled_from(READERS), st.text(alphabet='0123456789.,/½ -+:xcmingloz°CF"', max_size=12))
def test_nothing_but_a_refusal_comes_of_odd_text(read: Callable[..., object], text: str) -> None:
    with contextlib.suppress(Refused):
        assert isinstance(read(text), int | Size)


def test_the_library_of_units_waits_for_the_first_conversion() -> None:
    code = "import sys, provenance.craft.units; print('pint' in sys.modules)"
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stdout.strip() == "False"
