"""docs/rules.md is what the rules say."""

from provenance.craft.sequence.finding import CASES
from tests.docs.rules_page import PAGE, page


def test_the_page_is_current() -> None:
    assert PAGE.read_text(encoding="utf-8") == page(), "run python -m tests.docs.rules_page"


def test_the_page_names_every_rule_once() -> None:
    headings = [line[4:] for line in page().splitlines() if line.startswith("### ")]
    assert headings == list(dict.fromkeys(case.partition(".")[0] for case in CASES))
    assert headings == [f"Q{number}" for number in range(1, 21)]
