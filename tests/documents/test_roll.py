"""Rolls: tables over several pages, their heads for the eye and for who cannot see them."""

import io
import subprocess
from itertools import pairwise
from pathlib import Path

import pypdf
import pytest

from provenance.craft.roll import Facts, Part, Says, Table, TableColumn
from provenance.documents.grid import Grid
from provenance.documents.page import MM
from provenance.documents.roll import draw_roll
from provenance.documents.table import lay_out
from provenance.errors import Refused
from tests.documents.rolls import ORDINARY, chapter, impressions, roll
from tests.tools import need

LONG = roll(chapters=(chapter(90),))


def texts(pdf: bytes) -> list[str]:
    """The text of each page, with white space of any length as one space."""
    leaves = pypdf.PdfReader(io.BytesIO(pdf), strict=True).pages
    return [" ".join(leaf.extract_text().split()) for leaf in leaves]


def structure(pdf: bytes, folder: Path) -> list[str]:
    """The roles of a file's elements, as another reader finds them."""
    path = folder / "roll.pdf"
    path.write_bytes(pdf)
    run = [need("pdfinfo"), "-struct", str(path)]
    told = subprocess.run(run, capture_output=True, check=True).stdout.decode()
    return [line.split()[0].rstrip(":") for line in told.splitlines() if line.strip()]


def test_every_page_repeats_the_heads_and_no_row_is_lost() -> None:
    pages = texts(draw_roll(LONG))
    assert len(pages) > 2
    assert all("Number Back Printed Where it is Certificate" in page for page in pages)
    whole = " ".join(pages)
    assert [row[0] for row in impressions(90).rows if f" {row[0]} " not in whole] == []
    assert [f"page {at} of {len(pages)}" in page for at, page in enumerate(pages, 1)] == [
        True
    ] * len(pages)


def test_a_reader_who_cannot_see_hears_the_heads_once(tmp_path: Path) -> None:
    told = structure(draw_roll(LONG), tmp_path)
    # two tables of two facts, and the impressions with a line of heads
    assert told.count("Table") == 3
    assert told.count("TR") == 4 + 1 + 90
    assert told.count("TH") == 4 + 5 + 90
    assert told.count("TD") == 4 + 4 * 90


def test_an_empty_cell_is_told_apart_from_none() -> None:
    (text,) = texts(draw_roll(roll(chapters=(chapter(3),))))
    assert "3/3 – – still to be printed –" in text


def test_several_chapters_bear_their_titles_and_one_does_not(tmp_path: Path) -> None:
    one = structure(draw_roll(ORDINARY), tmp_path)
    two = structure(draw_roll(roll(chapters=(chapter(2), chapter(2)))), tmp_path)
    assert [one.count(level) for level in ("H1", "H2", "H3")] == [1, 3, 0]
    assert [two.count(level) for level in ("H1", "H2", "H3")] == [1, 2, 6]


def test_who_it_is_for_stands_on_every_page() -> None:
    pages = texts(draw_roll(roll(seal="Full form: for the heirs.", chapters=(chapter(90),))))
    assert pages[0].count("Full form: for the heirs.") == 2
    assert [page.count("Full form: for the heirs.") for page in pages[1:]] == [1] * (len(pages) - 1)


@pytest.mark.parametrize("wide", [True, False])
def test_columns_fill_the_line_and_do_not_meet(wide: bool) -> None:
    grid = Grid(25 * MM, 160 * MM, 240 * MM, 25 * MM)
    columns = [TableColumn("a"), TableColumn("b", 40), TableColumn("c"), TableColumn("d")]
    places = lay_out(columns if wide else columns[:3], grid)
    for left, right in pairwise(places):
        assert left.x_pt + left.width_pt < right.x_pt
    assert places[-1].x_pt + places[-1].width_pt == pytest.approx(185 * MM)


def test_equal_rolls_give_equal_bytes() -> None:
    assert draw_roll(ORDINARY) == draw_roll(ORDINARY)
    assert draw_roll(ORDINARY) != draw_roll(roll(day="26 November 2033"))


def test_what_cannot_be_set_is_refused_with_its_row_and_column() -> None:
    held = Table((TableColumn("Number"), TableColumn("Where")), (("7/25", "with 雪"),))
    with pytest.raises(Refused, match=r"7/25, Where: the character 雪"):
        draw_roll(roll(chapters=(chapter(parts=(Part("Impressions", (held,)),)),)))


def test_markup_is_printed_as_it_was_typed() -> None:
    said = Part("Promise", (Says((("<b>25</b> & no more", ""),)), Facts((("a <i>", "b </i>"),))))
    (text,) = texts(draw_roll(roll(chapters=(chapter(parts=(said,)),))))
    assert "<b>25</b> & no more" in text
    assert "a <i> b </i>" in text
