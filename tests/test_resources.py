"""The files that come with the program are found, and a missing one is named."""

import pytest

from provenance.resources import resource


def test_templates_and_demo_are_found() -> None:
    assert (resource("templates", "wording") / "en.toml").is_file()
    assert resource("demo").is_dir()


def test_a_missing_file_is_named() -> None:
    with pytest.raises(FileNotFoundError, match=r"templates/wording/xx\.toml"):
        resource("templates", "wording", "xx.toml")
