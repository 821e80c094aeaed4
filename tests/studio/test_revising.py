"""Correcting a certificate after issue: the next revision, and withdrawing."""

import copy
import io
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pypdf
import pytest

from provenance.errors import Damaged, NotFound, Refused
from provenance.model.certificate import Certificate
from provenance.model.edition import Edition
from provenance.records.audit import audit
from provenance.records.images import store_thumbnail
from provenance.studio.certifying.certify import Issued, certify
from provenance.studio.certifying.changes import Spoken, changes
from provenance.studio.certifying.revisions import revisions, withdraw
from provenance.studio.references import resolve
from provenance.studio.wordings import load_layout, load_wording
from tests.studio.finished import Desk, another, desk
from tests.studio.test_checking import other_picture
from tests.studio.test_record_schema import SCHEMA, VALIDATOR
from tests.studios import enter, revise, scan

WHY = "the mark on the back was misread"


@pytest.fixture
def studio(tmp_path: Path) -> Iterator[Desk]:
    held = desk(tmp_path / "studio")
    yield held
    held.register.close()


def issue(studio: Desk, **other: Any) -> Issued:
    return certify(studio.register, studio.folder, studio.print, **other)


def said(issued: Issued) -> str:
    pages = pypdf.PdfReader(io.BytesIO(issued.pdf)).pages
    return " ".join(" ".join(page.extract_text() for page in pages).split())


def corrected(studio: Desk) -> tuple[Issued, Issued]:
    first = issue(studio)
    revise(studio.register, studio.print, verb="correct", mark="Q8")
    return first, issue(studio, revise=WHY)


def test_a_revision_has_the_number_and_takes_the_place_of_the_first(studio: Desk) -> None:
    first, second = corrected(studio)
    assert (second.number, second.revision) == (first.number, 2)
    held = revisions(studio.register.read, first.number.lower())
    assert [one.body.state for one in held] == ["superseded", "issued"]
    assert held[0].body.state_why == WHY
    assert [one.id for one in held] == [first.record, second.record]


def test_the_number_means_the_last_revision_and_each_can_be_named(studio: Desk) -> None:
    first, second = corrected(studio)
    read = studio.register.read
    assert resolve(read, first.number).id == second.record
    assert resolve(read, f"{first.number}.r2").id == second.record
    assert resolve(read, f"#{first.record}").id == first.record


def test_both_files_stay_and_the_audit_finds_nothing(studio: Desk) -> None:
    first, second = corrected(studio)
    assert first.path.read_bytes() == first.pdf
    assert second.path.read_bytes() == second.pdf
    assert second.path.name == f"{first.number}.r2.pdf"
    report = audit(studio.folder.path)
    assert not report.damaged
    assert report.findings == ()


def test_the_page_and_its_record_say_what_was_replaced_and_why(studio: Desk) -> None:
    first, second = corrected(studio)
    assert f"{first.number}, revision 2" in said(second)
    assert f"Replaces revision 1 of 2 June 2031: {WHY}" in said(second)
    assert "Replaces" not in said(first)
    record = json.loads(second.path.with_suffix(".json").read_bytes())
    old = studio.register.read.get(Certificate, first.record).body
    assert record["certificate"]["replaces"] == {
        "revision": 1,
        "issued_at": old.issued_at,
        "record_sha256": old.record_sha256,
        "why": WHY,
        "changed": [
            {
                "topic": "marked",
                "label": "Marks",
                "before": "Q7 on the back",
                "after": "Q8 on the back",
            }
        ],
    }


def test_the_page_names_what_changed_under_the_reason(studio: Desk) -> None:
    _, second = corrected(studio)
    assert f"{WHY} Changed Marks: Q7 on the back → Q8 on the back Record" in said(second)


def test_long_texts_pictures_and_sentences_are_named_only(studio: Desk) -> None:
    first = issue(studio)
    edition = studio.register.read.get(Edition, studio.shelf.edition)
    revise(studio.register, edition.id, verb="correct", promise="Twenty-five, and no others " * 3)
    revise(studio.register, studio.wash, duration_ms=7_200_000)
    enter(
        studio.register,
        scan(studio.print, other_picture(), thumbnail_width_px=300, thumbnail_height_px=240),
    )
    store_thumbnail(studio.folder.images, other_picture())
    second = issue(studio, revise=WHY)
    assert "Changed Picture; Edition, promised; Sentences Record" in said(second)
    record = json.loads(second.path.with_suffix(".json").read_bytes())
    told = record["certificate"]["replaces"]["changed"]
    assert [one["topic"] for one in told] == [
        "picture",
        "edition_promised",
        "statement",
        "statement",
    ]
    assert told[2]["before"].startswith("Washed")
    assert not told[2]["after"]
    assert told[3]["after"].startswith("Washed")
    assert not told[3]["before"]
    VALIDATOR.validate(record)
    assert first.number == second.number


def test_a_revision_that_changes_nothing_says_so(studio: Desk) -> None:
    issue(studio)
    second = issue(studio, revise="torn; printed anew")
    assert "Changed nothing that is said of the print" in said(second)


