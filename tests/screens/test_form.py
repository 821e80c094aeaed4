"""What every form does: it says what is wrong at its field, keeps, asks and loses nothing."""

import shutil
import stat
from pathlib import Path

import pytest

from provenance.model.paper import Paper
from provenance.records.private import Drafts
from provenance.records.register import Register
from provenance.screens.app import StudioApp
from provenance.screens.dialogs.bath import NewBath
from provenance.screens.dialogs.paper import NewPaper
from provenance.screens.dialogs.sign import SignPrints
from provenance.studio.folder import StudioFolder
from tests import studios
from tests.screens.form_app import SIZES, at_the_keyboard, small_studio
from tests.screens.reading import screen_text

both_sizes = pytest.mark.parametrize("size", SIZES, ids=["80x24", "120x40"])


@both_sizes
async def test_a_form_is_filled_by_keys_and_saved(tmp_path: Path, size: tuple[int, int]) -> None:
    small_studio(tmp_path)
    async with at_the_keyboard(tmp_path, size) as hands:
        await hands.open(NewPaper())
        await hands.type("FB-9")
        await hands.press("tab", "r", "down")
        await hands.type("double weight")
        await hands.press("ctrl+s")
        recorded = hands.results[0]
        assert recorded is not None
        assert recorded.entered == ("paper FB-9",)
        assert hands.app.acts == [recorded.act]
        paper = hands.app.register.read.by_code(Paper, "FB-9")
        assert paper is not None
        assert (paper.body.base, paper.body.weight) == ("resin-coated", "double weight")


async def test_f2_saves_as_well(tmp_path: Path) -> None:
    small_studio(tmp_path)
    async with at_the_keyboard(tmp_path) as hands:
        await hands.open(NewPaper())
        await hands.type("FB-9")
        await hands.press("f2")
        assert hands.results[0] is not None


async def test_fields_are_walked_in_both_directions(tmp_path: Path) -> None:
    small_studio(tmp_path)
    async with at_the_keyboard(tmp_path) as hands:
        await hands.open(NewPaper())
        seen = []
        for key in ("tab", "down", "enter", "up", "shift+tab"):
            await hands.press(key)
            seen.append(next(f.key for f in hands.form.fields.values() if f.has_focus_within))
        assert seen == ["base", "weight", "surface", "weight", "base"]


async def test_what_is_typed_ahead_goes_into_the_next_field(tmp_path: Path) -> None:
    small_studio(tmp_path)
    async with at_the_keyboard(tmp_path) as hands:
        await hands.open(NewPaper())
        # all at once, as a slow line hands it on
        await hands.at_once(*"FB-8", "backspace", *"9", "tab", "r", "enter", *"heavy", "down")
        await hands.at_once(*"gloss", "ctrl+s")
        assert hands.results, hands.text()
        paper = hands.app.register.read.by_code(Paper, "FB-9")
        assert paper is not None
        assert (paper.body.base, paper.body.weight, paper.body.surface) == (
            "resin-coated",
            "heavy",
            "gloss",
        )


async def test_a_proposal_is_replaced_by_what_is_typed(tmp_path: Path) -> None:
    small_studio(tmp_path)
    async with at_the_keyboard(tmp_path) as hands:
        await hands.open(NewBath())
        await hands.at_once("tab", "tab", *"2031-05-04", "tab")
        assert hands.value("made") == "2031-05-04"
        # what a person typed is not
        await hands.at_once("shift+tab", *"?")
        assert hands.value("made") == "2031-05-04?"


async def test_a_proposal_can_be_changed(tmp_path: Path) -> None:
    small_studio(tmp_path)
    async with at_the_keyboard(tmp_path) as hands:
        await hands.open(NewBath())
        await hands.at_once("tab", "tab", "end", "backspace", "2")
        assert hands.value("made") == "2031-06-02"


async def test_a_field_is_read_when_it_is_left(tmp_path: Path) -> None:
    small_studio(tmp_path)
    async with at_the_keyboard(tmp_path) as hands:
        await hands.open(NewPaper())
        await hands.put(sheet="large")
        assert hands.wrong("sheet") == ""
        await hands.press("tab")
        assert "“large”" in hands.wrong("sheet")
        assert "! Sheet, height x width, cm: “large” is not" in hands.text()
        await hands.put(sheet="40.6 x 30.5")
        await hands.press("tab")
        assert hands.wrong("sheet") == ""
        assert hands.value("sheet") == "40.6 x 30.5 cm"


async def test_every_mistake_is_said_at_its_own_field(tmp_path: Path) -> None:
    small_studio(tmp_path)
    async with at_the_keyboard(tmp_path) as hands:
        await hands.open(NewBath())
        wrong = {"dilution": "1:9", "volume": "two", "made": "yesterday"}
        await hands.put(**wrong)
        await hands.press("ctrl+s")
        assert hands.results == []
        assert {key for key, field in hands.form.fields.items() if field.wrong} == set(wrong)
        assert {key: hands.value(key) for key in wrong} == wrong
        assert "not saved" in hands.text()


async def test_what_the_register_refuses_is_said_at_its_field(tmp_path: Path) -> None:
    small_studio(tmp_path)
    async with at_the_keyboard(tmp_path) as hands:
        await hands.open(NewBath())
        await hands.put(code="F-1", made="2032-01-01", made_from="rapid fixer")
        await hands.press("ctrl+s")
        assert "missing" in hands.wrong("role")
        await hands.choose(role="fix")
        await hands.press("ctrl+s")
        assert hands.results == []
        assert hands.wrong("made") or hands.wrong("code")
        assert hands.value("made_from") == "rapid fixer"
        # it stands until the value is another
        await hands.go("made_from")
        assert hands.wrong("made") or hands.wrong("code")
        await hands.put(made="2031-05-30", code="F-2")
        await hands.press("ctrl+s")
        assert hands.results[0] is not None


