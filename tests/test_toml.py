"""TOML that anybody may have written: read, or refused with the parser's own error."""

import tomllib

import pytest

from provenance.toml import read_toml


def test_what_is_written_is_read() -> None:
    assert read_toml('[day]\nwho = "é"\n') == {"day": {"who": "é"}}


@pytest.mark.parametrize(
    ("text", "why"),
    [
        pytest.param('a = "\ud800"', "half a character", id="half a character"),
        pytest.param("a = " + "[" * 50 + "]" * 50, "nested too deep", id="many brackets"),
        pytest.param(".".join("a" * 50) + " = 1", "nested too deep", id="many dots"),
        pytest.param("a = " + "[" * 50_000, "nested too deep", id="more than the parser bears"),
        pytest.param("a = " + "9" * 5_000, "cannot be read", id="a number without end"),
    ],
)
def test_what_no_file_should_hold_is_refused(text: str, why: str) -> None:
    with pytest.raises(tomllib.TOMLDecodeError, match=why):
        read_toml(text)
