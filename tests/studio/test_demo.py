"""The demo studio: what it shows, twice without harm, cut off and resumed."""

import io
import json
import shutil
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from provenance.craft.issuing import obstacles
from provenance.craft.proof import judge
from provenance.craft.statement import QUESTIONS
from provenance.errors import Refused
from provenance.model.certificate import Certificate
from provenance.model.chemistry import Bath
from provenance.model.custody import CustodyEvent
from provenance.model.edition import Edition
from provenance.model.matching import MatchReport
from provenance.model.paper import Paper
from provenance.model.printing import Step
from provenance.model.prints import Print, Scan
from provenance.model.proof import Test
from provenance.records.audit import audit
from provenance.records.clock import SetClock
from provenance.records.dossier import print_history
from provenance.records.reader import Reader
from provenance.resources import resource
from provenance.studio.daysheet.record import record_day_sheet
from provenance.studio.demo import run_demo
from provenance.studio.demonstration.place import claim_place
from provenance.studio.demonstration.story import own_story
from provenance.studio.folder import StudioFolder
from provenance.studio.recall import recall
from provenance.studio.references import resolve_print
from provenance.studio.reprinting.plan import Wish, plan_reprint
from provenance.studio.sequences import load_rules
from provenance.studio.settings import Settings
from provenance.studio.shelf.bottles import bottles
from provenance.studio.shelf.trays import trays
from tests.studio.sheets import open_desk

TODAY = SetClock(datetime(2026, 11, 25, 12, 0, tzinfo=UTC))


class Cut(Exception):
    """The machine stops here."""


def run(folder: Path, cut_after: int | None = None) -> tuple[Path, list[str]]:
    """The path that the demo gives, and what it told; it is cut off at line `cut_after`."""
    told: list[str] = []

    def tell(line: str) -> None:
        told.append(line)
        if cut_after is not None and len(told) > cut_after:
            raise Cut

    return run_demo(StudioFolder(folder), tell, clock=TODAY), told


@dataclass(frozen=True)
class Made:
    """A demo studio that was made without a break."""

    folder: Path
    certificate: Path
    told: tuple[str, ...]


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Made:
    """The demo studio, made once."""
    folder = tmp_path_factory.mktemp("demo") / "studio"
    path, told = run(folder)
    return Made(folder, path, tuple(told))


@pytest.fixture(scope="module")
def read(made: Made) -> Iterator[Reader]:
    """The register of the demo studio."""
    with StudioFolder(made.folder).open() as register:
        yield register.read


def contents(folder: Path) -> list[tuple[int, str]]:
    """Everything in the journal, as (number, digest)."""
    with StudioFolder(folder).open() as register:
        return [(seq, mark) for seq, _data, mark in register.read.entries()]


def bodies(folder: Path) -> list[str]:
    """Every entry's verb and body, without what differs from one studio to the next."""
    with StudioFolder(folder).open() as register:
        entries = [json.loads(data) for _seq, data, _mark in register.read.entries(2)]
    kept = []
    for entry in entries:
        body = entry["body"]
        if entry["kind"] == "certificate":
            body = {key: body[key] for key in ("number", "print", "issued_at", "statement")}
        if entry["kind"] == "custody":
            body = body | {"party": bool(body["party"])}
        kept.append(json.dumps([entry["verb"], entry["record"], body], sort_keys=True))
    return kept


def test_every_state_of_a_print_is_there(made: Made) -> None:
    from provenance.studio.print_list import STATES, open_prints

    with open_prints(made.folder) as (columns, rows):
        states = Counter(row[columns.index("state")] for row in rows)
    assert set(states) == set(STATES)
    assert 35 <= sum(states.values()) <= 50


def test_the_ropewalk_is_complete_and_the_others_are_not(read: Reader) -> None:
    given = Counter(
        edition.body.code
        for edition in read.all(Edition)
        for held in read.all(Print)
        if held.body.edition == edition.id
        and held.body.designation
        and not held.body.designation.startswith(("TP", "BAT"))
    )
    declared = {edition.body.code: edition.body.declared for edition in read.all(Edition)}
    assert given["ROPE"] == declared["ROPE"] == 12
    assert given["QUAY"] < declared["QUAY"] == 28
    assert given["SLIP"] < declared["SLIP"] == 17


