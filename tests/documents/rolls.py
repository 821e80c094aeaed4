"""A roll of an invented edition."""

from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

from provenance.craft.roll import Chapter, Facts, Part, Roll, Says, Table, TableColumn

COLUMNS = (
    TableColumn("Number"),
    TableColumn("Back", 13),
    TableColumn("Printed", 22),
    TableColumn("Where it is"),
    TableColumn("Certificate", 36, quiet=True),
)
WHERE = (
    "in the studio, certified",
    "sold 2031-05-02, to Ida Example",
    "consigned 2032-01-10, until 2032-12-31, to The Example Rooms, at the price agreed",
    "destroyed 2033-02-01: creased beyond repair; the torn sheet was photographed",
)


def impressions(count: int) -> Table:
    """So many numbers of an edition; the last third is still to be printed."""
    rows = tuple(
        (
            f"{number}/{count}",
            f"Q{number}",
            "2031-03-14",
            WHERE[number % 4],
            f"LQ-2031-{number:04d}",
        )
        if number <= count * 2 // 3
        else (f"{number}/{count}", "", "", "still to be printed", "")
        for number in range(1, count + 1)
    )
    return Table(COLUMNS, rows)


def chapter(count: int = 25, **changes: Any) -> Chapter:
    """An edition of `count`."""
    whole = Chapter(
        title="Quay steps, low water",
        designation="QUAY",
        parts=(
            Part(
                "Promise",
                (
                    Says((("“Twenty-five prints and three artist’s proofs in this size.”", ""),)),
                    Facts((("Declared", "25 + 3 AP, 28 in all"), ("Opened", "2031-03"))),
                ),
            ),
            Part(
                "Negative",
                (
                    Facts((("Negative", "Q-0412, 1998"), ("State", "cancelled on 2033-01-04"))),
                    Says((("No print may be made from it any more.", "2033-01-04"),)),
                ),
            ),
            Part("Impressions", (impressions(count),)),
        ),
    )
    return replace(whole, **changes)


ORDINARY = Roll(
    name="QUAY",
    kind="Edition list",
    title="Quay steps, low water",
    designation="QUAY",
    artist="Ida Example",
    place="Studio Lantern Quay, Corder Haven",
    day="25 November 2033",
    seal="",
    chapters=(chapter(),),
    note="This list says what the studio's register holds on the day of its date.",
    labels={"continued": "continued", "page_of": "page {page} of {pages}"},
    drawn_at_utc=datetime(2033, 11, 25, 14, 5, 9, tzinfo=UTC),
)


def roll(**changes: Any) -> Roll:
    """The ordinary roll, with some fields changed."""
    return replace(ORDINARY, **changes)
