"""A printing: from a process sheet, same as last time, only the exceptions typed."""

from pathlib import Path

import pytest

from provenance.model.chemistry import Bath
from provenance.model.edition import Edition
from provenance.model.printing import Printing, Step
from provenance.model.prints import Print
from provenance.model.proof import Test
from provenance.records.reader import Reader
from provenance.records.register import Register
from provenance.screens.dialogs.printing import NewPrinting
from provenance.screens.dialogs.treatment import NewTreatment
from tests import studios
from tests.screens.form_app import SIZES, Hands, at_the_keyboard, small_studio

both_sizes = pytest.mark.parametrize("size", SIZES, ids=["80x24", "120x40"])

SHEETS = 2


def studio(folder: Path) -> None:
    """A studio with two sheets of which nothing but their marks is known, and a toner."""
    small_studio(folder, SHEETS)
    with Register.open(folder, clock=studios.clock()) as register:
        studios.enter(
            register,
            Bath(code="dev-1", role="develop"),
            Bath(code="blch-1", role="bleach", one_shot=True),
        )


def steps_of(reader: Reader, mark: str) -> dict[str, Step]:
    """The steps of a sheet, by name."""
    edition = reader.by_code(Edition, "QUAY")
    assert edition is not None
    (record,) = reader.connection.execute(
        "SELECT id FROM print_key WHERE mark = ?", (mark,)
    ).fetchone()
    return {step.body.name: step.body for step in reader.linked(record, Step, "sheets")}


def sheet_id(reader: Reader, mark: str) -> int:
    """The id of a sheet."""
    (record,) = reader.connection.execute(
        "SELECT id FROM print_key WHERE mark = ?", (mark,)
    ).fetchone()
    return int(record)


async def first_printing(hands: Hands) -> None:
    """Enter a whole printing by keys, with what differed from the plan."""
    await hands.open(NewPrinting("QUAY"))
    await hands.put(printer="the artist", count="3", process="fibre-split-toned")
    await hands.go("as_planned")
    await hands.press("y")
    await hands.put(temperature="20.5", steps="bleach 75 s; Q4 90 s\nrinse 2 min after bleach")
    await hands.choose(silver="no stain", thiosulfate="no stain")
    await hands.put(
        base="14",
        aperture="f/8",
        grade="2 1/2",
        burns="quay wall, left +1/2; sky +1/3 grade 1",
        baths="developer dev-1; fix one F-1; bleach blch-1",
        enlarger="diffusion head",
    )
    await hands.press("ctrl+s")


@both_sizes
async def test_a_printing_is_entered_with_its_exceptions(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    studio(tmp_path)
    async with at_the_keyboard(tmp_path, size) as hands:
        await first_printing(hands)
        assert hands.results, hands.text()
        read = hands.app.register.read
        steps = steps_of(read, "Q4")
        own = sheet_id(read, "Q4")
        assert steps["bleach"].duration_ms == 75_000
        assert steps["bleach"].duration_for(own) == 90_000
        assert steps["developer"].temperature_tenth_c == 205
        assert steps["developer"].duration_ms == 120_000
        assert steps["wash after toning"].duration_ms == 3_600_000
        assert steps["fix one"].bath == read.by_code(Bath, "F-1").id  # type: ignore[union-attr]
        tests = [test.body for test in read.linked(own, Test, "covers")]
        assert {(test.question, test.verdict, test.reading) for test in tests} == {
            ("silver", "passed", "no stain"),
            ("thiosulfate", "passed", "no stain"),
        }
        silver = next(test for test in tests if test.question == "silver")
        assert steps["wash"].place < silver.place < steps["bleach"].place
        (printing,) = [one.body for one in read.all(Printing) if one.body.exposure]
        assert printing.exposure is not None
        assert printing.exposure.base_ms == 14_000
        assert [burn.area for burn in printing.exposure.burns] == ["quay wall, left", "sky"]


@both_sizes
async def test_the_next_printing_begins_as_the_last_one(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    studio(tmp_path)
    async with at_the_keyboard(tmp_path, size) as hands:
        await first_printing(hands)
        await hands.open(NewPrinting("QUAY"))
        assert "as on 2031-06-01" in hands.text()
        shown = {
            key: hands.value(key)
            for key in ("count", "sheets", "printer", "process", "temperature", "base", "aperture")
        }
        assert shown == {
            "count": "3",
            "sheets": "Q6, Q7, Q8",
            "printer": "the artist",
            "process": "fibre-split-toned",
            "temperature": "20.5 °C",
            "base": "14 s",
            "aperture": "f/8",
        }
        assert hands.value("burns") == "quay wall, left +1/2; sky +1/3 grade 1"
        # the bleach was used up and no newer one stands ready
        assert hands.value("baths") == "developer dev-1; fix one F-1"
        assert hands.value("as_planned") == ""
        assert not hands.form.changed
        await hands.go("as_planned")
        await hands.press("y", "f2")
        assert len(hands.results) == 2
        assert hands.results[1] is not None
        assert steps_of(hands.app.register.read, "Q8")["fix one"].duration_ms == 60_000


async def test_marks_follow_the_number_of_sheets_until_they_are_typed(tmp_path: Path) -> None:
    studio(tmp_path)
    async with at_the_keyboard(tmp_path) as hands:
        await hands.open(NewPrinting("QUAY"))
        assert hands.value("sheets") == "Q3, Q4"
        await hands.put(count="4")
        await hands.press("tab")
        assert hands.value("sheets") == "Q3, Q4, Q5, Q6"
        await hands.put(sheets="A1 A2", count="3")
        await hands.press("tab")
        assert hands.value("sheets") == "A1 A2"


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("date", "2031-13-01", "2031-13-01"),
        ("date", "2032-01-01", "still to come"),
        ("paper", "FB-99", "no paper FB-99"),
        ("count", "three", "whole number"),
        ("sheets", "Q1", "on the back of print"),
        ("process", "no-such-plan", "no process sheet"),
        ("temperature", "20.5 K", "not a temperature"),
        ("steps", "blech 75 s", "line 1"),
        ("steps", "bleach 75 s\nfix one for a while", "line 2"),
        ("steps", "bleach 75 s; Q99 80 s", "Q99"),
        ("steps", "silver test a bit grey", "what a spot shows"),
        ("baths", "developer no-such-tray", "no bath no-such-tray"),
        ("baths", "fixer F-1", "no step 'fixer'"),
        ("base", "long", "“long”"),
        ("aperture", "wide", "“wide”"),
        ("burns", "the sky a little", "how many stops"),
        ("image", "50 x 60", "smaller than the image"),
    ],
)
async def test_what_is_wrong_is_said_at_its_field_and_nothing_is_lost(
    tmp_path: Path, field: str, typed: str, said: str
) -> None:
    studio(tmp_path)
    async with at_the_keyboard(tmp_path) as hands:
        await hands.open(NewPrinting("QUAY"))
        head = hands.app.register.read.head()
        await hands.put(process="fibre-split-toned", note="kept")
        await hands.go("as_planned")
        await hands.press("y")
        await hands.put(**{field: typed})
        await hands.press("ctrl+s")
        assert hands.results == []
        at = "sheet" if field == "image" else field
        assert said in hands.wrong(at), (hands.wrong(at), hands.text())
        assert hands.value(field).startswith(typed)
        assert hands.value("note") == "kept"
        assert hands.app.register.read.head() == head


