"""docs/keys.md is what the program does."""

from tests.documented.keys import PAGE, page


def test_the_page_is_current() -> None:
    assert PAGE.read_text(encoding="utf-8") == page(), "run python -m tests.documented.keys"
