"""A second paper of known speed and contrast: the plan recovers what is known."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime
from math import exp
from pathlib import Path

import pytest

from provenance.documents.worksheet import Worksheet, draw_worksheet
from provenance.documents.worksheet_words import shipped_worksheet_words
from provenance.errors import Refused
from provenance.model.body import Body
from provenance.model.chemistry import Bath
from provenance.model.paper import Paper
from provenance.model.printing import Burn, Exposure, Step
from provenance.model.process import Aim, PlannedStep, ProcessSheet
from provenance.model.quantities import Dilution
from provenance.model.readings import Wedge, WedgeStep
from provenance.model.study import WashReading
from provenance.records.register import Register
from provenance.studio.folder import StudioFolder
from provenance.studio.reprinting.plan import ReprintPlan, Wish, plan_reprint
from provenance.studio.reprinting.worksheet import worksheet_of
from tests.studios import (
    enter,
    furnish,
    new_register,
    reading,
    revise,
    sheet,
    tones,
    wash_study,
    wedge,
)

NET, D_MIN = 2.0, 0.05
SLOWER = 0.15
TODAY = date(2031, 6, 1)


def density_md(log_h: float, centre: float, steepness: float) -> int:
    return round(1000 * (D_MIN + NET / (1 + exp(-steepness * (log_h - centre)))))


def wedge_of(paper: int, grade: str, centre: float, log_range: float) -> Wedge:
    """A logistic paper; its tablet was printed with 10 s, which is log H 1."""
    steepness = 5.5355 * 1.10 / log_range
    steps = [
        WedgeStep(tablet_md=place * 100, tones=tones(density_md(1 - place / 10, centre, steepness)))
        for place in range(31)
    ]
    ends = {"unexposed": tones(50), "full": tones(2050)}
    return wedge(paper, grade=grade, steps=tuple(steps), **ends)


@dataclass
class Room:
    register: Register
    folder: StudioFolder
    print: int
    printing: int

    def enter(self, body: Body) -> int:
        return enter(self.register, body)

    def plan(self, **wish: object) -> ReprintPlan:
        wished = Wish(**{"paper": "FB-2", "magnification_thousandth": 5_000} | wish)  # type: ignore[arg-type]
        return plan_reprint(self.register.read, self.folder, self.print, wished, today=TODAY)

    def plan_sheet(self) -> Worksheet:
        drawn = datetime(2031, 6, 1, tzinfo=UTC)
        return worksheet_of(self.plan(), name="QUAY Q1", page="A4", drawn_at_utc=drawn)


@pytest.fixture
def room(tmp_path: Path) -> Iterator[Room]:
    with new_register(tmp_path / "studio") as register:
        with register.act("printer") as act:
            shelf = furnish(act)
        exposure = Exposure(
            base_ms=20_000,
            grade="2",
            aperture_tenth=80,
            head="diffuse",
            lens="105 mm",
            magnification_thousandth=4_000,
            magnification_from="measured",
            burns=(Burn(area="sky", milli_stop=500), Burn(area="hull", milli_stop=-250)),
        )
        revise(register, shelf.printing, exposure=exposure)
        print_ = enter(register, sheet(shelf, "Q1"))
        enter(register, Paper(code="FB-2", base="fibre"))
        yield Room(register, StudioFolder(tmp_path / "studio"), print_, shelf.printing)


def both_papers(room: Room) -> None:
    old = room.register.read.by_code(Paper, "FB-1")
    new = room.register.read.by_code(Paper, "FB-2")
    assert old is not None
    assert new is not None
    room.enter(wedge_of(old.id, "2", -0.5, 1.10))
    room.enter(wedge_of(new.id, "2", -0.5 + SLOWER, 1.10))
    room.enter(wedge_of(new.id, "4", -0.3 + SLOWER, 0.70))
    room.enter(reading(room.print, {"sky": 150, "wall": 650, "hull": 1600}))


def test_the_known_speed_and_contrast_are_recovered_within_the_band(room: Room) -> None:
    both_papers(room)
    plan = room.plan()
    assert plan.exposure is not None
    assert plan.change.grade == "2"
    # 20 s, m 4 to 5, paper slower by 0.15: 40.681 s (handbook of the trade, C)
    assert plan.exposure.low_s < 40.681 < plan.exposure.high_s
    assert plan.exposure.seconds == pytest.approx(40.681, rel=0.003)
    assert all(
        one.predicted is not None and abs(one.predicted.error) < one.tolerance for one in plan.aims
    )


def test_burns_and_dodges_keep_their_stops(room: Room) -> None:
    both_papers(room)
    plan = room.plan()
    base = plan.parts_s["2"]
    (sky,), (hull,) = (area.changes for area in plan.areas)
    assert sky.seconds == pytest.approx(base * (2**0.5 - 1))
    assert hull.seconds == pytest.approx(-base * (1 - 2**-0.25))


def test_the_strip_reaches_over_the_band(room: Room) -> None:
    both_papers(room)
    plan = room.plan()
    assert plan.strip is not None
    assert plan.exposure is not None
    totals = [one.total_s for one in plan.strip.patches]
    assert totals[0] <= plan.exposure.low_s
    assert plan.exposure.high_s <= totals[-1]


def test_without_wedges_the_plan_is_weaker_and_says_so(room: Room) -> None:
    plan = room.plan()
    assert plan.exposure is not None
    assert plan.exposure.band_stops >= 0.99
    said = " ".join(map(str, plan.missing))
    assert "cannot be compared" in said
    assert "tones were not read" in said


def test_without_a_base_no_time_is_made_up(room: Room) -> None:
    revise(room.register, room.printing, exposure=None)
    plan = room.plan()
    assert (plan.exposure, plan.strip, plan.areas) == (None, None, ())
    assert any("base" in one.what for one in plan.missing)


def test_the_same_paper_at_the_same_size_changes_nothing(room: Room) -> None:
    plan = room.plan(paper="FB-1", magnification_thousandth=None)
    assert plan.exposure is not None
    assert plan.exposure.seconds == pytest.approx(20.0)


@pytest.mark.parametrize(
    ("wish", "field"),
    [({"paper": "FB-9"}, "paper"), ({"grade": "7"}, "grade"), ({"sheets": 0}, "sheets")],
)
def test_a_wish_that_cannot_be_met_is_refused(
    room: Room, wish: dict[str, object], field: str
) -> None:
    both_papers(room)
    with pytest.raises(Refused) as refused:
        room.plan(**wish)
    assert refused.value.problems[0].field == field


def test_what_is_not_as_it_was_is_marked(room: Room) -> None:
    bath_then = room.enter(
        Bath(
            code="sel-1",
            role="selenium",
            made_from="selenium toner",
            dilution=Dilution(parts_hundredths=(100, 900), typed="1+9"),
            made_on="2031-03-01",
        )
    )
    done = Step(
        role="selenium",
        name="selenium",
        sheets=(room.print,),
        bath=bath_then,
        done_on="2031-03-02",
        place=0,
        duration_ms=180_000,
    )
    room.enter(done)
    step = PlannedStep(
        name="selenium", role="selenium", agent="selenium 1+19", aim=Aim(time_ms=240_000)
    )
    plan = ProcessSheet(code="now", name="Now", base="fibre", steps=(step,))
    process = room.enter(plan)
    revise(room.register, room.printing, process=process)
    session = room.plan().session
    assert session is not None
    (tray,) = session.trays
    assert [str(one) for one in tray.differences] == ["1+9 then, 1+19 now", "3:00 then, 4:00 now"]
    (mix,) = session.mixes
    assert "selenium 1+19" in mix.text


def test_the_worksheet_says_what_the_plan_says_in_both_languages(room: Room) -> None:
    both_papers(room)
    plan = room.plan()
    for language, predicted, hand in (("en", "predicted", "burn"), ("fr", "prévu", "monter")):
        sheet = worksheet_of(
            plan,
            name="QUAY Q1",
            page="A4",
            drawn_at_utc=datetime(2031, 6, 1, tzinfo=UTC),
            language=language,
        )
        lines = {line.name: line for part in sheet.parts for line in part.lines}
        assert lines["B  wall"].aim.startswith("0.65")
        assert lines["B  wall"].more.startswith(predicted)
        assert lines["sky"].aim.startswith(hand)
        assert len(sheet.figures) == 2
        told = [text for note in sheet.notes for text in note.lines]
        assert any("4" in text and "hull" in text for text in told)
        assert len(told) == len(plan.missing) + len(plan.questions) + len(plan.cautions) + 1
        assert draw_worksheet(sheet).startswith(b"%PDF")


def test_how_the_paper_washes_is_drawn_where_it_was_studied(room: Room) -> None:
    both_papers(room)
    new = room.register.read.by_code(Paper, "FB-2")
    assert new is not None
    falling = ((5, 12_000), (10, 5_500), (20, 2_200), (30, 1_300), (45, 700), (60, 450))
    few = room.enter(wash_study(new.id, code="WASH-2"))
    assert len(room.plan_sheet().figures) == 2, "four readings that bend make no curve"
    revise(
        room.register,
        few,
        code="WASH-1",
        readings=tuple(
            WashReading(washed_ms=minutes * 60_000, left_ng_per_cm2=left)
            for minutes, left in falling
        ),
    )
    sheet = room.plan_sheet()
    assert len(sheet.figures) == 3
    assert "WASH-1" in sheet.figures[-1].caption
    assert draw_worksheet(sheet).startswith(b"%PDF")


def test_every_gap_and_question_has_words_in_french(room: Room) -> None:
    revise(room.register, room.printing, exposure=Exposure(preflash_ms=1_000, mask="soft"))
    plan = room.plan(magnification_thousandth=None)
    words = shipped_worksheet_words("fr")
    assert {one.id for one in plan.missing} <= words.say_missing.keys()
    assert {one.id for one in plan.questions} <= words.say_question.keys()
    assert len(plan.missing) >= 9
    assert {one.id for one in plan.questions} == {"tablet", "flash", "mask"}
