"""`provenance calc stops`, `enlarge`, `range` and `match`."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from provenance.cli.main import run
from tests.craft.sensitometry.papers import D_MAX, D_MIN, Answer, hump, paper, steps

Ran = tuple[int, str, str]


@pytest.fixture
def calc(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Callable[..., Ran]:
    """Runs `provenance calc`."""

    def ran(*args: str) -> Ran:
        monkeypatch.setattr("sys.argv", ["provenance", "calc", *args])
        status = run()
        out, err = capsys.readouterr()
        return status, out, err

    return ran


@pytest.fixture
def wedge(tmp_path: Path) -> Callable[[str, Answer], str]:
    """Writes the readings of a paper as numbered steps; gives the file's name."""

    def written(name: str, answer: Answer) -> str:
        lines = [f"{n},{step.density:.4f}" for n, step in enumerate(steps(answer), 1)]
        text = "\n".join(["step,density", f"unexposed,{D_MIN}", *lines, f"full,{D_MAX}"])
        (tmp_path / name).write_text(text, encoding="utf-8")
        return str(tmp_path / name)

    return written


def data(ran: Ran) -> dict[str, Any]:
    """What a run gave as JSON."""
    status, out, err = ran
    assert (status, err) == (0, "")
    given: dict[str, Any] = json.loads(out)
    assert given["standing"] == "calculated"
    return given


def test_burns_and_dodges(calc: Callable[..., Ran]) -> None:
    _status, out, _err = calc("stops", "25.4 s", "--burn", "sky", "1/2", "--dodge", "hull", "1/3")
    assert out.splitlines() == [
        "calculated",
        "  base  25.4 s",
        "  sky   burn 10.52 s (+1/2 stop)",
        "  hull  dodge 5.235 s (−1/3 stop)",
    ]
    twice = ("--burn", "sky", "1", "--burn", "sky", "1/2")
    (sky,) = data(calc("stops", "20 s", *twice, "--json"))["areas"]
    assert sky["total_ms"] == 48_284
    assert sky["stops"] == pytest.approx(1.2716, abs=1e-4)
    assert "in all 48.28 s (+1.272 stops)" in calc("stops", "20 s", *twice)[1]


def test_changes_dry_down_and_a_strip(calc: Callable[..., Ran]) -> None:
    args = ("stops", "24 s", "--by", "-1/3", "--by", "+1", "--dry-down", "10", "--strip", "3")
    given = data(calc(*args, "--step", "1/2", "--json"))
    assert [one["time_ms"] for one in given["changes"]] == [19_053, 48_000]
    assert given["dried_down_ms"] == 21_600
    assert given["strip"] == {
        "totals_ms": [17_000, 24_000, 33_900],
        "cover_ms": [17_000, 7_000, 9_900],
        "uncover_ms": [9_900, 7_000, 17_000],
    }
    _status, out, _err = calc(*args)
    assert "  covering    19.1, 4.9, 6.2 s\n" in out
    assert "second-hand" in out


def test_a_reprint_at_another_size(calc: Callable[..., Ran]) -> None:
    args = ("enlarge", "20 s", "--from", "4", "--to", "5", "--slower", "0.15")
    given = data(calc(*args, "--json"))
    assert given["time_ms"] == 40_681
    assert given["low_ms"] == given["high_ms"] == 40_681
    assert any("not on record" in one for one in given["heed"])
    banded = data(calc(*args, "--slower-error", "0.01", "--head", "diffuse", "--json"))
    assert banded["high_ms"] == pytest.approx(40_681 * 10**0.02, abs=1)
    (caution,) = banded["heed"]
    assert caution.startswith("40.7 s is far longer than the times at which paper is tested")
    assert "band" in calc(*args, "--slower-error", "0.01")[1]


def test_openings_frames_and_distances(calc: Callable[..., Ran]) -> None:
    given = data(calc("enlarge", "10 s", "--aperture", "8", "11", "--json"))
    assert given["time_ms"] == 20_000
    args = ("--from", "4", "--to", "4", "--negative", "24x36 mm", "--print", "8x10 in")
    framed = data(calc("enlarge", "10 s", *args, "--focal", "6 in", "--json"))
    assert (framed["whole"], framed["filled"]) == pytest.approx((7.056, 8.467), abs=5e-4)
    assert (framed["to_paper_tenth_mm"], framed["to_negative_tenth_mm"]) == (7620, 1905)


