"""A study that `provenance show` tells: its table, its curve, what it can and cannot say."""

from pathlib import Path

from tests.cli.conftest import Desk

_DAY = """
[day]
date = 2031-03-02
[[paper]]
code = "FB-S"
base = "fibre"
[[toning_study]]
code = "TONE-1"
paper = "FB-S"
bleach = "toning bleach"
bleached = "1 min"
paper_density = "0.06"
patches = ["0.10: 0.06", "0.26: 0.08", "0.96: 0.36", "1.86: 1.50"]
[[wash_study]]
code = "WASH-1"
paper = "FB-S"
method = "methylene blue"
readings = '''
washed,left
5 min,40 µg/cm²
20 min,5.2 µg/cm²
35 min,0.6 µg/cm²
'''
"""


def test_a_study_is_a_table_and_a_curve_and_says_what_it_cannot_show(
    studio: Desk, tmp_path: Path
) -> None:
    sheet = tmp_path / "studies.toml"
    sheet.write_text(_DAY, "utf-8")
    assert studio.run("record", str(sheet)).status == 0
    toning = studio.run("show", "TONE-1").lines
    assert "     0.90      33 %   30 to 36 %" in toning
    assert "     0.04   too light to be judged" in toning
    assert "    what the bleach left, the sulfide could not reach" in toning
    assert "    densities do not tell which toner took what" in toning
    assert any(line.startswith("  0 %, density 0.20 to 1.80") for line in toning)
    washing = studio.run("show", "WASH-1").lines
    assert any("halved in" in line for line in washing)
    assert any("5 min to 35 min" in line for line in washing)
