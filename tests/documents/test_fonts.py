import re

import pytest

from provenance.documents.fonts import Font, require_glyphs
from provenance.errors import Refused
from provenance.resources import resource


@pytest.mark.parametrize("font", Font)
def test_european_scripts_can_be_set(font: Font) -> None:
    letters = "Žluťoučký kůň, smørrebrød, mười giờ, ελληνικά, кириллица"
    signs = "“1⁄2” – ½ × 40\N{NO-BREAK SPACE}°C, 0.9 µg"
    require_glyphs(font, letters + signs, record="QUAY 7/25", field="title")


@pytest.mark.parametrize(
    ("character", "named"),
    [
        ("写", "写 (U+5199, CJK UNIFIED IDEOGRAPH-5199)"),
        ("\N{CAMERA}", "📷 (U+1F4F7, CAMERA)"),
        ("\x07", "(U+0007, no name)"),
        ("\N{RIGHT-TO-LEFT OVERRIDE}", "(U+202E, RIGHT-TO-LEFT OVERRIDE)"),
        ("\N{SOFT HYPHEN}", "(U+00AD, SOFT HYPHEN)"),
        ("\N{COMBINING ACUTE ACCENT}", "(U+0301, COMBINING ACUTE ACCENT)"),
    ],
)
def test_a_character_that_cannot_be_set_is_named(character: str, named: str) -> None:
    with pytest.raises(Refused, match=re.escape(named)) as refusal:
        require_glyphs(Font.SERIF, f"Quay{character}", record="QUAY 7/25", field="title")
    (problem,) = refusal.value.problems
    assert (problem.record, problem.field) == ("QUAY 7/25", "title")
    assert problem.mend


def test_the_italic_lacks_superscript_figures() -> None:
    require_glyphs(Font.SERIF, "m²", record="r", field="f")
    with pytest.raises(Refused, match="SUPERSCRIPT TWO"):
        require_glyphs(Font.ITALIC, "m²", record="r", field="f")


def test_the_licences_lie_beside_the_typefaces() -> None:
    for name in ("OFL-EBGaramond.txt", "OFL-SourceSans3.txt"):
        assert "SIL Open Font License, Version 1.1" in resource(
            "templates", "fonts", name
        ).read_text("utf-8")
