import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from provenance.errors import Refused
from provenance.model.quantities import LONGEST_TENTH_MM, Dilution, Size

SIDES = st.integers(1, LONGEST_TENTH_MM)


@given(SIDES, SIDES)
def test_a_size_survives_the_disk(height: int, width: int) -> None:
    size = Size(height_tenth_mm=height, width_tenth_mm=width)
    assert msgspec.json.decode(msgspec.json.encode(size), type=Size) == size


@pytest.mark.parametrize("side", [0, -1, LONGEST_TENTH_MM + 1])
def test_a_side_is_positive_and_at_most_ten_metres(side: int) -> None:
    with pytest.raises(Refused, match="height"):
        Size(height_tenth_mm=side, width_tenth_mm=100)
    with pytest.raises(Refused, match="width"):
        Size(height_tenth_mm=100, width_tenth_mm=side)


def test_an_image_fits_its_sheet_unturned() -> None:
    sheet = Size(height_tenth_mm=2400, width_tenth_mm=3000)
    assert sheet.fits_inside(sheet)
    assert not Size(height_tenth_mm=3000, width_tenth_mm=2400).fits_inside(sheet)


def test_unknown_fields_are_not_taken() -> None:
    with pytest.raises(msgspec.ValidationError):
        msgspec.json.decode(
            b'{"height_tenth_mm":1,"width_tenth_mm":1,"depth_tenth_mm":1}', type=Size
        )


@pytest.mark.parametrize("parts", [(), (100,), (100, 0), (-100, 900), (100, 1_000_001)])
def test_a_dilution_has_two_parts_or_more_above_zero(parts: tuple[int, ...]) -> None:
    with pytest.raises(Refused):
        Dilution(parts_hundredths=parts, typed="")


def test_a_dilution_keeps_what_was_typed() -> None:
    dilution = Dilution(parts_hundredths=(100, 150), typed="1:1,5")
    kept = msgspec.json.decode(msgspec.json.encode(dilution), type=Dilution)
    assert kept == dilution
    assert kept.total_hundredths == 250
