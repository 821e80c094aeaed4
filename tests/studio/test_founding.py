"""Founding a studio writes its settings whole, or leaves nothing behind."""

import tomllib
from pathlib import Path

import msgspec
import pytest

from provenance.errors import Refused
from provenance.model.studio import Studio
from provenance.studio.daysheet.forms import StudioForm
from provenance.studio.folder import StudioFolder
from provenance.studio.founding import found, propose_mark, settings_text
from provenance.studio.settings import LimitSetting, MatchSetting, Settings, read_settings
from tests import studios


@pytest.mark.parametrize(
    ("name", "mark"),
    [
        ("Studio Lantern Quay", "LQ"),
        ("The drying room", "DR"),
        ("Élan", "EL"),
        ("One Two Three Four Five", "OTTF"),
        ("The Studio", "TS"),
        ("Studio", "ST"),
        ("写真", ""),
        ("", ""),
    ],
)
def test_a_mark_is_proposed_from_the_name(name: str, mark: str) -> None:
    assert propose_mark(name) == mark


def test_settings_are_read_as_they_were_written(tmp_path: Path) -> None:
    folder = StudioFolder(tmp_path)
    settings = Settings(
        units="inch",
        page="letter",
        who='a "b" \\',
        colon_dilution="total",
        residual_limits={
            "of the house": LimitSetting(
                question="thiosulfate", amount="0.8 µg/cm²", reckoned_as="ion", source="own choice"
            )
        },
        keys={"find": "f3"},
    )
    folder.settings.write_text(settings_text(settings), encoding="utf-8")
    assert read_settings(folder) == settings
    folder.settings.write_text(settings_text(Settings()), encoding="utf-8")
    assert read_settings(folder) == Settings()


def test_every_setting_is_written_with_what_it_decides() -> None:
    text = settings_text(Settings(colon_dilution="parts"))
    assert set(tomllib.loads(text)) == set(Settings.__struct_fields__)
    assert sum(line.startswith("#") for line in text.splitlines()) == len(
        Settings.__struct_fields__
    )


def test_tables_are_written_as_they_are_read() -> None:
    own = Settings(
        sheet_limits={"stop": 30, "washing aid": 20},
        match_tolerances=MatchSetting(light_from=55, source="this studio"),
        keys={"save": "f10"},
    )
    assert msgspec.convert(tomllib.loads(settings_text(own)), Settings) == own


def test_a_studio_is_founded(tmp_path: Path) -> None:
    folder = StudioFolder(tmp_path / "new" / "studio")
    form = StudioForm(name="The drying room", artist="A. Printer", mark="DR")
    found(folder, form, Settings(page="letter"), clock=studios.clock())
    with folder.open() as register:
        assert register.read.get(Studio, 1).body.mark == "DR"
    assert read_settings(folder).page == "letter"


@pytest.mark.parametrize("before", [None, 'language = "en"\n'])
def test_a_refusal_leaves_the_settings_as_they_were(tmp_path: Path, before: str | None) -> None:
    folder = StudioFolder(tmp_path)
    if before is not None:
        folder.settings.write_text(before, encoding="utf-8")
    form = StudioForm(name="The drying room", artist="A. Printer", mark="dr1")
    with pytest.raises(Refused) as caught:
        found(folder, form, Settings(page="letter"), clock=studios.clock())
    assert caught.value.problems[0].field == "mark"
    left = folder.settings.read_text(encoding="utf-8") if folder.settings.exists() else None
    assert left == before


def test_the_page_on_settings_names_each_of_them_with_its_default() -> None:
    page = (Path(__file__).parents[2] / "docs" / "settings.md").read_text(encoding="utf-8")
    for field in msgspec.structs.fields(Settings):
        assert page.count(f"| `{field.name}` |") == 1
    example = page.partition("```toml\n")[2].partition("```")[0]
    assert msgspec.convert(tomllib.loads(example), Settings)
    defaults = Settings()
    tables = {"residual_limits", "sheet_limits", "match_tolerances", "keys"}
    for name in set(Settings.__struct_fields__) - {"colon_dilution", *tables}:
        row = next(line for line in page.splitlines() if line.startswith(f"| `{name}` |"))
        default = getattr(defaults, name)
        assert f'| `"{default}"` |' in row or f"| `{default}` |" in row
