"""An edition over twenty years, entered as day sheets, each on the evening of its day."""

from pathlib import Path

import pytest

from provenance.craft.reminders import Verdict
from provenance.model.edition import Edition
from provenance.model.prints import Print
from provenance.records.audit import audit
from provenance.records.dossier import print_history
from provenance.records.reader import Reader, Stored
from provenance.studio.custody import custody_of
from provenance.studio.daysheet.record import record_day_sheet
from provenance.studio.editions.counts import count_edition
from provenance.studio.editions.disclosing import disclosed_of
from provenance.studio.editions.promise import promise_changes
from provenance.studio.editions.reminding import remind
from provenance.studio.references import resolve_as, resolve_print
from tests.studio.sheets import Desk

SHEETS = sorted((Path(__file__).parent / "twenty_years").glob("*.toml"))


@pytest.fixture(scope="module")
def desk(tmp_path_factory: pytest.TempPathFactory) -> Desk:
    """The studio after twenty years."""
    held = Desk(tmp_path_factory.mktemp("years"))
    for sheet in SHEETS:
        held.day = sheet.stem
        record_day_sheet(held.folder, sheet, clock=held.evening())
    return held


@pytest.fixture
def reader(desk: Desk) -> Reader:
    """Its register."""
    return desk.folder.open().read


def edition(reader: Reader) -> Stored[Edition]:
    return resolve_as(reader, Edition, "EBB")


def line(desk: Desk, reader: Reader, name: str) -> str:
    return custody_of(reader, desk.folder, resolve_print(reader, name).id, private=True).line


def test_the_folder_is_whole(desk: Desk) -> None:
    assert len(SHEETS) == 10
    assert int(SHEETS[-1].stem[:4]) - int(SHEETS[0].stem[:4]) == 20
    assert not audit(desk.folder.path).findings


def test_there_were_two_printings_in_life_and_one_after(reader: Reader) -> None:
    printed = {
        print_history(reader, held.id).printing.body.done_on: print_history(reader, held.id)
        for held in reader.linked(edition(reader).id, Print, "edition")
    }
    assert {day: history.posthumous for day, history in printed.items()} == {
        "2004-03-14": False,
        "2011-05-20": False,
        "2021-04-18": True,
    }


def test_a_replacement_has_its_own_record_and_says_so(reader: Reader) -> None:
    now = resolve_print(reader, "EBB 1/25")
    assert (now.body.mark, now.body.designation) == ("E7", "1/25")
    former = reader.get(Print, now.body.replaces or 0).body
    assert (former.mark, former.existence, former.designation) == ("E1", "destroyed", "1/25")
    assert "insurer" in former.gone_evidence
    replaced = print_history(reader, now.id).replaced
    assert replaced is not None
    assert replaced.body == former


def test_the_promise_is_shown_as_it_was(reader: Reader) -> None:
    told = [
        (one.field, one.before, one.after)
        for one in promise_changes(reader, edition(reader).id, "metric")
    ]
    assert told == [("numbered", "25", "10"), ("closed", "", "2021-04-20")]
    assert edition(reader).body.promise.startswith("Twenty-five")


def test_both_counts(reader: Reader) -> None:
    counts = count_edition(reader, edition(reader))
    # 1 to 7 and AP I; the bon à tirer is outside, E7 stands for what burnt
    assert (counts.edition.declared, counts.edition.given) == (12, 8)
    assert (counts.edition.made, counts.edition.existing) == (11, 9)
    assert (counts.negative.declared, counts.negative.given) == (20, 10)
    assert [one.body.code for one in counts.others] == ["EBB-L"]


def test_what_is_reminded_of(desk: Desk, reader: Reader) -> None:
    said: dict[str, Verdict] = {
        one.reminder.id: one for one in remind(reader, desk.folder, edition(reader), None)
    }
    # the stamped print is not signed, and was not printed under the artist
    assert said["eu-vat"].result == said["fr-resale-right"].result == "does not hold"
    assert "signed" in said["eu-vat"].why
    assert said["proofs"].why.startswith("2 artist's proofs beside 10 prints is 20 %")
    assert said["us-ca-disclosure"].result == "cannot say"


def test_lines_of_provenance(desk: Desk, reader: Reader) -> None:
    assert line(desk, reader, "EBB E1") == (
        "The artist; Ottoline Farrowby [1961-2016], Highfen, 2004-10-02; destroyed 2009-11-30."
    )
    assert line(desk, reader, "EBB 2/25") == (
        "The artist; (The Lantern Rooms, Lowmouth, on consignment 2004-11-05);"
        " Casimir Oldershaw, 2005-09-14."
    )
    assert line(desk, reader, "EBB 3/25") == (
        "The artist; Museum of Tides, Saltreach, by gift 2017-09-30."
    )
    assert line(desk, reader, "EBB 4/25") == (
        "The artist; lost 2017-08. Philippa Wrenmoor, by 2024-07-05."
    )


def test_the_second_edition_is_disclosed_on_both(reader: Reader) -> None:
    for name, other in (("EBB 2/25", "Ebb, large, 8 in all"), ("EBB-L 1/8", "Ebb, 12 in all")):
        items = {one.item: one for one in disclosed_of(reader, resolve_print(reader, name).id)}
        assert items["other editions"].words.startswith(other)
        assert items["negative"].words == "destroyed since 2021-04-20"
    assert edition(reader).body.disclosed.endswith("was begun in 2014.")


SIGNED = """\
[[printing]]
edition = "EBB-L"
sheets = ["L3"]
date = 2021-04-19
printer = "assistant"
[[number]]
edition = "EBB-L"
sheets = ["L3"]
first = "3/8"
[[sign]]
prints = ["EBB-L 3/8"]
"""


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (SIGNED, "it is posthumous: printed on 2021-04-19, and the artist died on 2020-02-11"),
        (
            '[[printing]]\nedition = "EBB-L"\nsheets = ["L4"]\ndate = 2022-01-01\n',
            "negative N-31 is destroyed; no new print can be recorded from it",
        ),
        (
            '[[custody]]\nprints = ["EBB 3/25"]\nevent = "sold"\nto = "Somebody Else"\n',
            "it was given on 2017-09-30",
        ),
        (
            '[[custody]]\nprints = ["EBB E1"]\nevent = "sold"\nto = "Somebody Else"\n',
            "the print was destroyed on 2009-11-30",
        ),
        ('[[number]]\nedition = "EBB"\nsheets = ["E10"]\nfirst = "8/10"\n', "it is spoiled"),
        (
            '[[number]]\nedition = "EBB"\nsheets = ["E8"]\nfirst = "1/10"\n',
            "1/25 is taken by the print marked E7",
        ),
    ],
    ids=["signed after death", "no negative", "given twice", "sold when gone", "spoiled", "taken"],
)
def test_what_is_refused_after_it_all(desk: Desk, text: str, words: str) -> None:
    head = desk.head()
    told = " ".join(problem.what for problem in desk.refused(text))
    assert words in told
    assert desk.head() == head