async def test_whether_all_was_as_planned_is_asked_not_assumed(tmp_path: Path) -> None:
    studio(tmp_path)
    async with at_the_keyboard(tmp_path) as hands:
        await hands.open(NewPrinting("QUAY"))
        await hands.put(process="resin-coated")
        await hands.press("ctrl+s")
        assert "not answered" in hands.wrong("as_planned")
        assert hands.form.fields["as_planned"].has_focus_within


async def test_without_the_plan_only_what_is_written_was_done(tmp_path: Path) -> None:
    studio(tmp_path)
    async with at_the_keyboard(tmp_path) as hands:
        await hands.open(NewPrinting("QUAY"))
        await hands.put(process="fibre-split-toned", baths="fix one F-1")
        await hands.go("as_planned")
        await hands.press("n")
        await hands.put(steps="developer\nfix one 1 min\nwash 40 min 18 C\nselenium 2 min")
        await hands.choose(silver="no stain")
        await hands.press("ctrl+s")
        assert hands.results, hands.text()
        read = hands.app.register.read
        steps = steps_of(read, "Q3")
        assert set(steps) == {"developer", "fix one", "wash", "selenium"}
        assert steps["developer"].duration_ms is None
        assert steps["fix one"].bath == read.by_code(Bath, "F-1").id  # type: ignore[union-attr]
        assert steps["wash"].temperature_tenth_c == 180
        (test,) = read.linked(sheet_id(read, "Q3"), Test, "covers")
        assert steps["wash"].place < test.body.place < steps["selenium"].place


@both_sizes
async def test_a_treatment_of_sheets_that_exist(tmp_path: Path, size: tuple[int, int]) -> None:
    studio(tmp_path)
    with Register.open(tmp_path, clock=studios.clock()) as register:
        prints = [stored.id for stored in register.read.all(Print)]
    async with at_the_keyboard(tmp_path, size) as hands:
        await hands.open(NewTreatment(prints))
        assert hands.value("prints") == "QUAY Q1, QUAY Q2"
        await hands.put(steps="selenium 3 min in no-such; Q2 4 min\nwash 60 min")
        await hands.press("ctrl+s")
        assert "line 1" in hands.wrong("steps")
        await hands.put(steps="selenium 3 min; Q2 4 min\nwash 60 min; not Q1")
        await hands.press("ctrl+s")
        assert hands.results, hands.text()
        read = hands.app.register.read
        selenium = next(
            step.body for step in read.linked(prints[0], Step, "sheets")
            if step.body.role == "selenium"
        )  # fmt: skip
        assert [selenium.duration_for(one) for one in prints] == [180_000, 240_000]
        assert [step.body.role for step in read.linked(prints[0], Step, "sheets")] == ["selenium"]
