import io
import re
import subprocess
from dataclasses import replace
from itertools import combinations
from pathlib import Path

import pypdf
import pytest
from hypothesis import given
from hypothesis import strategies as st

from provenance.documents.fonts import width_pt
from provenance.documents.label import LabelSheet, draw_labels
from provenance.documents.label_blocks import LEAST_LINE_PT, set_label
from provenance.documents.label_layout import Cell, PageName, shipped_label_layout
from provenance.documents.label_text import LabelText
from provenance.documents.page import SIZES_PT, Rule, Words
from provenance.errors import Refused
from tests.documents.labels import ORDINARY, label, said, sheet
from tests.tools import need

LAYOUT = shipped_label_layout()
LONG = "Acidified silver nitrate for the test of washing, kept in brown glass away from light"


def cells(page: PageName = "A4") -> list[Cell]:
    return list(LAYOUT.grid(page).cells(page))


def texts(pdf: bytes) -> list[str]:
    """The text of each page, with white space of any length as one space."""
    leaves = pypdf.PdfReader(io.BytesIO(pdf), strict=True).pages
    return [" ".join(leaf.extract_text().split()) for leaf in leaves]


def boxes(pdf: bytes, folder: Path) -> list[list[tuple[float, float, float, float, str]]]:
    """For each page its words: left, top, right and bottom, from the upper left, and text."""
    (folder / "labels.pdf").write_bytes(pdf)
    run = [need("pdftotext"), "-bbox", str(folder / "labels.pdf"), "-"]
    told = subprocess.run(run, capture_output=True, check=True).stdout.decode()
    found = []
    for leaf in told.split("<page ")[1:]:
        words = re.findall(r'xMin="(.+?)" yMin="(.+?)" xMax="(.+?)" yMax="(.+?)">(.*?)<', leaf)
        found.append([(float(a), float(b), float(c), float(d), text) for a, b, c, d, text in words])
    return found


def cell_of(word: tuple[float, float, float, float, str], page: PageName) -> list[int]:
    """Which cells, counted from 1, hold the whole of a word."""
    left, top, right, bottom, _text = word
    high_pt = SIZES_PT[page][1]
    return [
        at
        for at, cell in enumerate(cells(page), 1)
        if cell.left_pt <= left and right <= cell.left_pt + cell.width_pt
        if high_pt - cell.top_pt <= top and bottom <= high_pt - cell.top_pt + cell.height_pt
    ]


def eight() -> LabelSheet:
    return sheet(*(label(code=f"bottle-{at}", name=f"Bath number {at}") for at in range(1, 9)))


@pytest.mark.parametrize("blank", [False, True])
def test_everything_is_on_the_label(blank: bool) -> None:
    one = label(mixed=("Mixed", ""), discard=("Discard after", "")) if blank else ORDINARY
    drawn = draw_labels(sheet(one))
    (text,) = texts(drawn.pdf)
    assert [words for words in said(one) if words not in text] == []
    assert drawn.left_off == ((),)


@pytest.mark.parametrize(("page", "pages"), [("A4", [8]), ("letter", [6, 2])])
def test_every_word_stands_in_the_cell_of_its_label(
    page: PageName, pages: list[int], tmp_path: Path
) -> None:
    pdf = draw_labels(replace(eight(), page=page)).pdf
    found = [[cell_of(word, page) for word in leaf] for leaf in boxes(pdf, tmp_path)]
    assert [sorted({at for (at,) in leaf}) for leaf in found] == [
        list(range(1, count + 1)) for count in pages
    ]
    codes = {w[4]: cell_of(w, page) for leaf in boxes(pdf, tmp_path) for w in leaf}
    assert [codes[f"bottle-{at}"] for at in range(1, 9)] == [
        [at] for count in pages for at in range(1, count + 1)
    ]


def test_a_part_used_sheet_is_begun_where_it_was_left(tmp_path: Path) -> None:
    wanted = replace(eight(), first=3)
    leaves = boxes(draw_labels(wanted).pdf, tmp_path)
    used = [sorted({cell_of(word, "A4")[0] for word in leaf}) for leaf in leaves]
    assert used == [[3, 4, 5, 6, 7, 8], [1, 2]]
    assert wanted.sheets(LAYOUT) == 2


@pytest.mark.parametrize("first", [0, 9])
def test_a_label_that_the_sheet_does_not_have_is_refused(first: int) -> None:
    with pytest.raises(Refused, match="1 to 8"):
        draw_labels(sheet(first=first))


def test_the_page_is_as_large_as_it_is_called() -> None:
    for page, (wide, high) in SIZES_PT.items():
        pdf = draw_labels(sheet(page=page)).pdf
        box = pypdf.PdfReader(io.BytesIO(pdf)).pages[0].mediabox
        assert (box.width, box.height) == pytest.approx((wide, high), abs=0.01)


def test_equal_labels_give_equal_bytes_and_others_do_not() -> None:
    assert draw_labels(eight()) == draw_labels(eight())
    assert draw_labels(eight()).pdf != draw_labels(sheet(ORDINARY)).pdf


