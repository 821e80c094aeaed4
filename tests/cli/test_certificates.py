"""The commands that check, revise and withdraw certificates, and keep the key."""

from pathlib import Path

import pytest

from provenance.records.register import Register
from provenance.studio.keys import ring
from tests.cli.conftest import Desk
from tests.studios import clock, revise


@pytest.fixture
def keyed(studio: Desk, monkeypatch: pytest.MonkeyPatch) -> Desk:
    monkeypatch.setenv(ring.VARIABLE, "nine black cats")
    assert studio.run("key", "new").status == 0
    return studio


def issued(studio: Desk) -> Path:
    (path,) = studio.run("certify", "QUAY", "7/25").lines
    return Path(path)


def test_a_certificate_in_force_ends_with_0(studio: Desk) -> None:
    done = studio.run("check", str(issued(studio)))
    assert done.status == 0
    assert done.lines[0].endswith("revision 1: Slipway, 7/25, by A. Printer")
    assert done.lines[1] == "The studio issued this file, and the certificate is in force."
    answers = [line[:24].rstrip() for line in done.lines if line[:24].strip() and line[24:]]
    for answer in ("intact      yes", "sealed      none", "on record   yes"):
        assert answer in answers
    assert "(Q7)" in done.lines[-1]
    assert max(map(len, done.lines)) <= 80


def test_an_altered_file_ends_with_3_and_a_superseded_one_with_1(
    studio: Desk, tmp_path: Path
) -> None:
    path = issued(studio)
    spoilt = tmp_path / "spoilt.pdf"
    spoilt.write_bytes(path.read_bytes() + b"more")
    assert studio.run("check", str(spoilt)).status == 3
    revised = studio.run("certify", "QUAY", "7/25", "--revise", "a slip of the pen")
    assert revised.status == 0
    assert "revision 2" in revised.err
    assert studio.run("check", str(path)).status == 1
    assert studio.run("check", revised.lines[0]).status == 0


def test_the_verdicts_as_json(keyed: Desk) -> None:
    path = issued(keyed)
    (found,) = keyed.run("check", str(path), "--json").data
    assert (found["certificate"], found["revision"]) == (path.stem, 1)
    verdicts = [found[name]["answer"] for name in ("intact", "sealed", "on_record")]
    assert verdicts == ["yes", "yes", "yes"]
    assert found["stands"] is True
    assert found["changed_since"] == []


def test_a_revision_tells_what_it_changed(studio: Desk) -> None:
    first = issued(studio)
    with Register.open(studio.path, clock=clock()) as register:
        revise(register, studio.print, verb="correct", mark="Q8")
    (path,) = studio.run("certify", "QUAY", "7/25", "--revise", "a slip of the pen").lines
    told = "Marks: Q7 on the back → Q8 on the back"
    checked = studio.run("check", path)
    assert "replaces                revision 1: a slip of the pen" in checked.lines
    assert f"{'changed':<24}{told}" in checked.lines
    assert f"{'since then':<24}{told}" in studio.run("check", str(first)).lines
    (data,) = studio.run("check", path, "--json").data
    change = {
        "topic": "marked",
        "label": "Marks",
        "before": "Q7 on the back",
        "after": "Q8 on the back",
    }
    assert data["replaces"] == {"revision": 1, "why": "a slip of the pen", "changed": [change]}
    assert f"changed {told}" in studio.run("show", first.stem).out
    (shown,) = studio.run("show", first.stem, "--json").data
    assert shown["changed"] == [change]
    Path(path).with_suffix(".json").unlink()
    shown_without = studio.run("show", first.stem)
    assert shown_without.status == 0
    assert "bring it back from a backup" in shown_without.err


def test_a_withdrawn_certificate_says_why(studio: Desk) -> None:
    path = issued(studio)
    (done,) = studio.run("withdraw", path.stem, "--reason", "sold in error", "--json").data
    assert done == {"certificate": path.stem, "revision": 1, "state": "withdrawn"}
    checked = studio.run("check", str(path))
    assert checked.status == 1
    assert "sold in error" in checked.out
    assert studio.run("withdraw", "DR-2031-0009-83", "--reason", "x").status == 1


def test_the_key_is_shown_retired_and_refused(keyed: Desk, tmp_path: Path) -> None:
    path = issued(keyed)
    (shown,) = keyed.run("key", "show", "--json").data
    assert shown["state"] == "in use"
    public = tmp_path / "given.pem"
    public.write_text(shown["public_pem"])
    assert keyed.run("check", str(path), "--key", str(public)).status == 0
    again = keyed.run("key", "new", "--json")
    assert again.status == 1
    assert again.problem["mend"] == "retire it first"
    (retired,) = keyed.run("key", "retire", "--json").data
    assert retired["fingerprint"] == shown["fingerprint"]
    assert keyed.run("key", "show").out.startswith("retired ")
    (other,) = keyed.run("key", "new", "--json").data
    assert other["fingerprint"] != shown["fingerprint"]
    (shown, _) = keyed.run("key", "show", "--json").data
    public.write_text(shown["public_pem"])
    assert keyed.run("check", str(path), "--key", str(public)).status == 3


def test_what_is_no_file_or_no_key_is_refused(studio: Desk, tmp_path: Path) -> None:
    path = issued(studio)
    assert studio.run("check", str(tmp_path / "none.pdf")).status == 1
    assert studio.run("check", str(path), "--key", str(path)).status == 1
    assert studio.run("check", str(path), "--key", str(tmp_path / "none.pem")).status == 1
