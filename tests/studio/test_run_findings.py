"""What is told of the next step when several sheets share a tray."""

from pathlib import Path

import pytest

from provenance.craft.sequence.finding import Finding
from provenance.model.chemistry import Bath
from provenance.model.run import Run
from provenance.records.register import Register
from provenance.studio.folder import StudioFolder
from provenance.studio.run_board import read_board
from provenance.studio.running import begin_step, end_step, view_run
from provenance.studio.settings import Settings
from tests import studios
from tests.screens.at_the_trays import Watch, darkroom


class Trays:
    """A run whose sheets are moved without a screen."""

    def __init__(self, folder: Path) -> None:
        self.run = darkroom(folder)
        self.folder = folder
        self.watch = Watch()
        self.register = Register.open(folder, clock=self.watch)

    def through(self, mark: str, *names: str) -> None:
        """A sheet is put into steps, a minute each, and lifted."""
        read = self.register.read
        for name in names:
            run = read.get(Run, self.run)
            view = view_run(read, run, self.watch())
            (sheet,) = (one.print.id for one in view.sheets if one.mark == mark)
            planned = next(one for one in view.plan.steps if one.name == name)
            with self.register.act(studios.WHO) as act:
                step = begin_step(act, run, [sheet], planned)
            self.watch.go(60)
            with self.register.act(studios.WHO) as act:
                end_step(act, step)

    def told(self, mark: str, settings: Settings | None = None) -> list[Finding]:
        """What the board says of the step that a sheet goes into next."""
        folder, now = StudioFolder(self.folder), self.watch()
        board = read_board(self.register.read, folder, settings or Settings(), self.run, now)
        (sheet,) = (one.print.id for one in board.view.sheets if one.mark == mark)
        return [
            one for (who, _step), found in board.findings.items() if who == sheet for one in found
        ]


@pytest.fixture
def trays(tmp_path: Path) -> Trays:
    return Trays(tmp_path / "studio")


BEFORE = ("developer", "stop", "fix one", "fix two", "first rinse", "aid", "wash", "presoak")


def test_what_one_sheet_brought_into_a_tray_is_told_of_the_next(trays: Trays) -> None:
    trays.through("Q8", *BEFORE, "bleach", "thiourea")
    trays.through("Q9", *BEFORE, "bleach", "clear")
    (told,) = [one for one in trays.told("Q9") if one.rule == "Q4"]
    assert told.level == "W"
    assert told.what == "Q8 came into thiourea from bleach without a rinse"
    assert "afresh" in told.do


def test_a_rinse_between_leaves_nothing_to_tell(trays: Trays) -> None:
    trays.through("Q8", *BEFORE, "bleach", "clear", "thiourea")
    trays.through("Q9", *BEFORE, "bleach", "clear")
    assert [one for one in trays.told("Q9") if one.rule == "Q4"] == []


@pytest.mark.parametrize(("volume_hundredth_ml", "tells"), [(60_000, False), (50_000, True)])
def test_a_bath_is_judged_by_all_sheets_that_are_still_to_go_in(
    trays: Trays, volume_hundredth_ml: int, *, tells: bool
) -> None:
    """Three of these sheets leave 0.28 g of silver in the bath, one alone 0.09 g."""
    bath = trays.register.read.by_code(Bath, "fixA")
    assert bath is not None
    studios.revise(trays.register, bath.id, volume_hundredth_ml=volume_hundredth_ml)
    trays.through("Q8", "developer", "stop")
    told = [one.what for one in trays.told("Q8") if one.rule == "Q10"]
    assert bool(told) is tells
    assert all("with the 3 sheets still to go in" in one for one in told)


@pytest.mark.parametrize(("most", "tells"), [(3, False), (2, True)])
def test_a_bath_may_have_a_limit_of_sheets(trays: Trays, most: int, *, tells: bool) -> None:
    trays.through("Q8", "developer")
    said = [one.what for one in trays.told("Q8", Settings(sheet_limits={"stop": most}))]
    expected = [f"3 sheets through stop-1 with the 3 sheets still to go in; limit {most}"]
    assert said == (expected if tells else [])
