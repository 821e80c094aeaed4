"""Each command: what goes to standard output, what beside it, and how it ends."""

import json
import unicodedata
from collections.abc import Callable
from pathlib import Path

import pytest

from provenance.cli.main import COMMANDS, provenance
from provenance.cli.output import width
from provenance.model.check_characters import with_check_characters
from provenance.model.printing import Step
from provenance.model.prints import Print
from provenance.records.forms import KINDS
from provenance.records.register import Register
from tests.cli.conftest import Desk, commands
from tests.studios import Shelf, clock, enter, revise, sheet

SHEET = """
[day]
date = 2031-05-01
who = "artist"

[[negative]]
code = "N-9"
title = "{title}"
"""


def register(studio: Desk) -> Register:
    return Register.open(studio.path, clock=clock())


def day_sheet(path: Path, title: str = "Breakwater") -> str:
    path.write_text(SHEET.format(title=title), encoding="utf-8")
    return str(path)


def test_record_enters_a_day_sheet(studio: Desk, tmp_path: Path) -> None:
    file = day_sheet(tmp_path / "day.toml", "Breakwater")
    tried = studio.run("record", file, "--dry-run", "--json")
    assert (tried.status, tried.data[0]["saved"], tried.data[0]["act"]) == (0, False, None)
    assert studio.run("show", "N-9").status == 1
    (done,) = studio.run("record", file, "--json").data
    assert done["saved"] is True
    assert done["entries"] == 1
    assert len(done["entered"]) == 1
    assert studio.run("show", f"#{done['act']}", "--json").data[0]["body"]["code"] == "N-9"


def test_record_tells_a_person_on_two_streams(studio: Desk, tmp_path: Path) -> None:
    done = studio.run("record", day_sheet(tmp_path / "day.toml"))
    assert "N-9" in done.out
    assert "saved 1 entry as act" in done.err
    assert "saved" not in done.out


def test_record_refuses_with_the_line(studio: Desk, tmp_path: Path) -> None:
    file = tmp_path / "day.toml"
    file.write_text(SHEET.format(title="x") + 'made = "1985-13-01"\n')
    refused = studio.run("record", str(file), "--json")
    assert (refused.status, refused.out) == (1, "")
    assert refused.problem["line"] == 9
    assert refused.problem["mend"]


def test_list_prints(studio: Desk) -> None:
    listed = studio.run("list", "prints")
    assert listed.status == 0
    assert listed.lines[0].split() == [
        *("ID", "EDITION", "DESIGNATION", "MARK", "STATE", "PRINTED", "CERTIFICATE")
    ]
    assert listed.lines[1].split() == [str(studio.print), "QUAY", "7/25", "Q7", "n", "2031-03-02"]
    assert listed.err == "1 print\n"
    (one,) = studio.run("list", "print", "--json").data
    assert one == {
        "id": studio.print,
        "edition": "QUAY",
        "designation": "7/25",
        "mark": "Q7",
        "state": "n",
        "printed": "2031-03-02",
        "certificate": "",
    }


def test_list_chooses_among_prints(studio: Desk) -> None:
    assert len(studio.run("list", "prints", "--edition", "quay", "--json").data) == 1
    assert studio.run("list", "prints", "--state", "wx", "--json").data == []
    assert len(studio.run("list", "prints", "--state", "nc", "--limit", "1", "--json").data) == 1
    assert studio.run("list", "prints", "--edition", "PIER").status == 1
    assert studio.run("list", "prints", "--state", "z").status == 1
    assert studio.run("list", "editions", "--state", "n").status == 2


def test_wide_marks_keep_the_columns_of_prints(studio: Desk, tmp_path: Path) -> None:
    with register(studio) as held:
        revise(held, studio.print, mark="静かな")
    lines = studio.run("list", "prints").lines
    place = lines[0].index("STATE")
    before = lines[1][: lines[1].index(" n ")]
    assert width(before) + 1 == place


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_can_be_listed_and_each_of_its_records_shown(studio: Desk, kind: str) -> None:
    for word in (kind, kind.upper()):
        listed = studio.run("list", word, "--json")
        assert listed.status == 0
        assert studio.run("list", word).status == 0
    for one in listed.data:
        ref = f"#{one['id']}"
        (shown,) = studio.run("show", ref, "--json").data
        assert shown["kind"] == kind
        assert shown["id"] == one["id"]
        told = studio.run("show", ref)
        assert (told.status, told.err) == (0, "")
        assert told.out


