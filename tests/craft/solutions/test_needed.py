import pytest

from provenance.craft.solutions.needed import chemistry_needed, tray_volume_hundredth_ml
from provenance.craft.units import parse_size
from provenance.errors import Refused
from provenance.resources import resource
from provenance.studio.processes import read_process

SIZE = parse_size("8x10 in")
PROCESS = read_process(
    (resource("templates", "process") / "fibre-split-toned.toml").read_text(encoding="utf-8"),
    name="fibre-split-toned.toml",
)


def test_a_tray_is_larger_than_its_sheet() -> None:
    # 24.32 by 29.4 cm by 1.5 cm are 1072.5 ml, up to the next hundred
    assert tray_volume_hundredth_ml(SIZE) == 110_000
    assert tray_volume_hundredth_ml(parse_size("1 x 1 mm")) == 10_000


def test_water_and_tests_are_not_mixed() -> None:
    needs = chemistry_needed(PROCESS, SIZE, 12)
    assert [need.step for need in needs] == [
        "developer",
        "stop",
        "fix one",
        "fix two",
        "aid",
        "bleach",
        "thiourea",
        "selenium",
        "aid after toning",
    ]
    assert {need.volume_hundredth_ml for need in needs} == {110_000}
    assert all("common practice" in need.assumption for need in needs)


def test_one_shot_baths_and_renewals_take_more() -> None:
    needs = {
        need.step: need
        for need in chemistry_needed(
            PROCESS,
            SIZE,
            12,
            tray_hundredth_ml=100_000,
            one_shot_hundredth_ml={"thiourea": 30_000},
            sheets_per_filling={"fix one": 10, "fix two": 12},
        )
    }
    assert (needs["thiourea"].fillings, needs["thiourea"].volume_hundredth_ml) == (12, 360_000)
    assert "300 ml fresh for every sheet" in needs["thiourea"].assumption
    assert (needs["fix one"].fillings, needs["fix one"].volume_hundredth_ml) == (2, 200_000)
    assert needs["fix two"].fillings == 1
    assert needs["stop"].assumption == "a tray of 1 L, as given; not renewed"


def test_a_step_that_is_not_in_the_plan_is_refused() -> None:
    with pytest.raises(Refused, match="no step gold"):
        chemistry_needed(PROCESS, SIZE, 1, one_shot_hundredth_ml={"gold": 10_000})


@pytest.mark.parametrize(("sheets", "tray"), [(0, 100), (-1, 100), (1, 0)])
def test_no_sheets_and_no_volume_are_refused(sheets: int, tray: int) -> None:
    with pytest.raises(Refused, match="not above zero"):
        chemistry_needed(PROCESS, SIZE, sheets, tray_hundredth_ml=tray)
