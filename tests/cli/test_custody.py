"""Custody, people, disclosure and reminders on the command line."""

from pathlib import Path

import pytest

from tests.cli.conftest import Desk

SHEET = """\
[day]
date = 2031-06-01
[[contact]]
name = "Ottoline Farrowby"
place = "Highfen"
[[custody]]
prints = ["QUAY 7/25"]
event = "sold"
on = 2031-05-05
to = "Ottoline Farrowby"
price = "900 EUR"
"""


@pytest.fixture
def sold(studio: Desk, tmp_path: Path) -> Desk:
    """The studio, after its print was sold."""
    sheet = tmp_path / "sale.toml"
    sheet.write_text(SHEET, encoding="utf-8")
    assert studio.run("record", str(sheet)).status == 0
    return studio


def test_people_are_named_only_in_full(sold: Desk) -> None:
    (plain,) = sold.run("custody", "QUAY", "7/25", "--json").data
    assert plain["where"] == "owned"
    assert plain["provenance"] == "The artist; a private owner, 2031-05-05."
    assert [one["to"] for one in plain["events"]] == [""]
    full = sold.run("custody", "QUAY 7/25", "--full")
    assert full.lines[0] == "QUAY 7/25   owned since 2031-05-05, Ottoline Farrowby"
    assert "900 EUR" in full.lines[1]
    assert full.lines[-1] == "The artist; Ottoline Farrowby, Highfen, 2031-05-05."


def test_a_person_is_erased(sold: Desk) -> None:
    (page,) = sold.run("contacts", "--json").data
    assert (page["name"], page["place"]) == ("Ottoline Farrowby", "Highfen")
    unsure = sold.run("erase", "Ottoline Farrowby")
    assert (unsure.status, unsure.out) == (2, "")
    erased = sold.run("erase", "Ottoline", "Farrowby", "--yes")
    assert erased.status == 0
    assert "beyond this folder, and not erased:" in erased.lines
    assert any("backups" in one for one in erased.lines)
    assert sold.run("contacts", "--json").data == []
    assert sold.run("audit").status == 0
    assert sold.run("erase", "Ottoline Farrowby", "--yes", "--json").status == 1


def test_what_cannot_be_erased_ends_with_1(sold: Desk, tmp_path: Path) -> None:
    sheet = tmp_path / "words.toml"
    said = 'features = "for Ottoline Farrowby"'
    sheet.write_text(
        f'[day]\ndate = 2031-06-01\n[[describe]]\nprints = ["QUAY 7/25"]\n{said}\n', "utf-8"
    )
    assert sold.run("record", str(sheet)).status == 0
    erased = sold.run("erase", "Ottoline Farrowby", "--yes")
    assert erased.status == 1
    assert "still to be read in register.db" in erased.err
    assert "the journal is never changed" in erased.err


def test_a_print_is_described_as_object_id_asks(studio: Desk) -> None:
    (told,) = studio.run("describe", "QUAY 7/25", "--json").data
    assert len(told["described"]) == 11
    assert told["missing"] == ["subject", "description"]
    assert told["described"]["measurements"].startswith("image 24.0 × 30.0 cm, sheet 30.5")
    lines = studio.run("describe", "QUAY 7/25").lines
    assert lines[0] == "QUAY 7/25   9 of 11 headings of Object ID are on record"
    assert any("[[describe]] subject" in one for one in lines)


def test_rules_are_held_against_an_edition(studio: Desk) -> None:
    told = {one["rule"]: one for one in studio.run("reminders", "QUAY", "--json").data}
    assert told["eu-vat"]["result"] == "cannot say"
    assert "taken by the artist" in told["eu-vat"]["why"]
    assert told["proofs"]["result"] == "holds"
    assert {one["note"] for one in told.values()} == {"not legal advice; local law decides"}
    priced = studio.run("reminders", "QUAY", "--price", "EUR 100,000.00")
    assert any("EUR 3,500 would be due" in one for one in priced.lines)
    wrong = studio.run("reminders", "QUAY", "--price", "a lot", "--json")
    assert wrong.status == 1
    assert wrong.problem["what"] == "“a lot” is not a price"


def test_certify_refuses_what_the_profile_leaves_open(studio: Desk, tmp_path: Path) -> None:
    settings = studio.path / "settings.toml"
    settings.write_text('disclosure = "union"\n')
    assert [
        one["item"]
        for one in studio.run("disclosure", "QUAY 7/25", "--json").data
        if (one["asked"] and one["reply"] == "open")
    ] == ["reproduction"]
    refused = studio.run("certify", "QUAY 7/25", "--json")
    assert refused.status == 1
    assert refused.problem["field"] == "disclosure: reproduction"
    assert "profile union asks for whether it reproduces" in refused.problem["what"]
    sheet = tmp_path / "answer.toml"
    sheet.write_text(
        '[day]\ndate = 2031-06-01\n[[disclose]]\nedition = "QUAY"\n[[disclose.answer]]\n'
        'item = "reproduction"\nreply = "disclaimed"\nwords = "The negative came without papers"\n'
    )
    assert studio.run("record", str(sheet)).status == 0
    assert "* disclaimed" in studio.run("disclosure", "QUAY 7/25").out
    assert studio.run("certify", "QUAY 7/25").status == 0
    settings.write_text('disclosure = "ours"\n')
    unknown = studio.run("disclosure", "QUAY 7/25", "--json")
    assert (unknown.status, unknown.problem["mend"]) == (1, "there are: union, trade")


def test_a_duplicate_stands_for_a_paper_that_is_lost(studio: Desk) -> None:
    reason = "the frame was stolen with it"
    assert studio.run("certify", "QUAY 7/25", "--duplicate", reason).status == 1
    (first,) = studio.run("certify", "QUAY 7/25", "--json").data
    (second,) = studio.run("certify", "QUAY 7/25", "--duplicate", reason, "--json").data
    assert second["certificate"] == first["certificate"]
    assert second["revision"] == 2
    (shown,) = studio.run("show", second["certificate"], "--json").data
    assert (shown["body"]["duplicate"], shown["body"]["state"]) == (True, "issued")
    assert studio.run("certify", "QUAY 7/25", "--duplicate", "a", "--revise", "b").status == 2
    assert studio.run("certify", "QUAY", "--all", "--duplicate", "a").status == 2


def test_an_edition_is_shown_with_both_counts_and_its_past(studio: Desk, tmp_path: Path) -> None:
    sheet = tmp_path / "promise.toml"
    sheet.write_text(
        '[day]\ndate = 2031-06-01\n[[promise]]\nedition = "QUAY"\nreason = "one too few"\n'
        'artist_proofs = 3\n[[close]]\nedition = "QUAY"\nwhy = "the paper is gone"\n'
    )
    assert studio.run("record", str(sheet)).status == 0
    lines = studio.run("show", "QUAY").lines
    assert "  this edition        25 + 3 AP: 1 of 28 on record, no more can come" in lines
    assert "  all sizes           1 of 28 on record, 27 still to come" in lines
    assert "  2031-06-01  artist proofs: 2 → 3: one too few" in lines
    assert "  closed              2031-06-01: the paper is gone" in lines
    (told,) = studio.run("show", "QUAY", "--json").data
    assert told["counts"]["negative"]["declared"] == 28
    assert [one["field"] for one in told["promise_changes"]] == ["artist proofs", "closed"]