def test_the_studio_holds_records_of_most_kinds(studio: Desk) -> None:
    held = {kind for kind in KINDS if studio.run("list", kind, "--json").data}
    assert held >= {"studio", "negative", "edition", "paper", "bath", "printing", "print"}
    assert held >= {"step", "test", "scan"}


def test_an_unknown_kind_is_refused_with_those_there_are(studio: Desk) -> None:
    refused = studio.run("list", "daguerreotypes", "--json")
    assert refused.status == 1
    assert "prints" in refused.problem["mend"]


@pytest.mark.parametrize("ref", [("QUAY", "7/25"), ("QUAY 7/25",), ("quay", "7"), ("QUAY", "Q7")])
def test_a_print_is_shown_with_what_its_record_supports(studio: Desk, ref: tuple[str, ...]) -> None:
    (shown,) = studio.run("show", *ref, "--json").data
    assert (shown["id"], shown["name"]) == (studio.print, "QUAY 7/25")
    assert shown["obstacles"] == []
    for claim in shown["statement"]:
        assert claim["sentence"].endswith(".")
        assert claim["standing"]
        assert bool(claim["evidence"]) == (claim["standing"] != "not on record")
    told = studio.run("show", *ref)
    for claim in shown["statement"]:
        assert f"  {claim['sentence']}" in told.lines


def test_what_stands_against_certifying_is_shown(studio: Desk) -> None:
    with register(studio) as held:
        revise(held, studio.print, signature=None)
        wash = held.read.linked(studio.print, Step, "sheets")[-1].id
        revise(held, wash, agent="archival washer")
    (shown,) = studio.run("show", "QUAY", "7/25", "--json").data
    assert [one["field"] for one in shown["obstacles"]] == ["signed", "made.washed"]
    assert "  it is not signed; record the signature first" in studio.run("show", "QUAY 7").lines


@pytest.mark.parametrize(
    ("words", "found"),
    [
        (("slip",), "negative"),
        (("SLIPWAY",), "negative"),
        (("静かな岸",), "print"),
        (("sofia",), ""),
        (("σοφία",), "print"),
        (("fu\u0308r",), "print"),
        (("no", "such", "thing"), ""),
        (('"',), ""),
        (("-",), ""),
        (('slip" OR "x',), ""),
        (("slip*",), "negative"),
        (("NOT", "slip"), ""),
        (("title:slip",), ""),
        (("(",), ""),
        (("\x1b",), ""),
    ],
)
def test_find_takes_words_as_they_are_typed(
    studio: Desk, words: tuple[str, ...], found: str
) -> None:
    ran = studio.run("find", "--json", "--", *words)
    assert ran.status == 0
    assert {one["kind"] for one in ran.data} == ({found} if found else set())
    assert studio.run("find", "--", *words).err.endswith("found\n")


def test_find_gives_at_most_so_many(studio: Desk) -> None:
    with register(studio) as held:
        one = held.read.get(Print, studio.print).body
        shelf = Shelf(0, one.edition, 0, one.printing, 0, 0)
        enter(held, *(sheet(shelf, f"Z{number}") for number in range(5)))
    assert len(studio.run("find", "quay", "--limit", "3", "--json").data) == 3


def test_history_tells_every_version(studio: Desk) -> None:
    with register(studio) as held:
        revise(held, studio.print, verb="correct", features="a crease")
    first, second = studio.run("history", "QUAY", "7/25", "--json").data
    assert (first["verb"], first["changed"]["mark"]) == ("enter", {"before": None, "after": "Q7"})
    assert second["verb"] == "correct"
    assert second["reason"] == "it was written down wrongly"
    assert list(second["changed"]) == ["features"]
    assert second["changed"]["features"]["after"] == "a crease"
    told = studio.run("history", "QUAY", "7/25")
    assert any("correct: it was written down wrongly" in line for line in told.lines)


def test_a_retired_record_keeps_its_history(studio: Desk) -> None:
    with register(studio) as held:
        test = held.read.linked(studio.print, KINDS["test"], "covers")[0]
        with held.act("printer") as act:
            act.void(test.id, test.version, "never made")
    assert studio.run("show", f"#{test.id}").status == 1
    events = studio.run("history", f"#{test.id}", "--json").data
    assert [event["verb"] for event in events] == ["enter", "void"]
    assert studio.run("history", str(test.id)).status == 0


@pytest.mark.parametrize("ref", ["#999999", "0", "NOTHING", "QUAY 9/25", "9" * 40, "#", "ſ"])
def test_a_reference_that_leads_nowhere_is_refused(studio: Desk, ref: str) -> None:
    for command in ("history", "show", "certify"):
        refused = studio.run(command, ref, "--json")
        assert (refused.status, refused.out) == (1, "")
        assert refused.problem["what"]


