import re

import pytest

from provenance.documents.template import read_layout, shipped_layout
from provenance.errors import Refused
from provenance.resources import resource

SHIPPED = resource("templates", "certificate.toml").read_text("utf-8")


def changed(old: str, new: str) -> str:
    assert SHIPPED.count(old) == 1
    return SHIPPED.replace(old, new)


def line_of(text: str, words: str) -> int:
    return next(at for at, line in enumerate(text.splitlines(), 1) if words in line)


def test_the_shipped_layout_is_as_the_design_says() -> None:
    measures = shipped_layout().measures
    assert (measures.margin_left_mm, measures.margin_top_mm) == (25, 25)
    assert measures.picture_most_mm == 95


def test_a_studio_may_change_order_and_labels() -> None:
    text = changed('"sections", "care"', '"care", "sections"')
    text = text.replace('care = "Advice on keeping"', 'care = "Care"')
    layout = read_layout(text, "own.toml")
    assert layout.blocks.index("care") < layout.blocks.index("sections")
    assert layout.labels["care"] == "Care"


def test_a_studio_may_have_its_own_mark() -> None:
    assert shipped_layout().mark is None
    text = changed("[order]", '[mark]\nfile = "our mark.png"\n[order]')
    mark = read_layout(text, "own.toml").mark
    assert mark is not None
    assert (mark.file, mark.height_mm) == ("our mark.png", 8)
    assert mark.line == line_of(text, "our mark.png")


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("margin_top_mm = 25", "margin_up_mm = 25", "margin_up_mm is not known in [page]"),
        ('"care", "signature"', '"ornament", "care", "signature"', "'ornament' is not one of"),
        ('"care", "signature"', '"care", "care", "signature"', "'care' stands twice"),
        ('"sections", "care"', '"care"', "blocks must name sections too"),
        ('"signed", "marked",', '"signed",', "particulars must name marked too"),
        ('tested = "What was tested"', "", "needs words for tested"),
        ('tested = "What was tested"', "tested = 3", "needs words for tested"),
        ('paper = "Paper"', 'paper = "Paper"\nclaim = "Archival"', "claim is not known"),
        ("margin_top_mm = 25", "margin_top_mm = 2", "must lie between 5 and 60"),
        ("margin_top_mm = 25", 'margin_top_mm = "25"', "must be a number"),
        ("picture_least_mm = 55", "picture_least_mm = 99", "more than picture_most_mm"),
        ("[order]", '[mark]\nfile = "../m.png"\n[order]', "file must name an image"),
        ("[order]", '[mark]\nfile = ".m.png"\n[order]', "file must name an image"),
        ("[order]", "[mark]\nfile = 3\n[order]", "file must name an image"),
        ("[order]", "[mark]\nheight_mm = 8\n[order]", "file must name an image"),
        ("[order]", '[mark]\nfile = "m.png"\nheight_mm = 21\n[order]', "between 3 and 20"),
        ("[order]", '[mark]\nfile = "m.png"\nheight_mm = nan\n[order]', "between 3 and 20"),
        ("[order]", '[mark]\nfile = "m.png"\nheight_mm = true\n[order]', "must be a number"),
        ("[order]", '[mark]\nfile = "m.png"\nsays = "x"\n[order]', "says is not known in [mark]"),
        ("form = 1", "form = 2", "form must be 1"),
        ("form = 1", "form = ", "not TOML"),
    ],
)
def test_what_is_wrong_is_refused_with_its_line(old: str, new: str, told: str) -> None:
    text = changed(old, new)
    with pytest.raises(Refused, match=re.escape(told)) as refusal:
        read_layout(text, "own.toml")
    (problem,) = refusal.value.problems
    assert problem.record == "own.toml"
    assert problem.mend
    assert problem.line is not None


@pytest.mark.parametrize(
    ("old", "new", "line"),
    [
        ("margin_left_mm = 25", "margin_near_mm = 25", "margin_near_mm"),
        ("[order]", '[mark]\nfile = "m.png"\nheight_mm = 2\n[order]', "height_mm = 2"),
        ("[order]", '[mark]\nfile = "/m.png"\n[order]', "/m.png"),
        ('marked = "Marks"', 'marked = "M"\nseal = "S"', "seal ="),
        ('"title", "print"', '"title", "seal", "print"', '"seal"'),
        ("form = 1", "form = ", "form ="),
    ],
)
def test_the_line_is_the_right_one(old: str, new: str, line: str) -> None:
    text = changed(old, new)
    with pytest.raises(Refused) as refusal:
        read_layout(text, "own.toml")
    assert refusal.value.problems[0].line == line_of(text, line)


def test_a_language_without_labels_is_refused() -> None:
    with pytest.raises(Refused, match="no labels in 'xx', only in en"):
        shipped_layout("xx")
