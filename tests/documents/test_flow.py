from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from provenance.documents.flow import (
    Column,
    Slab,
    Strand,
    height_pt,
    paginate,
    paragraph,
    row,
    side_by_side,
    stacked,
    together,
)
from provenance.documents.grid import READ
from provenance.documents.page import Element, Mark, Words

SLABS = st.lists(
    st.builds(
        Slab,
        height_pt=st.integers(1, 40).map(float),
        marks=st.just(()),
        gap_pt=st.integers(0, 20).map(float),
        kept=st.booleans(),
        stretch_pt=st.sampled_from([0.0, 15.0, 500.0]),
    ),
    max_size=40,
)


@given(SLABS)
def test_every_slab_stands_once_in_order_and_whole(slabs: list[Slab]) -> None:
    pages = paginate(slabs, 100.0)
    assert [place.slab for page in pages for place in page] == slabs
    for page in pages:
        edge = 0.0
        for place in page:
            assert place.down_pt >= edge
            edge = place.down_pt + place.slab.height_pt
        assert edge <= 100.01


def mark(text: str, down_pt: float = 8.0) -> Mark:
    return Mark(Element("P"), (Words(0.0, down_pt, text, READ),))


def baselines(slab: Slab) -> list[tuple[str, float]]:
    inks = [ink for mark in slab.marks for ink in mark.inks]
    return [(ink.text, ink.down_pt) for ink in inks if isinstance(ink, Words)]


def test_stacked_slabs_keep_their_places_and_are_one() -> None:
    slabs = [Slab(10.0, (mark("a"),), gap_pt=7.0), Slab(20.0, (mark("b"),), gap_pt=5.0)]
    one = stacked(slabs)
    assert (one.height_pt, one.gap_pt) == (height_pt(slabs), 7.0) == (35.0, 7.0)
    assert baselines(one) == [("a", 8.0), ("b", 23.0)]


def test_slabs_side_by_side_are_read_one_after_the_other() -> None:
    one = side_by_side(Slab(10.0, (mark("a"),), gap_pt=7.0), Slab(20.0, (mark("b"),)))
    assert (one.height_pt, one.gap_pt) == (20.0, 7.0)
    assert baselines(one) == [("a", 8.0), ("b", 8.0)]


def test_what_goes_on_at_the_head_of_a_page_says_so() -> None:
    line = Slab(40.0, (mark("line"),), at_head=(mark("continued"),))
    said = [[baselines(p.slab) for p in page] for page in paginate([line] * 4, 100.0)[1:]]
    assert said == [[[("continued", 8.0), ("line", 8.0)], [("line", 8.0)]]]


def test_what_is_kept_together_turns_the_page_together() -> None:
    line = Slab(30.0, ())
    pages = paginate([line, line, *together([line, line])], 100.0)
    assert [len(page) for page in pages] == [2, 2]


def test_a_chain_that_no_page_holds_is_cut_and_not_lost() -> None:
    pages = paginate(together([Slab(30.0, ())] * 7), 100.0)
    assert [len(page) for page in pages] == [3, 3, 1]


def test_white_above_is_left_out_at_the_head_of_a_page() -> None:
    pages = paginate([Slab(60.0, ()), Slab(60.0, (), gap_pt=20.0)], 100.0)
    assert pages[1][0].down_pt == 0.0


def test_spare_room_goes_where_it_may() -> None:
    (page,) = paginate(
        [Slab(10.0, ()), Slab(10.0, (), stretch_pt=20.0), Slab(10.0, (), stretch_pt=500.0)], 100.0
    )
    assert [place.down_pt for place in page] == [0.0, 30.0, 90.0]


def test_a_paragraph_leaves_no_single_line_behind() -> None:
    strand = Strand("word " * 40, Column(0.0, 100.0), READ, Element("P"))
    slabs = paragraph(strand)
    for room in range(len(slabs)):
        filler = Slab(10 * READ.leading_pt - room * READ.leading_pt - 0.5, ())
        sizes = [
            sum(place.slab in slabs for place in page)
            for page in paginate([filler, *slabs], 10 * READ.leading_pt)
        ]
        assert 1 not in sizes


def test_a_tall_row_is_cut_between_lines_and_a_short_one_is_not() -> None:
    element = Element("TD")
    short = Strand("one two", Column(0.0, 200.0), READ, element)
    tall = replace(short, text="word " * 100, column=Column(210.0, 60.0))
    assert len(row([short, short])) == 1
    assert len(row([short, tall])) == len(tall.lines()) > 9