def test_undo_takes_an_act_back(studio: Desk) -> None:
    with register(studio) as held:
        version = revise(held, studio.print, features="a crease")
    (done,) = studio.run("undo", str(version), "--reason", "no crease", "--json").data
    assert done["undoes"] == version
    assert done["entries"] == 1
    events = studio.run("history", "QUAY", "7/25", "--json").data
    assert (events[-1]["verb"], events[-1]["act"]) == ("undo", done["act"])
    again = studio.run("undo", str(done["act"]), "--reason", "there is one", "--who", "AB")
    assert (again.status, again.out) == (0, "")
    assert "is taken back" in again.err
    assert studio.run("history", "QUAY", "7", "--json").data[-1]["who"] == "AB"


def test_undo_refuses_what_it_cannot_take_back(studio: Desk) -> None:
    assert studio.run("undo", "99999", "--reason", "x").status == 1
    assert studio.run("undo", "1", "--reason", " ").status == 1
    assert studio.run("undo", "1").status == 2
    assert studio.run("undo", "0", "--reason", "x").status == 2
    assert studio.run("undo", "9" * 30, "--reason", "x").status == 2


def test_certify_gives_the_path_of_the_certificate(studio: Desk, tmp_path: Path) -> None:
    copy = tmp_path / "copy.pdf"
    (done,) = studio.run(
        "certify", "QUAY", "7/25", "--out", str(copy), "--page", "letter", "--json"
    ).data
    assert Path(done["path"]) == copy
    (kept,) = (studio.path / "certificates").glob("*.pdf")
    assert copy.read_bytes() == kept.read_bytes()
    (shown,) = studio.run("show", "QUAY 7", "--json").data
    assert done["sentences"] == len(shown["statement"])
    (certificate,) = studio.run("show", done["certificate"], "--json").data
    assert certificate["body"]["page"] == "letter"
    refused = studio.run("certify", "QUAY", "7/25")
    assert (refused.status, refused.out) == (1, "")
    assert f"certificate {done['certificate']} is in force" in refused.err


def test_certify_tells_a_person_the_path(studio: Desk) -> None:
    done = studio.run("certify", "QUAY", "7/25", "--who", "AB")
    (path,) = done.lines
    assert Path(path).is_file()
    assert done.err == f"issued certificate {Path(path).stem}\n"


def test_a_mistyped_certificate_number_is_told_from_an_unknown_one(studio: Desk) -> None:
    (done,) = studio.run("certify", "QUAY", "7/25", "--json").data
    number = done["certificate"]
    slip = number[:-1] + str((int(number[-1]) + 1) % 10)
    refused = studio.run("show", slip, "--json")
    assert number in refused.problem["mend"]
    shorn = studio.run("answer", number[:-3], "--json")
    assert number in shorn.problem["mend"]
    other = studio.run("show", with_check_characters("DR-2031-0042"), "--json")
    assert "not on record here" in other.problem["what"]


def test_audit_says_that_all_is_whole(studio: Desk) -> None:
    told = studio.run("audit")
    assert told.status == 0
    assert told.lines[-1].startswith("whole")
    (last,) = studio.run("audit", "--json").data
    assert last["damaged"] is False
    assert len(last["head_sha256"]) == 64
    again = studio.run("audit", "--rebuild")
    assert again.status == 0
    assert "made anew" in again.err


def test_audit_ends_with_3_where_something_is_damaged(studio: Desk) -> None:
    (kept,) = (studio.path / "images").iterdir()
    kept.write_bytes(b"another picture")
    told = studio.run("audit", "--json")
    assert told.status == 3
    *findings, last = told.data
    assert last["damaged"] is True
    assert any(one["level"] and one["what"] for one in findings)
    assert studio.run("audit").status == 3
    refused = studio.run("certify", "QUAY", "7/25", "--json")
    assert (refused.status, json.loads(refused.err)["error"]) == (3, "damaged")


def test_a_folder_without_a_studio_is_refused(studio: Desk, tmp_path: Path) -> None:
    studio.path = tmp_path / "empty"
    for words in (("list", "prints"), ("list", "papers"), ("show", "QUAY"), ("audit",)):
        refused = studio.run(*words)
        assert (refused.status, refused.out) == (1, "")
        assert not studio.path.exists()


STEERING = "\x1b]0;owned\x07\x9b2J\u202e"