def test_the_range_of_a_paper(
    calc: Callable[..., Ran], wedge: Callable[[str, Answer], str]
) -> None:
    file = wedge("fb-1.csv", paper(1.1).density_at)
    given = data(calc("range", file, "--tablet", "31", "--json"))
    assert (given["class_r"], given["class_r_from"], given["class_r_to"]) == (110, 100, 120)
    assert given["range_log_h"] == pytest.approx(1.1, abs=0.001)
    # The clearest step stands at nought; the speed point lies as far below as it was exposed.
    assert given["speed_point_log_h"] == pytest.approx(-1.6, abs=0.001)
    _status, out, _err = calc("range", file, "--tablet", "31")
    assert "R 110, within the band R 100 to 120" in out
    assert "ISO 6846 (from memory" in out
    assert sum("⠀" in line or "⣀" in line for line in out.splitlines()) == 14
    logistic = data(calc("range", file, "--tablet", "31", "--logistic", "--json"))
    assert logistic["range_log_h"] == pytest.approx(1.1, abs=0.001)


def test_a_hump_is_no_logistic(
    calc: Callable[..., Ran], wedge: Callable[[str, Answer], str]
) -> None:
    file = wedge("hump.csv", hump)
    assert data(calc("range", file, "--tablet", "31", "--json"))["class_r"] == 150
    status, out, err = calc("range", file, "--tablet", "31", "--logistic")
    assert (status, out) == (1, "")
    assert "take the range from the curve" in err


def test_a_match(calc: Callable[..., Ran], wedge: Callable[[str, Answer], str]) -> None:
    reference = wedge("old.csv", paper(1.1).density_at)
    papers = (
        *("--paper", "grade 2", wedge("two.csv", paper(1.1, 0.137).density_at)),
        *("--paper", "grade 3", wedge("three.csv", paper(0.9, 0.2).density_at)),
    )
    tones = ("--tone", "sky", "0.15", "--tone", "mast", "0.65", "--tone", "hull", "2.3")
    args = ("match", reference, *papers, *tones, "--base", "20 s", "--tablet", "31")
    given = data(calc(*args, "--json"))
    assert [one["paper"] for one in given["candidates"]] == ["grade 2", "grade 3"]
    best = given["candidates"][0]
    assert best["delta_log_h"] == pytest.approx(0.137, abs=0.001)
    assert best["anchors"] == ["mast"]
    assert [tone["reach"] for tone in best["tones"]] == ["", "", "beyond D-max"]
    assert given["low_ms"] < 20_000 * 10**0.137 < given["high_ms"]
    _status, out, _err = calc(*args)
    assert "heed: hull (2.30) is beyond D-max of grade 2: this paper cannot give it" in out
    assert "time on grade 2  27.4" in out


@pytest.mark.parametrize(
    ("args", "status", "said"),
    [
        (("stops", "20"), 1, "no unit"),
        (("stops", "20 s", "--by", "11"), 1, "at most 10 stops"),
        (("stops", "20 s", "--burn", "sky", "-1"), 1, "is no burn"),
        (("stops", "20 s", "--dodge", "a", "1", "--dodge", "a", "1"), 1, "altogether"),
        (("stops", "20 s", "--dry-down", "60"), 1, "dry-down"),
        (("stops", "1 s", "--strip", "9", "--step", "0.01"), 1, "timer can set"),
        (("stops", "20 s", "--strip", "1"), 2, "--strip"),
        (("enlarge", "20 s", "--from", "4"), 2, "together"),
        (("enlarge", "20 s", "--focal", "80 mm"), 2, "--focal needs --to"),
        (("enlarge", "20 s", "--from", "0", "--to", "4"), 1, "above zero"),
        (("enlarge", "20 s", "--aperture", "8", "wide"), 1, "is not a number"),
        (("range", "nowhere.csv"), 1, "nowhere.csv"),
        (("match", "nowhere.csv", "--tone", "a", "1"), 2, "--paper"),
    ],
)
def test_bad_input_is_refused(
    calc: Callable[..., Ran], args: tuple[str, ...], status: int, said: str
) -> None:
    ended, out, err = calc(*args)
    assert (ended, out) == (status, "")
    assert said in err


def test_a_bad_table_is_told_with_file_and_line(calc: Callable[..., Ran], tmp_path: Path) -> None:
    file = tmp_path / "fb-1.csv"
    file.write_text("tablet,density\n0.1,black\n", encoding="utf-8")
    status, _out, err = calc("range", str(file), "--json")
    (problem,) = json.loads(err)["problems"]
    assert (status, problem["record"], problem["line"]) == (1, "fb-1.csv", 2)
    file.write_text("tablet,density\n0.1,2.0\n", encoding="utf-8")
    _status, _out, err = calc("range", str(file))
    assert "fb-1.csv wedge: an unexposed patch was not read" in err


def test_papers_need_names_of_their_own(
    calc: Callable[..., Ran], wedge: Callable[[str, Answer], str]
) -> None:
    file = wedge("old.csv", paper(1.1).density_at)
    twice = ("--paper", "two", file, "--paper", "two", file)
    status, _out, err = calc("match", file, *twice, "--tone", "mast", "0.65", "--tablet", "31")
    assert (status, "a name of its own" in err) == (2, True)
