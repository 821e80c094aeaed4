"""`provenance calc wash`: both models, a paper's own readings, and when no time is told."""

import json
from pathlib import Path

import pytest

from provenance.cli.output import width
from provenance.model.study import WashReading
from tests.cli.calc.conftest import Run, data
from tests.craft.washing.test_fit import BENT, MINUTE, TWO, after

READINGS = after(*TWO, off=[0.02, -0.03, 0.01, 0.03, -0.02, 0.0, -0.01, 0.02, -0.02])


@pytest.fixture
def table(tmp_path: Path) -> Path:
    """A table of readings of two parts."""
    return written(tmp_path / "double-weight.csv", READINGS)


def written(path: Path, readings: list[WashReading]) -> Path:
    rows = [f"{one.washed_ms // 1000} s,{one.left_ng_per_cm2 / 1000} µg/cm²" for one in readings]
    path.write_text("\n".join(["washed,left", *rows]), encoding="utf-8")
    return path


def test_changes(calc: Run) -> None:
    given = data(
        calc("wash", "--changes", "3", "--carried", "20 ml", "--to", "1/1000000", "--json")
    )
    assert given["share_left"] == pytest.approx(7.5386e-06, rel=1e-4)
    assert given["changes_needed"] == 4
    assert "fibre-based paper holds fixer back" in given["heed"][0]
    four = ("--size", "8x10 in", "--sheets", "4", "--strength", "60 g/L")
    given = data(calc("wash", "--changes", "0", *four, "--json"))
    assert given["carried_hundredth_ml"] == 8000
    assert given["left_g_per_m2"] == pytest.approx(23.25, abs=0.01)
    _status, out, _err = calc("wash", "--changes", "1", *four)
    assert "assumed: 387.5 ml carried on a square metre" in out
    assert "1 change " in out


def test_running_water(calc: Run) -> None:
    flow = ("--flow", "2 L", "--fill", "10 L")
    given = data(calc("wash", *flow, "--time", "30 min", "--to", "0.05", "--json"))
    assert given["volumes_per_hour"] == 12
    assert given["share_left"] == pytest.approx(0.0024788, rel=1e-4)
    assert given["time_needed_ms"] == pytest.approx(15 * MINUTE, rel=2e-3)
    assert "34 min 33 s at the least" in calc("wash", *flow, "--to", "0.001")[1]


def test_a_fit_and_its_time(calc: Run, table: Path) -> None:
    ask = ("wash", "--readings", str(table), "--limit", "2 µg/cm²")
    given = data(calc(*ask, "--json"))
    fast, slow = given["parts"]
    assert fast["half_life_ms"] < slow["half_life_ms"]
    assert slow["start_ng_per_cm2"] == pytest.approx(20_000, rel=slow["start_known_within"] - 1)
    assert 50 * MINUTE < given["likely_ms"] < given["sure_ms"] < 90 * MINUTE
    assert (given["why_one_part"], given["trusted"]) == (None, True)
    _status, out, _err = calc(*ask)
    assert "nearly all of them (95 %)" in out
    assert "heed: an estimate" in out
    curve = [line for line in out.splitlines() if any("\u2801" <= one <= "\u28ff" for one in line)]
    assert len(curve) == 10
    assert max(map(width, curve)) <= 62


def test_a_fit_without_a_limit_tells_no_time(calc: Run, table: Path) -> None:
    given = data(calc("wash", "--readings", str(table), "--json"))
    assert "likely_ms" not in given


def test_one_part_says_why(calc: Run, tmp_path: Path) -> None:
    few = written(tmp_path / "few.csv", after(*TWO, times=(0, 10, 20, 40, 60)))
    given = data(calc("wash", "--readings", str(few), "--json"))
    assert given["why_one_part"] == "too few"
    assert len(given["parts"]) == 1
    assert given["heed"][0].startswith("one part stands for both")
    bent = written(tmp_path / "bent.csv", BENT)
    assert not data(calc("wash", "--readings", str(bent), "--json"))["trusted"]
    assert calc("wash", "--readings", str(bent), "--limit", "5 µg/cm²")[0] == 1


def test_what_is_not_sure_is_said(calc: Run, table: Path) -> None:
    ask = ("wash", "--readings", str(table), "--limit", "0.55 µg/cm²")
    assert data(calc(*ask, "--json"))["sure_ms"] is None
    assert "not sure within 1 h 30 min" in calc(*ask)[1]


@pytest.mark.parametrize(
    ("args", "status", "said"),
    [
        ((), 2, "give --changes"),
        (("--changes", "3"), 2, "give --changes"),
        (("--flow", "2 L"), 2, "give --changes"),
        (("--flow", "2 L", "--changes", "3"), 2, "give --changes"),
        (("--changes", "3", "--carried", "20 ml", "--strength", "60 g/L"), 2, "--size"),
        (("--changes", "3", "--carried", "20"), 1, "no unit"),
        (("--to", "2", "--carried", "20 ml"), 1, "cannot be washed down to"),
        (("--limit", "0.7 µg/cm²"), 1, "no calibration: estimate only"),
        (("--readings", "nowhere.csv"), 1, "cannot be read"),
    ],
)
def test_bad_input_is_refused(
    calc: Run,
    args: tuple[str, ...],
    status: int,
    said: str,
) -> None:
    ended, out, err = calc("wash", *args)
    assert (ended, out) == (status, "")
    assert said in err


@pytest.mark.parametrize(
    ("limit", "said"),
    [
        ("0.014 g/m²", "a limit for film"),
        ("0.1 µg/cm²", "longest wash tested"),
        ("1 g", "no mass per area"),
    ],
)
def test_no_time_is_told_to_such_a_limit(
    calc: Run,
    table: Path,
    limit: str,
    said: str,
) -> None:
    ended, out, err = calc("wash", "--readings", str(table), "--limit", limit, "--json")
    assert (ended, out) == (1, "")
    assert said in json.loads(err)["problems"][0]["what"]
