"""The studio's own choices, and what is said about wrong ones."""

from pathlib import Path

import pytest

from provenance.craft.comparing import Tolerances
from provenance.errors import Refused
from provenance.studio.folder import StudioFolder
from provenance.studio.settings import Settings, read_settings


def settings(folder: Path, text: str) -> Settings:
    """What is read from a settings.toml with `text`."""
    (folder / "settings.toml").write_text(text, encoding="utf-8")
    return read_settings(StudioFolder(folder))


def test_without_a_file_everything_has_a_default(tmp_path: Path) -> None:
    assert read_settings(StudioFolder(tmp_path)) == Settings()
    assert Settings().colon_dilution is None


def test_what_is_chosen_is_read_and_the_rest_stays(tmp_path: Path) -> None:
    read = settings(tmp_path, 'units = "inch"\npage = "letter"\nwho = "printer"\n')
    assert read == Settings(units="inch", page="letter", who="printer")


@pytest.mark.parametrize(
    ("text", "field", "line"),
    [
        ('who = "printer"\nunits = "feet"\n', "units", 2),
        ('\ncolon_dilution = "both"\n', "colon_dilution", 2),
        ('page = "A4"\ncolour = "red"\n', "colour", 2),
        ("language = 1\n", "language", 1),
    ],
)
def test_a_wrong_choice_is_told_with_its_line(
    tmp_path: Path, text: str, field: str, line: int
) -> None:
    with pytest.raises(Refused) as caught:
        settings(tmp_path, text)
    (problem,) = caught.value.problems
    assert (problem.record, problem.field, problem.line) == ("settings.toml", field, line)
    assert "colon_dilution" in problem.mend


@pytest.mark.parametrize(
    ("text", "field", "mend"),
    [
        ('units = "inch"\nsilver_limit = "double"\n', "silver_limit", "single, first of two"),
        ("\nsilver_coated_mg_per_m2 = 0\n", "silver_coated_mg_per_m2", "0.5 to 3.3"),
        ("\nsilver_developed_percent = 100\n", "silver_developed_percent", "0 to 99"),
    ],
)
def test_a_choice_about_silver_that_is_none_is_told_with_its_line(
    tmp_path: Path, text: str, field: str, mend: str
) -> None:
    with pytest.raises(Refused) as caught:
        settings(tmp_path, text)
    (problem,) = caught.value.problems
    assert (problem.record, problem.field, problem.line) == ("settings.toml", field, 2)
    assert mend in problem.mend


def test_the_silver_limit_is_the_single_bath_one_until_another_is_chosen(tmp_path: Path) -> None:
    assert Settings().limit.mg_per_l == 500
    assert settings(tmp_path, 'silver_limit = "first of two"\n').limit.mg_per_l == 2000


LIMIT = """\
[residual_limits.house]
question = "thiosulfate"
amount = "0.8 µg/cm²"
reckoned_as = "ion"
source = "own choice"
"""


def test_a_limit_is_the_studios_own_and_says_so(tmp_path: Path) -> None:
    assert Settings().limits == ()
    (limit,) = settings(tmp_path, LIMIT).limits
    assert (limit.name, limit.question) == ("house", "thiosulfate")
    assert limit.ng_per_cm2 == pytest.approx(800)
    assert str(limit.source) == "own choice (common practice, no source)"


@pytest.mark.parametrize(
    ("wrong", "field", "line", "what"),
    [
        (('"0.8 µg/cm²"', '"0.8"'), "amount", 3, "house: “0.8” is no mass per area"),
        (('"0.8 µg/cm²"', '"0 µg/cm²"'), "amount", 3, "house: a limit lies above zero"),
        (('"ion"', '"salt"'), "reckoned_as", 4, "is not reckoned as “salt”"),
        (('"own choice"', '" "'), "source", 5, "house: a limit says whose it is"),
        (('"0.8 µg/cm²"', '"0.014 g/m²"'), "amount", 3, "this is a limit for film"),
    ],
)
def test_a_limit_that_is_none_is_told_with_its_line(
    tmp_path: Path, wrong: tuple[str, str], field: str, line: int, what: str
) -> None:
    with pytest.raises(Refused) as caught:
        settings(tmp_path, LIMIT.replace(*wrong))
    (problem,) = caught.value.problems
    assert what in problem.what
    assert (problem.field, problem.line) == (field, line)


TOLERANCES = """\
[match_tolerances]
light_density = 0.03
delta_e00 = 1.5
source = "own choice"
"""


def test_tolerances_are_the_usual_ones_until_the_studio_says_its_own(tmp_path: Path) -> None:
    assert Settings().tolerances == Tolerances()
    own = settings(tmp_path, TOLERANCES).tolerances
    assert (own.light_density, own.dark_density, own.delta_e00) == (0.03, 0.05, 1.5)
    assert str(own.source) == "own choice (common practice, no source)"


@pytest.mark.parametrize(
    ("wrong", "field", "line"),
    [
        (("= 0.03", "= 0"), "light_density", 2),
        (("= 0.03", "= 0.0301"), "light_density", 2),
        (("delta_e00 = 1.5", "dark_to = 0"), "dark_to", 3),
        (("1.5", "80"), "delta_e00", 3),
        (('"own choice"', '""'), "source", 4),
        (("delta_e00 = 1.5", "dark_to = 60"), "dark_to", 3),
    ],
)
def test_a_tolerance_that_is_none_is_told_with_its_line(
    tmp_path: Path, wrong: tuple[str, str], field: str, line: int
) -> None:
    with pytest.raises(Refused) as caught:
        settings(tmp_path, TOLERANCES.replace(*wrong))
    (problem,) = caught.value.problems
    assert (problem.record, problem.field, problem.line) == ("settings.toml", field, line)


@pytest.mark.parametrize("data", [b"units = \n", b"who = '\xff'\n"])
def test_a_file_that_cannot_be_read_is_refused(tmp_path: Path, data: bytes) -> None:
    (tmp_path / "settings.toml").write_bytes(data)
    with pytest.raises(Refused, match=r"settings\.toml"):
        read_settings(StudioFolder(tmp_path))