def test_the_tests_tell_every_kind_of_story(read: Reader) -> None:
    histories = [print_history(read, held.id) for held in read.all(Print)]
    findings = [judge(history, question) for history in histories for question in QUESTIONS]
    assert any(finding.mended for finding in findings)
    assert any(finding.failed for finding in findings)
    whys = {one.why for finding in findings for one in finding.discounted}
    assert "after toning" in whys
    assert any(test.body.measured_ng_per_cm2 == 900 for test in read.all(Test))
    assert any(not history.tests and history.steps for history in histories)
    assert {paper.body.base for paper in read.all(Paper)} == {"fibre", "resin-coated"}
    sources = {history.printing.body.source for history in histories}
    assert sources == {"notes", "memory"}


def test_the_shelf_has_a_bath_with_prints_on_both_sides_of_its_limit(read: Reader) -> None:
    fixer = read.by_code(Bath, "fixA-1910")
    assert fixer is not None
    found = recall(read, fixer, Settings())
    assert found.own_limit
    assert all(found.on_side(side) for side in ("within", "perhaps past", "past"))
    assert found.certificates


def test_bottles_were_drawn_down_and_thrown_away(read: Reader) -> None:
    today = read.all(Step)[-1].changed.local_date()
    held = bottles(read, today, retired=True)
    assert Counter(one.state for one in held) == {"good": 2, "retired": 4}
    assert {one.left_hundredth_ml for one in held} == {98_000, 92_000}
    standing = [one.bath.body.code for one in trays(read, Settings(), today)]
    assert "fixA-2605" in standing
    assert "fixA-1910" not in standing


def test_a_reprint_was_planned_matched_and_once_failed_at_one_spot(
    made: Made, read: Reader
) -> None:
    matched, failed = (one.body for one in read.all(MatchReport))
    assert (matched.outcome, matched.accepted) == ("matches", True)
    assert (failed.outcome, failed.accepted, failed.differs_at) == (
        "differs",
        False,
        ("quay wall",),
    )
    folder, today = StudioFolder(made.folder), date(2026, 11, 25)
    plan = plan_reprint(read, folder, matched.reference, Wish("FB-8841"), today=today)
    assert plan.change.grade == "2 1/2"
    assert [one.name for one in plan.change.candidates] == ["2 1/2", "2", "3"]
    assert plan.missing == ()
    assert all(one.predicted and abs(one.predicted.error) < one.tolerance for one in plan.aims)


def test_the_print_with_a_failed_test_is_held_back_by_that_alone(read: Reader) -> None:
    held = resolve_print(read, "SLIP 5/15")
    (problem,) = obstacles(print_history(read, held.id), load_rules())
    assert "the residual-silver test of 2024-04-20 failed" in problem.what


def test_a_whole_scan_of_sixteen_bits_is_among_the_scans(made: Made, read: Reader) -> None:
    deep = [scan for scan in read.all(Scan) if scan.body.bits == 16]
    assert deep
    for scan in deep:
        assert scan.body.width_px * scan.body.height_px >= 40_000_000
        assert scan.body.file_name.endswith(".tif")
        assert (made.folder / "scans" / scan.body.file_name).is_file()


def test_the_certificate_is_of_the_print_of_today(made: Made, read: Reader) -> None:
    held = resolve_print(read, "QUAY 9/25")
    (certificate,) = read.linked(held.id, Certificate, "print")
    assert made.certificate == made.folder / "certificates" / certificate.body.file_name
    assert made.certificate.read_bytes().startswith(b"%PDF-")
    assert certificate.body.issued_at.startswith("2026-11-25")
    standings = {claim.standing.value for claim in certificate.body.statement}
    assert "tested by eye" in standings
    assert "same-day notes" in standings


def test_what_is_told_is_what_is_on_record(made: Made, read: Reader) -> None:
    text = "\n".join(made.told)
    held = resolve_print(read, "QUAY 9/25")
    history = print_history(read, held.id)
    for step in history.steps:
        assert f"  {step.body.name} " in text
    (certificate,) = read.linked(held.id, Certificate, "print")
    for claim in certificate.body.statement:
        assert claim.sentence in text
    assert "it has no number; number it first" in text
    assert "the residual-silver test of 2026-11-25 failed" in text


def test_earlier_certificates_were_issued_on_their_days(read: Reader) -> None:
    years = [certificate.body.issued_at[:4] for certificate in read.all(Certificate)]
    assert years == ["2019", "2019", "2020", "2021", "2022", "2026"]
    numbers = [certificate.body.number for certificate in read.all(Certificate)]
    assert all(number.startswith("LQ-") for number in numbers)


