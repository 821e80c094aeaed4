"""Set text in columns and let it run over as many pages as it needs."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from provenance.documents.fonts import Font, width_pt
from provenance.documents.lines import break_lines
from provenance.documents.page import Element, Ink, Mark, Picture, Style, Words


@dataclass(frozen=True)
class Column:
    """Where text may stand, in points from the left edge of the page."""

    x_pt: float
    width_pt: float


@dataclass(frozen=True)
class Slab:
    """A strip of the page that is never cut."""

    height_pt: float
    marks: tuple[Mark, ...]
    gap_pt: float = 0.0
    """White above it; left out at the head of a page."""
    kept: bool = False
    """It stands on the same page as the slab after it."""
    stretch_pt: float = 0.0
    """At most this much more white above it when the last page has room."""
    at_head: tuple[Mark, ...] = ()
    """What is put beside it when it is the first of a further page."""
    above: "Slab | None" = None
    """What is repeated above it when it is the first of a further page."""


@dataclass(frozen=True)
class Placed:
    """A slab with its upper edge, in points below the head of the text area."""

    slab: Slab
    down_pt: float


@dataclass(frozen=True)
class Strand:
    """A text to be set in a column, and what it is to a reader."""

    text: str
    column: Column
    style: Style
    element: Element
    from_right: bool = False

    def lines(self) -> tuple[str, ...]:
        """The text, broken to the width of its column."""
        return _broken(self.text, self.column.width_pt, self.style.font, self.style.size_pt)

    def words(self, line: str, down_pt: float) -> Words:
        """One of the lines, with its baseline at `down_pt`."""
        spare_pt = self.column.width_pt - self._measure(line) if self.from_right else 0.0
        return Words(self.column.x_pt + spare_pt, down_pt, line, self.style)

    def _measure(self, text: str) -> float:
        return width_pt(text, self.style.font, self.style.size_pt)


@lru_cache(maxsize=1024)
def _broken(text: str, measure_pt: float, font: Font, size_pt: float) -> tuple[str, ...]:
    # A page is laid out several times until its picture fits; its lines are not.
    return break_lines(text, measure_pt, lambda piece: width_pt(piece, font, size_pt))


def heading(strand: Strand, gap_pt: float = 0.0) -> list[Slab]:
    """A heading above what follows; it stays with it."""
    return [replace(slab, kept=True) for slab in paragraph(strand, gap_pt)]


def paragraph(strand: Strand, gap_pt: float = 0.0, tail: Strand | None = None) -> list[Slab]:
    """A text that may be cut between lines, but leaves no single line behind.

    `tail` stands on the last line, in a column of its own; its further lines
    follow below.
    """
    leading_pt = strand.style.leading_pt
    slabs = [
        Slab(leading_pt, (_mark(strand, [line], leading_pt),)) for line in strand.lines() or ("",)
    ]
    for at, line in enumerate(tail.lines() if tail else ()):
        assert tail is not None  # noqa: S101 - the line came from it
        mark = _mark(tail, [line], leading_pt)
        if at == 0:
            slabs[-1] = replace(slabs[-1], marks=(*slabs[-1].marks, mark))
        else:
            slabs.append(Slab(leading_pt, (mark,)))
    return _without_single_lines(_with_gap(slabs, gap_pt))


def row(strands: Sequence[Strand], gap_pt: float = 0.0, lines_whole: int = 9) -> list[Slab]:
    """Texts side by side, first lines level.

    A row of at most `lines_whole` lines is not cut; a longer one is, line by line.
    """
    leading_pt = max(strand.style.leading_pt for strand in strands)
    broken = [(strand, strand.lines()) for strand in strands]
    depth = max(1, *(len(lines) for _, lines in broken))
    if depth <= lines_whole:
        marks = tuple(_mark(strand, lines, leading_pt) for strand, lines in broken if lines)
        return _with_gap([Slab(depth * leading_pt, marks)], gap_pt)
    slabs = [
        Slab(
            leading_pt,
            tuple(_mark(s, lines[at : at + 1], leading_pt) for s, lines in broken if lines[at:]),
        )
        for at in range(depth)
    ]
    return _without_single_lines(_with_gap(slabs, gap_pt))


def figure(picture: Picture, element: Element, gap_pt: float = 0.0) -> list[Slab]:
    """A picture; what follows it, its caption, stays with it."""
    mark = Mark(element, (picture,))
    return [Slab(picture.down_pt + picture.height_pt, (mark,), gap_pt, kept=True)]


def artifact(*inks: Ink) -> Mark:
    """Ink that is not part of the text: running lines, rules."""
    return Mark(Element("Artifact"), inks)


def together(slabs: Sequence[Slab]) -> list[Slab]:
    """The slabs, all on one page if a page can hold them."""
    return [*(replace(slab, kept=True) for slab in slabs[:-1]), *slabs[-1:]]


def stacked(slabs: Sequence[Slab]) -> Slab:
    """The slabs as one that is never cut; the gap above the first is its own."""
    marks, down_pt = list[Mark](), 0.0
    for at, slab in enumerate(slabs):
        down_pt += slab.gap_pt if at else 0.0
        marks += [mark.lowered(down_pt) for mark in slab.marks]
        down_pt += slab.height_pt
    return Slab(down_pt, tuple(marks), slabs[0].gap_pt if slabs else 0.0)


def side_by_side(first: Slab, second: Slab) -> Slab:
    """Two slabs with their upper edges level, read one after the other."""
    height_pt = max(first.height_pt, second.height_pt)
    return replace(first, height_pt=height_pt, marks=(*first.marks, *second.marks))


def height_pt(slabs: Sequence[Slab]) -> float:
    """How high the slabs are when they stand on one page."""
    return sum(slab.height_pt + (slab.gap_pt if at else 0.0) for at, slab in enumerate(slabs))


def paginate(slabs: Sequence[Slab], page_height_pt: float) -> list[list[Placed]]:
    """The slabs, page by page.

    Slabs that are kept together move to the next page together, unless no page
    could hold them: then they are cut where the page ends.
    """
    pages: list[list[Placed]] = [[]]
    down_pt = 0.0
    for chain in _chains(slabs):
        gap_pt = chain[0].gap_pt if pages[-1] else 0.0
        if pages[-1] and down_pt + gap_pt + height_pt(chain) > page_height_pt + 0.01:
            pages.append([])
            down_pt = 0.0
        for slab in chain:
            gap_pt = slab.gap_pt if pages[-1] else 0.0
            if pages[-1] and down_pt + gap_pt + slab.height_pt > page_height_pt + 0.01:
                pages.append([])
                down_pt = gap_pt = 0.0
            down_pt += gap_pt
            if not pages[-1]:
                slab = replace(slab, marks=(*slab.at_head, *slab.marks))
                if slab.above is not None and len(pages) > 1:
                    pages[-1].append(Placed(slab.above, down_pt))
                    down_pt += slab.above.height_pt
            pages[-1].append(Placed(slab, down_pt))
            down_pt += slab.height_pt
    pages[-1] = _stretched(pages[-1], page_height_pt - down_pt)
    return pages


def _stretched(placed: list[Placed], spare_pt: float) -> list[Placed]:
    shift_pt, stretched = 0.0, []
    for place in placed:
        more_pt = min(place.slab.stretch_pt, max(0.0, spare_pt - shift_pt))
        shift_pt += more_pt
        stretched.append(Placed(place.slab, place.down_pt + shift_pt))
    return stretched


def _chains(slabs: Sequence[Slab]) -> Iterator[list[Slab]]:
    chain: list[Slab] = []
    for slab in slabs:
        chain.append(slab)
        if not slab.kept:
            yield chain
            chain = []
    if chain:
        yield chain


def _mark(strand: Strand, lines: Sequence[str], leading_pt: float) -> Mark:
    # Every line shares the baselines of its row, whatever its own size.
    first_pt = leading_pt * 0.76
    return Mark(
        strand.element,
        tuple(strand.words(line, first_pt + at * leading_pt) for at, line in enumerate(lines)),
    )


def _with_gap(slabs: list[Slab], gap_pt: float) -> list[Slab]:
    return [replace(slabs[0], gap_pt=gap_pt), *slabs[1:]]


def _without_single_lines(slabs: list[Slab]) -> list[Slab]:
    last = len(slabs) - 1
    return [replace(slab, kept=at in (0, last - 1) and at != last) for at, slab in enumerate(slabs)]
