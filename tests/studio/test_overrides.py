"""A finding that was overridden at the trays, as every reader of the record comes upon it."""

import json
from pathlib import Path

import pytest

from provenance.cli.main import run as command
from provenance.craft.sequence.finding import Finding
from provenance.model.evidence import Standing
from provenance.model.printing import Step
from provenance.model.run import DONE_UNCLOCKED, Run
from provenance.records.audit import audit
from provenance.records.register import Register
from provenance.studio.answering.answer import answer
from provenance.studio.folder import StudioFolder
from provenance.studio.past import past_with_overrides
from provenance.studio.print_view import PrintView, view_print
from provenance.studio.run_findings import findings_before
from provenance.studio.running import (
    RunView,
    begin_step,
    end_step,
    explain,
    finish_run,
    override,
    view_run,
)
from provenance.studio.settings import read_settings
from tests import studios
from tests.screens.at_the_trays import Watch, darkroom
from tests.studios import WHO

ACCEPTED = "accepted for today; it is explained after drying"
CLOCKED = ("developer", "stop", "fix one", "fix two")


class Worked:
    """A sheet that went from the fix into the bleach without a wash, then *all as planned*."""

    def __init__(self, folder: Path, why: str) -> None:
        darkroom(folder, ["Q8", "Q9"])
        self.folder, self.watch = StudioFolder(folder), Watch()
        self.register = Register.open(folder, clock=self.watch)
        (run,) = self.register.read.all(Run)
        self.run, (self.sheet, self.other) = run.id, run.body.sheets
        for name in CLOCKED:
            self.through(name, self.sheet, self.other)
        (self.found,) = [one for one in self.before("bleach") if one.level == "E"]
        with self.register.act(WHO) as act:
            case, what = self.found.case, self.found.what
            override(act, self.run, case, "bleach", [self.sheet], why, what)
        self.through("bleach", self.sheet)
        with self.register.act(WHO) as act:
            finish_run(act, self.run, as_planned=True)

    def now(self) -> RunView:
        """The run as it stands."""
        return view_run(self.register.read, self.register.read.get(Run, self.run), self.watch())

    def through(self, name: str, *sheets: int) -> None:
        """A minute in a bath of the plan."""
        view = self.now()
        planned = next(one for one in view.plan.steps if one.name == name)
        with self.register.act(WHO) as act:
            step = begin_step(act, view.run, sheets, planned)
        self.watch.go(60)
        with self.register.act(WHO) as act:
            end_step(act, step)

    def before(self, name: str) -> tuple[Finding, ...]:
        """What the rules say before a step."""
        reader = self.register.read
        view = self.now()
        planned = next(one for one in view.plan.steps if one.name == name)
        settings = read_settings(self.folder)
        return findings_before(reader, self.folder, settings, view, [self.sheet], planned)

    def view(self, sheet: int = 0) -> PrintView:
        """The print as it is shown."""
        return view_print(self.register.read, self.folder, sheet or self.sheet)

    def noted(self, name: str) -> int:
        """The step that *all as planned* entered for a bath."""
        steps = self.register.read.linked(self.sheet, Step, "sheets")
        return next(one.id for one in steps if one.body.name == name)


@pytest.fixture
def worked(tmp_path: Path) -> Worked:
    return Worked(tmp_path / "studio", ACCEPTED)


def test_it_stands_in_the_life_of_its_print_with_the_rule_the_reason_and_its_standing(
    worked: Worked,
) -> None:
    assert worked.found.rule == "Q2"
    life = worked.view().life
    (told,) = [one for one in life if "begun all the same" in one.what]
    assert told.what == f"Q2, {worked.found.what}; bleach begun all the same: “{ACCEPTED}”"
    assert (told.day, told.standing, told.records) == (
        "2031-06-01",
        Standing.LOGGED,
        (worked.run,),
    )
    # it stands where it was pressed: after the fix, before the bleach
    whats = [one.what for one in life]
    at = whats.index(told.what)
    assert any("fix one" in what for what in whats[:at])
    assert any(what.startswith("bleach") for what in whats[at:])
    assert any("wash" in what and "not counted" in what for what in whats[:at])
    # the other sheet waited for its wash, and nobody overrode anything for it
    assert not any("all the same" in one.what for one in worked.view(worked.other).life)