def test_every_topic_of_the_record_is_compared(studio: Desk) -> None:
    issued = issue(studio)
    record = json.loads(issued.path.with_suffix(".json").read_bytes())
    spoken = Spoken(load_wording(studio.folder, "en"), load_layout(studio.folder, "en"), "metric")
    schema = SCHEMA["properties"]["certificate"]["properties"]["replaces"]["anyOf"][0]
    topics = schema["properties"]["changed"]["items"]["properties"]["topic"]["enum"]
    for path, value in {
        "negative.title": "Other",
        "print.designation": "8/25",
        "studio.artist": "B. Printer",
        "studio.place": "Corder Haven",
        "picture.thumbnail_sha256": "0" * 64,
        "print.image": {"height_tenth_mm": 1, "width_tenth_mm": 2},
        "print.sheet": {"height_tenth_mm": 1, "width_tenth_mm": 2},
        "paper.batch": "8841",
        "negative.state": "retired",
        "printed_on": "2031-03-04",
        "edition.numbered": 24,
        "print.signature": None,
        "print.mark": "Q9",
        "print.features": "a pinhole",
        "edition.other_editions": ["ROPE"],
        "statement": [],
    }.items():
        other = copy.deepcopy(record)
        *parents, last = path.split(".")
        table = other
        for name in parents:
            table = table[name]
        table[last] = value
        (topic,) = {one.topic for one in changes(record, other, spoken)}
        topics.remove(topic)
    assert topics == []
    assert changes(record, copy.deepcopy(record), spoken) == ()


def test_a_record_that_is_gone_or_altered_stops_a_revision(studio: Desk) -> None:
    first = issue(studio)
    path = first.path.with_suffix(".json")
    data = path.read_bytes()
    head = studio.register.read.head()
    path.write_bytes(data.replace(b"Q7", b"Q8"))
    with pytest.raises(Damaged, match="not the record that was issued"):
        issue(studio, revise=WHY)
    path.unlink()
    with pytest.raises(NotFound, match="cannot be read"):
        issue(studio, revise=WHY)
    assert studio.register.read.head() == head
    path.write_bytes(data)
    assert issue(studio, revise=WHY).revision == 2


def test_a_record_of_an_earlier_release_can_be_compared(studio: Desk) -> None:
    record = json.loads(issue(studio).path.with_suffix(".json").read_bytes())
    older = copy.deepcopy(record)
    older["paper"]["coating"] = "unknown today"
    del older["paper"]["tone"]
    spoken = Spoken(load_wording(studio.folder, "en"), load_layout(studio.folder, "en"), "metric")
    assert changes(older, record, spoken) == ()


def test_a_third_follows_and_numbers_go_on_without_a_gap(studio: Desk) -> None:
    first, _ = corrected(studio)
    third = issue(studio, revise="a slip of the pen")
    assert third.revision == 3
    other = certify(studio.register, studio.folder, another(studio, "Q9", "8/25"))
    assert int(other.number.split("-")[2]) == int(first.number.split("-")[2]) + 1


@pytest.mark.parametrize(
    ("why", "told"),
    [(" ", "a reason is needed"), ("it is archival", "'archival'"), ("写", "U\\+5199")],
)
def test_a_reason_that_cannot_stand_on_the_page_is_refused(
    studio: Desk, why: str, told: str
) -> None:
    issue(studio)
    head = studio.register.read.head()
    with pytest.raises(Refused, match=told):
        issue(studio, revise=why)
    assert studio.register.read.head() == head


def test_there_must_be_something_to_revise(studio: Desk) -> None:
    with pytest.raises(Refused, match="no certificate is in force"):
        issue(studio, revise=WHY)


def test_what_stands_against_a_certificate_stands_against_its_revision(studio: Desk) -> None:
    issue(studio)
    revise(
        studio.register, studio.print, existence="destroyed", gone_on="2031-05-01", gone_why="burnt"
    )
    with pytest.raises(Refused, match="it is destroyed"):
        issue(studio, revise=WHY)


def test_a_withdrawn_certificate_stays_on_record_with_the_reason(studio: Desk) -> None:
    first, second = corrected(studio)
    with studio.register.act("artist") as act:
        withdraw(act, first.number, "the print came back damaged")
    held = revisions(studio.register.read, second.number)
    assert [one.body.state for one in held] == ["superseded", "withdrawn"]
    assert held[1].body.state_why == "the print came back damaged"
    anew = issue(studio)
    assert anew.number != first.number
    assert anew.revision == 1


@pytest.mark.parametrize("number", ["DR-2031-0001-31", "", "%", "DR-2031-0009-83"])
def test_a_number_that_is_not_on_record_cannot_be_withdrawn(studio: Desk, number: str) -> None:
    issue(studio)
    with pytest.raises(NotFound), studio.register.act("artist") as act:
        withdraw(act, number, "no matter")


def test_withdrawing_twice_or_without_a_reason_is_refused(studio: Desk) -> None:
    number = issue(studio).number
    with pytest.raises(Refused, match="a reason is needed"), studio.register.act("artist") as act:
        withdraw(act, number, "")
    with studio.register.act("artist") as act:
        withdraw(act, number, "sold in error")
    with pytest.raises(Refused, match="withdrawn already"), studio.register.act("artist") as act:
        withdraw(act, number, "again")