def test_the_demo_studio_is_whole(made: Made) -> None:
    assert not audit(made.folder).findings


def test_no_collector_is_anywhere_but_in_the_contact_book(made: Made, read: Reader) -> None:
    import pypdf

    pages = [json.loads(path.read_bytes()) for path in (made.folder / "contacts").iterdir()]
    names = {page["contact"]["name"] for page in pages}
    assert len(names) >= 4
    assert sum(event.body.party is not None for event in read.all(CustodyEvent)) >= len(names)
    told = "\n".join(made.told)
    kept = [path.read_bytes() for path in made.folder.glob("register.db*")]
    kept += [path.read_bytes() for path in (made.folder / "certificates").iterdir()]
    for path in (made.folder / "certificates").glob("*.pdf"):
        document = pypdf.PdfReader(io.BytesIO(path.read_bytes()))
        kept += [page.extract_text().encode() for page in document.pages]
        kept += [data for files in document.attachments.values() for data in files]
    assert len(kept) > 12
    for name in names:
        assert name not in told
        assert not any(name.encode() in data for data in kept), name


def test_a_second_run_changes_nothing(made: Made) -> None:
    before = contents(made.folder)
    path, told = run(made.folder)
    assert path == made.certificate
    assert contents(made.folder) == before
    assert any("is here already: 40 prints" in line for line in told)


def test_it_goes_on_wherever_it_was_cut_off(made: Made, tmp_path: Path) -> None:
    folder = tmp_path / "studio"
    for part in ("days", "scans"):  # drawn scans are found and not drawn again
        shutil.copytree(made.folder / part, folder / part)
    for sheet in (folder / "days").glob("2026-11-25*"):
        sheet.unlink()
    found_only(folder)
    for cut_after in (0, 1, 3, 9, 30):
        with pytest.raises(Cut):
            run(folder, cut_after)
    path, _told = run(folder)
    assert path.name == made.certificate.name
    assert bodies(folder) == bodies(made.folder)
    assert not audit(folder).findings


def found_only(folder: Path) -> None:
    """The studio as it is when the machine stops between its founding and its first sheet."""
    first = (folder / "days" / "2019-03-16.toml").read_text("utf-8")
    table = first[first.index("[day]") : first.index("[[negative]]")]
    (folder.parent / "first.toml").write_text(table, encoding="utf-8")
    evening = own_story(folder / "days").evening[0].at
    record_day_sheet(StudioFolder(folder), folder.parent / "first.toml", clock=SetClock(evening))


def test_a_copy_of_the_day_sheets_that_was_cut_off_is_no_obstacle(tmp_path: Path) -> None:
    folder = tmp_path / "studio"
    (folder / "days").mkdir(parents=True)
    (folder / "days" / "2019-03-16.toml").write_text("[day]\n", encoding="utf-8")
    story = claim_place(StudioFolder(folder))
    assert (folder / "days" / "2019-03-16.toml").read_text("utf-8") != "[day]\n"
    assert own_story(folder / "days") == story


def test_a_folder_with_another_studio_is_refused(tmp_path: Path) -> None:
    desk = open_desk(tmp_path)
    before = desk.head()
    with pytest.raises(Refused, match=r"a studio of its own, The drying room.*--into DIR"):
        run(desk.folder.path)
    assert desk.head() == before
    assert not (desk.folder.path / "days").exists()


def test_a_studio_of_the_same_kind_under_another_name_is_refused(tmp_path: Path) -> None:
    desk = open_desk(tmp_path)
    (desk.folder.path / "days").mkdir()
    (desk.folder.path / "days" / "story.toml").write_bytes(
        resource("demo", "story.toml").read_bytes()
    )
    with pytest.raises(Refused, match="a studio of its own, The drying room"):
        run(desk.folder.path)


def test_a_folder_with_other_files_is_refused_and_left_alone(tmp_path: Path) -> None:
    (tmp_path / "letters").mkdir()
    (tmp_path / "letters" / "one.txt").write_text("Dear", encoding="utf-8")
    with pytest.raises(Refused, match=r"holds other files \(letters.one\.txt\).*--into DIR"):
        run(tmp_path)
    assert [path.name for path in tmp_path.iterdir()] == ["letters"]


def test_a_file_is_no_folder(tmp_path: Path) -> None:
    (tmp_path / "studio").write_text("", encoding="utf-8")
    with pytest.raises(Refused, match="this is a file, not a folder"):
        run(tmp_path / "studio")
