"""docs/schema/certificate-record-1.json describes every record that is issued, and nothing else."""

import copy
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from provenance.studio.certifying.certify import certify
from tests.studio.finished import Desk, desk
from tests.studios import revise

SCHEMA = json.loads(
    (Path(__file__).parents[2] / "docs" / "schema" / "certificate-record-1.json").read_text("utf-8")
)
VALIDATOR = jsonschema.Draft202012Validator(SCHEMA)


@pytest.fixture
def studio(tmp_path: Path) -> Iterator[Desk]:
    held = desk(tmp_path / "studio")
    yield held
    held.register.close()


def record(studio: Desk) -> dict[str, Any]:
    issued = certify(studio.register, studio.folder, studio.print)
    read: dict[str, Any] = json.loads(issued.path.with_suffix(".json").read_bytes())
    return read


def test_the_schema_is_one() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


def test_a_record_follows_it(studio: Desk) -> None:
    VALIDATOR.validate(record(studio))


def test_so_does_one_without_its_paper(studio: Desk) -> None:
    revise(studio.register, studio.shelf.printing, verb="correct", paper=None)
    read = record(studio)
    assert read["paper"] is None
    VALIDATOR.validate(read)


def parts(value: Any, path: tuple[str | int, ...] = ()) -> Iterator[tuple[str | int, ...]]:
    """Where the tables of a record stand."""
    if isinstance(value, dict):
        yield path
        for key, inner in value.items():
            yield from parts(inner, (*path, key))
    elif isinstance(value, list):
        for at, inner in enumerate(value[:1]):
            yield from parts(inner, (*path, at))


def test_what_is_added_or_left_out_anywhere_is_seen(studio: Desk) -> None:
    read = record(studio)
    for path in parts(read):
        for spoil in ("add", "drop"):
            spoilt = copy.deepcopy(read)
            table = spoilt
            for key in path:
                table = table[key]  # type: ignore[index]
            if spoil == "add":
                table["price"] = 1
            else:
                table.popitem()
            assert not VALIDATOR.is_valid(spoilt), (path, spoil)


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (("certificate", "revision"), 0),
        (("certificate", "revision"), 1.5),
        (("print", "image", "height_tenth_mm"), 300.5),
        (("journal", "head_sha256"), "AB"),
        (("form",), "certificate-record/2"),
    ],
)
def test_what_is_of_another_kind_is_seen(
    studio: Desk, path: tuple[str, ...], value: object
) -> None:
    read = table = record(studio)
    for key in path[:-1]:
        table = table[key]
    table[path[-1]] = value
    assert not VALIDATOR.is_valid(read)


def test_so_does_the_record_of_a_revision(studio: Desk) -> None:
    record(studio)
    issued = certify(studio.register, studio.folder, studio.print, revise="a slip of the pen")
    read = json.loads(issued.path.with_suffix(".json").read_bytes())
    assert read["certificate"]["replaces"]["revision"] == 1
    VALIDATOR.validate(read)
    del read["certificate"]["replaces"]["why"]
    assert not VALIDATOR.is_valid(read)