@pytest.mark.parametrize("as_json", [(), ("--json",)])
@pytest.mark.parametrize(
    "words",
    [
        ("list", STEERING),
        ("list", "prints", "--edition", STEERING),
        ("list", "prints", "--state", STEERING),
        ("list", "prints", "--limit", STEERING),
        ("show", STEERING),
        ("show", "QUAY", STEERING),
        ("history", STEERING),
        ("find", STEERING),
        ("certify", STEERING),
        ("certify", "QUAY", "7", "--out", f"/nowhere/{STEERING}"),
        ("certify", "QUAY", "7", "--page", STEERING),
        ("certify", "QUAY", "7", "--who", STEERING),
        ("undo", STEERING, "--reason", "x"),
        ("undo", "2", "--reason", STEERING),
        ("record", STEERING),
        (STEERING,),
        (f"--{STEERING}",),
        ("list", f"--{STEERING}"),
        ("list", "prints", STEERING),
    ],
)
def test_what_is_typed_never_steers_the_terminal(
    studio: Desk, words: tuple[str, ...], as_json: tuple[str, ...]
) -> None:
    ran = studio.run(*words, *as_json)
    assert ran.status in (0, 1, 2)
    for text in (ran.out, ran.err):
        assert not {letter for letter in text if unicodedata.category(letter) in ("Cc", "Cf")} - {
            "\n"
        }


def test_a_day_sheet_that_steers_is_refused_without_steering(studio: Desk, tmp_path: Path) -> None:
    file = day_sheet(tmp_path / f"{STEERING.replace('/', '')}.toml", "x\\u001b[2J")
    for words in (("record", file), ("record", file, "--json")):
        refused = studio.run(*words)
        assert (refused.status, refused.out) == (1, "")
        assert "\x1b" not in refused.err
        assert "\u202e" not in refused.err


def test_a_record_with_line_breaks_stays_on_its_line(studio: Desk) -> None:
    with register(studio) as held:
        revise(held, studio.print, mark="Q7\nQ8", inscriptions="one\ntwo")
    assert len(studio.run("list", "prints").lines) == 2
    assert len(studio.run("find", "Q7").lines) == 2
    (shown,) = studio.run("show", "QUAY", "7/25", "--json").data
    assert shown["body"]["inscriptions"] == "one\ntwo"


@pytest.mark.parametrize("words", commands(), ids=" ".join)
def test_every_command_gives_json_and_help(studio: Desk, words: tuple[str, ...]) -> None:
    helped = studio.run(*words, "--help")
    assert (helped.status, helped.err) == (0, "")
    assert "--json" in helped.out
    assert helped.out.startswith(f"Usage: provenance {' '.join(words)}")


WRONG: dict[str, Callable[[Desk], tuple[str, ...]]] = {
    "no such command": lambda _: ("develop",),
    "no such option": lambda _: ("list", "prints", "--colour"),
    "nothing named": lambda _: ("show",),
    "no number": lambda _: ("list", "prints", "--limit", "0"),
    "too large a number": lambda _: ("list", "papers", "--limit", "9" * 30),
}


@pytest.mark.parametrize("wrong", WRONG.values(), ids=WRONG)
def test_wrong_use_ends_with_2_and_the_usage(
    studio: Desk, wrong: Callable[[Desk], tuple[str, ...]]
) -> None:
    words = wrong(studio)
    told = studio.run(*words)
    assert (told.status, told.out) == (2, "")
    assert "Usage: provenance" in told.err
    assert "wrong use: " in told.err
    as_json = studio.run(*words, "--json")
    assert (as_json.status, as_json.out) == (2, "")
    assert json.loads(as_json.err)["error"] == "misuse"


def test_a_fault_of_the_program_ends_with_70(studio: Desk) -> None:
    def broken(*_: object, **__: object) -> None:
        raise ZeroDivisionError("division by zero \x1b[2J")

    studio.monkeypatch.setattr("provenance.studio.browsing.search", broken)
    fault = studio.run("find", "quay", "--json")
    assert (fault.status, fault.out) == (70, "")
    assert "ZeroDivisionError" in fault.problem["what"]
    assert "\x1b" not in studio.run("find", "quay").err


def test_an_interrupted_command_ends_with_130(studio: Desk) -> None:
    def interrupted(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    studio.monkeypatch.setattr("provenance.studio.browsing.search", interrupted)
    ended = studio.run("find", "quay")
    assert (ended.status, ended.out) == (130, "")
    assert "nothing was half written" in ended.err


def test_the_help_names_every_command_and_loads_none(studio: Desk) -> None:
    helped = studio.run("--help")
    assert helped.status == 0
    for name, (_module, about) in COMMANDS.items():
        assert name in helped.out
        assert about.split()[0] in helped.out
    assert list(COMMANDS) == provenance.list_commands(None)  # type: ignore[arg-type]