async def test_escape_leaves_an_unchanged_form(tmp_path: Path) -> None:
    small_studio(tmp_path)
    async with at_the_keyboard(tmp_path) as hands:
        await hands.open(NewPaper())
        await hands.press("escape")
        assert hands.results == [None]


async def test_escape_asks_before_a_changed_form_is_thrown_away(tmp_path: Path) -> None:
    small_studio(tmp_path)
    async with at_the_keyboard(tmp_path) as hands:
        await hands.open(NewPaper())
        await hands.type("FB-9")
        await hands.press("escape")
        assert "not saved" in hands.text()
        await hands.press("n")
        assert hands.results == []
        assert hands.value("code") == "FB-9"
        await hands.press("escape", "y")
        assert hands.results == [None]
        assert Drafts(tmp_path).names() == []


async def test_a_half_filled_form_survives_a_kill(tmp_path: Path) -> None:
    small_studio(tmp_path / "studio")
    async with at_the_keyboard(tmp_path / "studio") as hands:
        await hands.open(NewPaper())
        await hands.put(code="FB-9", maker="unknown, a plain box")
        await hands.pause()
        head = hands.app.register.read.head()
        # what a kill at this moment leaves on disk
        shutil.copytree(tmp_path / "studio", tmp_path / "killed")
    (draft,) = (tmp_path / "killed" / "private").iterdir()
    assert stat.S_IMODE(draft.stat().st_mode) == 0o600
    async with at_the_keyboard(tmp_path / "killed") as hands:
        assert hands.app.register.read.head() == head
        await hands.open(NewPaper())
        assert "half-filled on 2031-06-01 12:00" in hands.text()
        await hands.press("y")
        assert hands.value("code") == "FB-9"
        assert hands.value("maker") == "unknown, a plain box"
        assert hands.form.fields["code"].has_focus_within
        await hands.press("ctrl+s")
        assert hands.results[0] is not None
        assert Drafts(tmp_path / "killed").names() == []


async def test_leaving_the_program_keeps_the_last_words(tmp_path: Path) -> None:
    small_studio(tmp_path)
    async with at_the_keyboard(tmp_path) as hands:
        await hands.open(NewPaper())
        await hands.type("FB-9")
    async with at_the_keyboard(tmp_path) as hands:
        await hands.open(NewPaper())
        await hands.press("n")
        assert hands.value("code") == ""
        await hands.press("escape")
        # begun anew, but nothing was typed: the draft is still there
        await hands.open(NewPaper())
        await hands.press("y")
        assert hands.value("code") == "FB-9"


async def test_a_spoiled_draft_hinders_nobody(tmp_path: Path) -> None:
    small_studio(tmp_path)
    (tmp_path / "private").mkdir()
    (tmp_path / "private" / "new-paper.json").write_bytes(b'{"at": 7')
    async with at_the_keyboard(tmp_path) as hands:
        await hands.open(NewPaper())
        await hands.type("FB-9")
        await hands.press("ctrl+s")
        assert hands.results[0] is not None


async def test_a_change_under_the_open_form_is_said_and_nothing_is_lost(tmp_path: Path) -> None:
    small_studio(tmp_path)
    with Register.open(tmp_path, clock=studios.clock()) as register:
        shelf_edition = register.read.all(studios.Edition)[0]
        printing = register.read.all(studios.Printing)[0]
        mine = studios.enter(
            register,
            studios.Print(
                edition=shelf_edition.id,
                printing=printing.id,
                mark="Q1",
                image=studios.IMAGE,
                sheet=studios.SHEET,
                designation="1/25",
            ),
        )
    async with at_the_keyboard(tmp_path) as hands:
        await hands.open(SignPrints([mine]))
        await hands.put(medium="pencil", where="on the back")
        with Register.open(tmp_path, clock=studios.clock()) as other:
            studios.revise(other, mine, features="a crease at the corner")
        await hands.press("ctrl+s")
        assert hands.results == []
        assert "QUAY 1/25 was changed (features) by printer" in hands.text()
        assert hands.value("where") == "on the back"
        await hands.press("ctrl+s")
        assert hands.results[0] is not None
        signed = hands.app.register.read.get(studios.Print, mine).body
        assert signed.features == "a crease at the corner"
        assert signed.signature is not None
        assert signed.signature.where == "on the back"


async def test_a_disk_that_keeps_nothing_is_said(tmp_path: Path) -> None:
    small_studio(tmp_path)
    (tmp_path / "private").write_bytes(b"in the way")
    async with at_the_keyboard(tmp_path) as hands:
        await hands.open(NewPaper())
        await hands.type("FB-9")
        await hands.pause()
        assert "not kept for later" in hands.text()
        assert hands.value("code") == "FB-9"


async def test_a_register_damaged_under_an_open_form_is_said(tmp_path: Path) -> None:
    small_studio(tmp_path)
    app = StudioApp(StudioFolder(tmp_path), clock=studios.clock())
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.pause()
        form = NewPaper()
        await app.push_screen(form)
        await pilot.press(*"FB-9")
        for path in tmp_path.glob("register.db*"):
            path.write_bytes(b"\xff" * path.stat().st_size)
        await pilot.press("ctrl+s")
        await pilot.pause(0.3)
        assert "register is damaged" in " ".join(screen_text(app).split())
        assert app.screen is form
        assert form.value("code") == "FB-9"
        await pilot.press("1")
        assert form.value("code") == "FB-91"
