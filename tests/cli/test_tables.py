"""Tables go out and come in by commands; hostile texts never steer the terminal."""

import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from provenance.records.register import Register
from tests.cli.conftest import Desk


def test_a_table_is_tried_and_comes_in_once(studio: Desk, tmp_path: Path) -> None:
    table = tmp_path / "prints.csv"
    table.write_text("Nr;date\n3;2031-03-05\n")
    start = ("import", str(table), "--kind", "prints", "--set", "edition=QUAY", "--map")
    tried = studio.run(*start, "Nr=numeral", "--json")
    assert tried.status == 1
    assert "is no field of such a row" in tried.err
    # what is known as a head is known as a field too
    words = (*start, "Nr=number")
    assert studio.run(*words, "--dry-run", "--json").data[0]["saved"] is False
    came = studio.run(*words, "--json").data[0]
    assert (came["saved"], came["entries"]) == (True, 2)
    again = studio.run(*words)
    assert again.lines[-1] == "0 prints entered, 1 on record already"
    assert again.err.splitlines()[-1] == "nothing was written"


def test_one_is_counted_as_one(studio: Desk, tmp_path: Path) -> None:
    table = tmp_path / "table.csv"
    for kind, text, said in (
        ("papers", "code;base\nP-9;fibre\n", "1 paper entered"),
        ("custody", "print;event;on\nQUAY K9;lost;2031-04\n", "1 move entered"),
    ):
        if kind == "custody":
            table.write_text("date;edition;sheets\n2031-03-05;QUAY;K9\n")
            assert studio.run("import", str(table), "--kind", "printings").status == 0
            again = studio.run("import", str(table), "--kind", "printings")
            assert again.lines[-1] == "1 printing on record already"
        table.write_text(text)
        words = ("import", str(table), "--kind", kind)
        tried = studio.run(*words, "--dry-run").err
        number = {"papers": "1 entry", "custody": "2 entries"}[kind]
        assert f"would enter {number}; nothing was written" in tried
        came = studio.run(*words)
        assert came.lines[-1] == said
        assert f"saved {number} as act" in came.err


def test_a_refused_table_says_what_its_columns_were_taken_for(studio: Desk, tmp_path: Path) -> None:
    table = tmp_path / "prints.csv"
    table.write_text("edition;number;date;Preis\nQUAY;3;3.5.2031;900\n")
    words = ("import", str(table), "--kind", "prints")
    ran = studio.run(*words)
    assert (ran.status, ran.out) == (1, "")
    assert "column “number” is designation\n" in ran.err
    assert "column “Preis” is left out\n" in ran.err
    assert "line 2 date: “3.5.2031”" in ran.err
    assert "--dates day-first" in ran.err
    assert "column" not in studio.run(*words, "--json").err
    assert studio.run(*words, "--dates", "day-first").status == 0
    other = studio.run(*words, "--dates", "month-first").err
    assert "“2031-05-03” there, “2031-03-05” here" in other


def test_readings_have_no_order_of_dates(studio: Desk, tmp_path: Path) -> None:
    table = tmp_path / "spots.csv"
    table.write_text("print;spot;density\n")
    ran = studio.run("import", str(table), "--kind", "readings", "--dates", "day-first")
    assert ran.status == 2
    assert "write the date as" in ran.err


@pytest.mark.parametrize("form", ["csv", "json", "linked-art"])
def test_everything_goes_out(studio: Desk, tmp_path: Path, form: str) -> None:
    out = tmp_path / "out"
    gone = studio.run("export", str(out), "--format", form, "--json")
    assert gone.status == 0
    assert gone.data[0]["files"] == len(list(out.rglob("*.*")))
    assert studio.run("export", str(out), "--format", form).status == 1


def test_a_bag_is_made_and_restored(studio: Desk, tmp_path: Path) -> None:
    bag, new = str(tmp_path / "bag"), str(tmp_path / "new")
    made = studio.run("bag", bag)
    assert made.status == 0
    assert "not in it: persons, prices and places" in made.err
    assert studio.run("restore", bag, new).status == 0
    assert (
        studio.run("bag", str(tmp_path / "part"), "QUAY", "--json").data[0]["restorable"] is False
    )
    assert studio.run("bag", str(tmp_path / "none"), "NONE").status == 1


def test_names_in_an_archive_cannot_steer_the_terminal(studio: Desk, tmp_path: Path) -> None:
    from tests.records.exchange.packed import files_of, zipped

    for name in ("studio/\x1b[2J", "\x1b]0;owned\x07"):
        file = zipped(tmp_path / "a.zip", files_of({name: b"x"}))
        ran = studio.run("restore", str(file), str(tmp_path / "new"))
        assert ran.status == 1
        assert "\x1b" not in ran.out + ran.err
        assert "\x07" not in ran.out + ran.err


@settings(
    max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(
    words=st.one_of(
        st.sampled_from(
            [
                '"',
                "'; DROP TABLE journal; --",
                "NEAR(a b)",
                "words:quay",
                "a* OR b",
                "^quay",
                "quay) UNION SELECT 1 --",
                "{a b}:c",
                "\0",
                "-",
                "AND",
                "\x1b[2J",
            ]
        ),
        st.text(max_size=12),
    )
)
def test_no_words_are_taken_for_a_query(studio: Desk, words: str) -> None:
    found = studio.run("find", "--json", "--", words)
    assert found.status == 0
    assert "\x1b" not in found.out + found.err


def test_ctrl_c_leaves_nothing_half_written(studio: Desk, tmp_path: Path) -> None:
    table = tmp_path / "papers.csv"
    rows = "".join(f"P-{place},fibre\n" for place in range(60_000))
    table.write_text("code,base\n" + rows)
    with Register.open(studio.path) as register:
        before = register.read.head()
    running = subprocess.Popen(
        [
            *(sys.executable, "-m", "provenance", "--studio", str(studio.path)),
            *("import", str(table), "--kind", "papers"),
        ],
        stderr=subprocess.PIPE,
    )
    wal = studio.path / "register.db-wal"
    while running.poll() is None and not (wal.exists() and wal.stat().st_size):
        time.sleep(0.05)
    running.send_signal(signal.SIGINT)
    _, told = running.communicate(timeout=60)
    assert (running.returncode, told.decode().strip()) == (
        130,
        "interrupted; nothing was half written",
    )
    with Register.open(studio.path) as register:
        assert register.read.head() == before