def test_a_full_label_gives_up_lines_then_meanings_and_never_codes() -> None:
    many = tuple((f"H3{at:02d}", "Harms what it touches for a long time.") for at in range(14))
    drawn = draw_labels(sheet(label(hazards=many)))
    (text,) = texts(drawn.pdf)
    assert "for a long time" not in text
    assert [code for code, _say in many if code not in text] == []
    assert ORDINARY.basis in text
    assert ORDINARY.protect[1] in text

    some = draw_labels(sheet(label(lines=(*ORDINARY.lines, ("In use", LONG * 8)))))
    assert some.left_off == (("In use",),)
    assert all(say in texts(some.pdf)[0] for _code, say in ORDINARY.hazards)


def test_what_holds_too_much_is_refused_with_what_to_shorten() -> None:
    full = label(code="tray-1", name=LONG * 4)
    deep = label(code="tray-2", contents=f"{LONG}; " * 9)
    with pytest.raises(Refused, match="lines too many") as refused:
        draw_labels(sheet(ORDINARY, full, deep))
    told = [(problem.record, problem.field) for problem in refused.value.problems]
    assert told == [("tray-1", "name"), ("tray-2", "contents")]
    assert all(f"shorten the {field}" in str(refused.value) for _code, field in told)


def test_a_long_name_is_wrapped_and_shrunk_but_whole() -> None:
    def name(words: str) -> list[Words]:
        marks = set_label(label(name=words), cells()[0], LAYOUT.label).marks
        return [ink for mark in marks if mark.element.role == "H1" for ink in mark.inks]  # type: ignore[misc]

    short, long = name("Citric stop"), name(LONG)
    assert len(short) == 1
    assert " ".join(ink.text for ink in long) == LONG
    assert long[0].style.size_pt < short[0].style.size_pt


def test_what_the_typeface_lacks_is_refused_by_field() -> None:
    with pytest.raises(Refused, match="静") as refused:
        draw_labels(sheet(label(code="tray-1", name="静かな")))
    (problem,) = refused.value.problems
    assert (problem.record, problem.field) == ("tray-1", "name")


def test_nothing_is_printed_as_markup() -> None:
    (text,) = texts(draw_labels(sheet(label(name="<b>1 & 2</b> &amp;"))).pdf)
    assert "<b>1 & 2</b> &amp;" in text


def test_no_labels_are_refused() -> None:
    with pytest.raises(Refused, match="no labels"):
        draw_labels(replace(sheet(), labels=()))


WORDS = st.text("abc defg hijklmnopäµ—1234", min_size=1, max_size=160).filter(str.strip)
PAIRS = st.lists(st.tuples(st.sampled_from(["H302", "H360FD", "EUH031"]), WORDS), max_size=9)


@given(
    name=WORDS,
    contents=WORDS,
    hazards=PAIRS.map(tuple),
    lines=PAIRS.map(tuple),
    page=st.sampled_from(list[PageName](["A4", "letter"])),
)
def test_whatever_it_says_a_label_is_refused_or_stays_inside(
    name: str,
    contents: str,
    hazards: tuple[tuple[str, str], ...],
    lines: tuple[tuple[str, str], ...],
    page: PageName,
) -> None:
    cell = cells(page)[3]
    one: LabelText = label(name=name, contents=contents, hazards=hazards, lines=lines)
    try:
        marks = set_label(one, cell, LAYOUT.label).marks
    except Refused:
        return
    inks = [ink for mark in marks for ink in mark.inks]
    words = [ink for ink in inks if isinstance(ink, Words)]
    for line in words:
        style = line.style
        right = line.x_pt + width_pt(line.text, style.font, style.size_pt)
        assert cell.left_pt < line.x_pt <= right < cell.left_pt + cell.width_pt
        assert style.size_pt < line.down_pt < cell.height_pt - style.size_pt * 0.25
        assert style.grey == 0
    for ink in inks:
        if isinstance(ink, Rule):
            assert min(ink.weight_pt, ink.width_pt) >= LEAST_LINE_PT
            assert cell.left_pt <= ink.x_pt <= ink.x_pt + ink.width_pt
            assert ink.x_pt + ink.width_pt <= cell.left_pt + cell.width_pt
            assert 0 <= ink.down_pt - ink.weight_pt / 2 <= ink.down_pt + ink.weight_pt / 2
            assert ink.down_pt + ink.weight_pt / 2 <= cell.height_pt
            assert ink.grey == 0
    shown = " ".join(ink.text for ink in words).split()
    assert all(code in shown for code, _say in hazards)
    for pair in combinations(words, 2):
        left, beside = sorted(pair, key=lambda line: line.x_pt)
        largest_pt = max(line.style.size_pt for line in pair)
        level = abs(left.down_pt - beside.down_pt) < 0.7 * largest_pt
        end = left.x_pt + width_pt(left.text, left.style.font, left.style.size_pt)
        assert not level or end <= beside.x_pt
