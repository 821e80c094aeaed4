"""Whatever a person writes is read or refused in words; nothing else ever comes of it."""

import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from provenance.errors import NotFound, Refused
from provenance.model.check_characters import near_misses, verify
from provenance.studio.processes import load_process
from provenance.studio.references import resolve
from provenance.studio.wordings import load_wording
from provenance.toml import read_toml
from tests.hostile.in_studio import Studio
from tests.hostile.readers import ALL, Reader, never_falls, try_texts

FEW = settings(
    max_examples=60,
    deadline=None,
    derandomize=True,
    suppress_health_check=[HealthCheck.too_slow],
)
"""The same texts each time; `python -m tests.hostile` takes other ones, and many more."""
FEWER = settings(FEW, max_examples=25)


@pytest.mark.parametrize("one", ALL, ids=lambda one: one.name)
def test_good_texts_are_read(one: Reader) -> None:
    read = 0
    for text in one.good:
        try:
            one.read(text)
            read += 1
        except Refused:
            continue
    assert read


@pytest.mark.parametrize("one", ALL, ids=lambda one: one.name)
def test_any_text_is_read_or_refused(one: Reader) -> None:
    try_texts(one, FEW)


@pytest.fixture(scope="module")
def studio(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Studio]:
    made = Studio(tmp_path_factory.mktemp("hostile"))
    yield made
    made.close()


def test_any_file_is_read_or_refused_whole(studio: Studio) -> None:
    before = studio.register.read.head()
    for one in studio.readers():
        for text in one.good[:1]:
            one.read(text)

        try_texts(one, FEWER)
    assert studio.register.read.head() == before


@given(st.binary(max_size=200))
@settings(FEW, max_examples=40)
def test_bytes_that_are_no_text(studio: Studio, data: bytes) -> None:
    text = data.decode("utf-8", "surrogateescape")
    for one in studio.readers():
        never_falls(one.read, text)


@pytest.mark.parametrize("name", ["../../settings", "/etc/passwd", "..", "en\x00", "x" * 5000, ""])
def test_a_name_is_never_a_way_out_of_the_folder(studio: Studio, name: str) -> None:
    (studio.path / "private").mkdir(exist_ok=True)
    (studio.path / "settings.toml").write_text('code = "x"\n')
    try:
        with pytest.raises(NotFound):
            load_process(studio.folder, name)
        with pytest.raises(NotFound):
            load_wording(studio.folder, name)
    finally:
        (studio.path / "settings.toml").unlink()


def test_half_a_character_names_nothing(studio: Studio) -> None:
    with pytest.raises(NotFound):
        resolve(studio.register.read, "F\udcff-9")
    assert (
        resolve(studio.register.read, "F\udcff-1").body == resolve(studio.register.read, "F-1").body
    )


@pytest.mark.parametrize(
    "text", ["a = " + "[" * 20_000, "a = " + "{a=" * 20_000, "a=" + "9" * 9999]
)
def test_toml_that_breaks_the_standard_parser_is_refused(text: str) -> None:
    with pytest.raises(tomllib.TOMLDecodeError):
        read_toml(text)


@pytest.mark.parametrize("name", ["wedge table", "wash readings", "substances"])
def test_a_cell_without_end_is_no_table(name: str) -> None:
    (one,) = (one for one in ALL if one.name == name)
    head, *_ = one.good[0].splitlines()
    with pytest.raises(Refused, match="not a table"):
        one.read(f"{head}\n{'1' * 150_000},2\n")


def test_a_number_without_end_is_no_number() -> None:
    assert not verify("9" * 100_000)
    assert near_misses("Q" * 100_000) == ()


def test_a_template_that_is_no_text_is_refused_by_name(studio: Studio) -> None:
    own = Path(studio.path / "templates" / "process" / "fibre-plain.toml")
    own.parent.mkdir(parents=True, exist_ok=True)
    own.write_bytes(b"\xff\xfe\x00")
    try:
        with pytest.raises(Refused, match=r"fibre-plain.toml.*not UTF-8"):
            load_process(studio.folder, "fibre-plain")
    finally:
        own.unlink()
