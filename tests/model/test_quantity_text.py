from collections.abc import Callable

import pytest

from provenance.model.quantities import Dilution, Size
from provenance.model.quantity_text import (
    Units,
    format_clock,
    format_dilution,
    format_duration,
    format_length,
    format_mass,
    format_size,
    format_stops,
    format_temperature,
    format_volume,
)


@pytest.mark.parametrize(
    ("height", "width", "units", "text"),
    [
        (2400, 3000, "metric", "24.0 × 30.0 cm"),
        (2405, 3000, "metric", "24.05 × 30.00 cm"),
        (2413, 3048, "inch", "9.5 × 12.0 in"),
        (2794, 3556, "inch", "11 × 14 in"),
        (2400, 3000, "inch", "9.45 × 11.81 in"),
    ],
)
def test_sizes(height: int, width: int, units: Units, text: str) -> None:
    assert format_size(Size(height_tenth_mm=height, width_tenth_mm=width), units) == text


@pytest.mark.parametrize(
    ("show", "value", "text"),
    [
        (format_length, 2790, "27.9 cm"),
        (format_length, 1, "0.01 cm"),
        (lambda value: format_length(value, "inch"), 2794, "11 in"),
        (format_volume, 4762, "47.62 ml"),
        (format_volume, 50_000, "500 ml"),
        (format_volume, 99_999, "999.99 ml"),
        (format_volume, 150_000, "1.5 L"),
        (format_volume, 100_001, "1.00001 L"),
        (format_mass, 38, "38 mg"),
        (format_mass, 9978, "9.978 g"),
        (format_mass, 100_000, "100 g"),
        (format_mass, 1_250_000, "1.25 kg"),
        (format_temperature, 200, "20 °C"),
        (format_temperature, 205, "20.5 °C"),
        (format_temperature, -67, "−6.7 °C"),
        (lambda value: format_temperature(value, "F"), 200, "68 °F"),
        # 20.3 °C is 68.54 °F: the tenth is not known, so whole degrees.
        (lambda value: format_temperature(value, "F"), 203, "69 °F"),
        # 22.5 °C is exactly 72.5 °F, halfway, so to the even 72.
        (lambda value: format_temperature(value, "F"), 225, "72 °F"),
        (format_duration, 150_000, "2 min 30 s"),
        (format_duration, 3_900_000, "1 h 5 min"),
        (format_duration, 3_750_000, "1 h 2 min 30 s"),
        (format_duration, 10_500, "10.5 s"),
        (format_duration, 0, "0 s"),
        (format_clock, 150_000, "2:30"),
        (format_clock, 10_500, "0:10.5"),
        (format_clock, 5_000, "0:05"),
        (format_clock, 3_750_000, "1:02:30"),
        (format_stops, 333, "+1/3 stop"),
        (format_stops, -1500, "−1 1/2 stops"),
        (format_stops, 400, "+0.4 stop"),
        (format_stops, -1000, "−1 stop"),
        (format_stops, 2000, "+2 stops"),
        (format_stops, 0, "no change"),
    ],
)
def test_quantities(show: Callable[[int], str], value: int, text: str) -> None:
    assert show(value) == text


@pytest.mark.parametrize(
    ("parts", "text"),
    [((100, 900), "1+9"), ((100, 150), "1+1.5"), ((100, 200, 10_000), "1+2+100")],
)
def test_dilutions_are_shown_as_parts(parts: tuple[int, ...], text: str) -> None:
    assert format_dilution(Dilution(parts_hundredths=parts, typed="1:10")) == text