def test_what_the_plan_entered_afterwards_carries_no_claim_and_the_answer_says_so(
    worked: Worked,
) -> None:
    view, wash = worked.view(), worked.noted("wash")
    assert {wash, worked.noted("aid")} <= {step.id for step in view.history.contradicted}
    assert all(wash not in one.evidence for one in view.statement if one.section == "made")
    reply = answer(worked.register.read, worked.folder, worked.sheet, worked.watch())
    (untested,) = [one for one in reply.answered if one.name == "untested"]
    (said,) = [one for one in untested.sentences if one.claim == "unknown.washed.overridden"]
    assert "entered afterwards" in said.text
    assert {wash, worked.run} <= set(said.evidence)
    assert any("begun on 2031-06-01 without the wash" in one.what for one in view.obstacles)
    # the sheet beside it, which went as planned, has the very same wash
    assert wash in {step.id for step in worked.view(worked.other).history.steps}


def test_a_reason_that_says_it_was_done_leaves_the_wash_as_it_was_entered(tmp_path: Path) -> None:
    worked = Worked(tmp_path / "studio", DONE_UNCLOCKED)
    view, wash = worked.view(), worked.noted("wash")
    assert view.history.contradicted == ()
    assert any(wash in one.evidence and one.section == "made" for one in view.statement)
    assert any(DONE_UNCLOCKED in one.what for one in view.life)


def test_what_is_said_after_drying_is_told_with_its_day_and_lifts_it(worked: Worked) -> None:
    # between the wash that is not counted and the bleach
    spot = studios.silver_test(worked.sheet, done_on="2031-06-01", place=80)
    drop = {"question": "thiosulfate", "method": "silver-nitrate spot"}
    last = studios.silver_test(worked.sheet, done_on="2031-06-01", place=300, **drop)
    studios.enter(worked.register, spot, last)
    assert state_of(worked) == "w"
    worked.watch.go(24 * 3600)
    with worked.register.act(WHO) as act:
        explain(act, worked.run, {0: "washed in the other sink"}, {0: True})
    view, wash = worked.view(), worked.noted("wash")
    (told,) = [one for one in view.life if "begun all the same" in one.what]
    assert "it had been done after all" in told.what
    assert "“washed in the other sink” (said 2031-06-02)" in told.what
    (claim,) = [one for one in view.statement if wash in one.evidence]
    assert claim.standing == Standing.FROM_NOTES
    # the rows of the view follow the explanation too
    assert state_of(worked) == "p"
    worked.register.close()
    assert not audit(worked.folder.path).damaged


def state_of(worked: Worked) -> str:
    """The state of the sheet by its row in the view: tested, or still at work."""
    ((state,),) = worked.register.read.connection.execute(
        "SELECT state FROM impression WHERE id = ?", (worked.sheet,)
    )
    return str(state)


def test_the_history_of_the_print_and_show_tell_it(
    worked: Worked, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    (event,) = [
        one
        for one in past_with_overrides(worked.register.read, worked.sheet)
        if "overridden" in one.changed
    ]
    assert ACCEPTED in event.changed["overridden"][1]
    assert event.who == WHO
    worked.register.close()

    def told(*words: str) -> str:
        monkeypatch.setattr("sys.argv", ["p", "--studio", str(worked.folder.path), *words])
        assert command() == 0
        return capsys.readouterr().out

    shown = json.loads(told("show", "QUAY", "Q8", "--json"))
    (over,) = shown["overrides"]
    assert (over["finding"], over["why"], over["standing"]) == ("Q2", ACCEPTED, "logged")
    assert (over["what"], over["run"]) == (worked.found.what, worked.run)
    assert len(shown["contradicted"]) >= 2
    assert "bleach begun all the same" in told("show", "QUAY", "Q8")
    assert "bleach begun all the same" in told("history", "QUAY", "Q8")
    assert "all the same" not in told("history", "QUAY", "Q9")
