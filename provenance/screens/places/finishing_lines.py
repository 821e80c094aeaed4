"""What prints owe, as lines: one for each thing, and one for each print where it is unfolded."""

from collections.abc import Collection, Iterator

from provenance.screens.widgets.line_list import Line
from provenance.studio.owing import Debtor, Owing

LEAD_WIDTH = 5
"""Cells before the texts, while counts have three figures."""
_WHY = "a test does not count: {}"


def lead_width(things: Collection[Owing]) -> int:
    """Cells for the counts and a space on either side."""
    return max(LEAD_WIDTH, 2 + max((len(f"{one.count:,}") for one in things), default=0))


def group_lines(
    owing: Owing, marked: Collection[int], unfolded: Collection[Debtor] | None, lead: int
) -> Iterator[Line]:
    """One thing that is owed; the prints `unfolded` stand below it one by one."""
    about = f"{owing.about}, {len(marked):,} marked" if marked else owing.about
    whys = [f"of {count:,}, {_WHY.format(why)}" for why, count in owing.discounted]
    yield Line(
        about,
        lead=f"{owing.count:>{lead - 2},}",
        note="\n".join([owing.in_short(), *whys]) if unfolded is None else "",
        group=owing.key,
        strong=True,
    )
    for debtor in unfolded or ():
        yield Line(
            f"{debtor.edition} {debtor.name}",
            lead=" " * (lead - 3) + "•" if debtor.record in marked else "",
            note=_WHY.format(debtor.discounted) if debtor.discounted else "",
            records=(debtor.record,),
            group=owing.key,
        )
    if unfolded is not None and (more := owing.count - len(unfolded)) > 0:
        yield Line(" " * lead + f"and {more:,} more", heading=True, quiet=True)
    yield Line("", heading=True)
