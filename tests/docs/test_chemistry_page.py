"""docs/chemistry.md is what the tables say."""

from provenance.resources import resource
from provenance.studio.chemicals import load_chemicals
from tests.docs.chemistry_page import PAGE, page


def test_the_page_is_current() -> None:
    assert PAGE.read_text(encoding="utf-8") == page(), "run python -m tests.docs.chemistry_page"


def test_the_page_names_everything_that_comes_along() -> None:
    text = page()
    for one in load_chemicals().substances:
        assert f"(`{one.id}`)" in text
    for kind in ("formulas", "process"):
        for path in resource("templates", kind).glob("*.toml"):
            assert f"(`{path.stem}`" in text
