import threading
from array import array
from collections.abc import Callable, Sequence

import pytest
from textual.pilot import Pilot

from provenance.errors import Damaged
from provenance.screens.widgets.columns import Column, fit, lay_out
from provenance.screens.widgets.record_table import RecordTable
from provenance.screens.widgets.table_lines import BOTH, CHOSEN, HERE
from provenance.studio.rows import Sort
from tests.screens.plain_app import PlainApp
from tests.screens.reading import cells, line_widths, screen_colours, screen_lines, screen_text

SIZES = [(80, 24), (120, 40)]
COLUMNS = (
    Column("CODE", 8, "code"),
    Column("NUMBER", 8, "number", right=True),
    Column("TITLE"),
    Column("DATE", 10, quiet=True),
)


class Synthetic:
    """Ids 1 to `count`; the number of a row is its id backwards from 5000, to sort by."""

    def __init__(self, count: int, title: Callable[[int], str] = "sheet {}".format) -> None:
        self.small = count <= 5000
        self.count = count
        self.title = title
        self.asked: list[int] = []
        self.gone: set[int] = set()
        self.go_on = threading.Event()
        self.go_on.set()
        self.stopped = False

    def number(self, record: int) -> int:
        return 5000 - record

    def order(self, sort: Sort, words: str) -> "array[int] | None":
        self.go_on.wait(10)
        ids: Sequence[int] = range(1, self.count + 1)
        if self.gone or words:
            ids = [one for one in ids if one not in self.gone and words in self.title(one)]
        if (sort.key == "number") != sort.descending:
            ids = ids[::-1]
        return array("q", ids)

    def first(self, count: int) -> "array[int]":
        return array("q", range(1, min(count, self.count) + 1))

    def rows(self, ids: Sequence[int]) -> dict[int, tuple[str, ...]]:
        self.asked += ids
        return {
            one: (f"C{one}", str(self.number(one)), self.title(one), "2026-03-14")
            for one in ids
            if one not in self.gone
        }

    def stop(self) -> None:
        self.stopped = True


def shown(source: Synthetic, **options: str) -> tuple[PlainApp, RecordTable]:
    table = RecordTable(source, COLUMNS, empty="Prints would be listed here.", **options)  # type: ignore[arg-type]
    return PlainApp(table), table


async def settle(pilot: Pilot[None]) -> None:
    await pilot.app.workers.wait_for_complete()
    await pilot.pause()


@pytest.mark.parametrize("size", SIZES)
async def test_heads_rows_and_the_cursor_stand_in_columns(size: tuple[int, int]) -> None:
    app, _table = shown(Synthetic(3))
    async with app.run_test(size=size):
        lines = screen_lines(app)
        assert lines[0].split() == ["CODE", "NUMBER", "TITLE", "DATE"]
        assert lines[1].startswith(f"{HERE}C1")
        assert lines[2].startswith(" C2")
        # a number ends under the end of its head; the date ends at the scroll bar's column
        assert lines[0].index("NUMBER") + 6 == lines[1].index("4999") + 4 == 19
        assert lines[1].endswith("2026-03-14")
        assert len(lines[1]) == size[0] - 1
        assert line_widths(app) == {size[0]}


@pytest.mark.parametrize("size", SIZES)
async def test_keys_move_and_the_cursor_stays_in_sight(size: tuple[int, int]) -> None:
    app, table = shown(Synthetic(200))
    rows = size[1] - 1
    async with app.run_test(size=size) as pilot:
        for key, record in (
            ("up", 1),
            ("down", 2),
            ("pagedown", rows + 1),
            ("end", 200),
            ("down", 200),
            ("pageup", 201 - rows),
            ("home", 1),
        ):
            await pilot.press(key)
            assert table.cursor == record
            assert sum(line.startswith(f"{HERE}C{record} ") for line in screen_lines(app)) == 1
        moves = [message.record for message in app.heard if isinstance(message, RecordTable.Moved)]
        assert moves == [1, 2, rows + 1, 200, 201 - rows, 1]


async def test_space_marks_and_moves_on_and_enter_opens() -> None:
    app, table = shown(Synthetic(9))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("space", "space", "up")
        lines = screen_lines(app)
        assert [line[0] for line in lines[1:4]] == [CHOSEN, BOTH, " "]
        await pilot.press("space", "enter")
        assert table.marks == {1}
        marks = [one.records for one in app.heard if isinstance(one, RecordTable.Marked)]
        assert marks == [{1}, {1, 2}, {1}]
        assert [one.record for one in app.heard if isinstance(one, RecordTable.Opened)] == [3]


async def test_cursor_and_marks_stay_with_their_records() -> None:
    app, table = shown(Synthetic(300))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("down", "space", "down", "down", "space")
        assert (table.cursor, table.marks) == (6, {2, 5})
        table.sort_by("number")
        await pilot.pause()
        assert table.cursor == 6
        assert table.marked_in_order() == [5, 2]
        assert any(line.startswith(f"{HERE}C6 ") for line in screen_lines(app))
        table.show_only("2")
        await pilot.pause()
        # 6 is not shown now: the cursor is on the first row, and comes back afterwards
        assert table.cursor == 299
        assert table.marks == {2, 5}
        assert table.marked_in_order() == [2]
        table.show_only("")
        await pilot.pause()
        assert table.cursor == 6
        assert table.marked_in_order() == [5, 2]
        table.clear_marks()
        assert table.marked_in_order() == [6]


async def test_a_retired_record_leaves_the_cursor_about_where_it_was() -> None:
    source = Synthetic(20)
    app, table = shown(source)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("end")
        source.gone = {20}
        table.reload()
        await pilot.pause()
        assert table.cursor == 19
        assert table.count == 19


async def test_a_record_that_was_retired_meanwhile_is_said_to_be() -> None:
    source = Synthetic(3)
    source.gone = set()
    app, table = shown(source)
    async with app.run_test(size=(80, 24)) as pilot:
        source.gone = {2}
        table._window.arrange(array("q", [1, 2, 3]))
        table.refresh()
        await pilot.pause()
        assert screen_lines(app)[2] == " no longer on record"


async def test_sorting_by_key_and_from_the_heads() -> None:
    app, table = shown(Synthetic(30))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("o")
        assert table.sort == Sort("code")
        assert "CODE ▴" in screen_lines(app)[0]
        await pilot.press("o", "O")
        assert table.sort == Sort("number", descending=True)
        assert "NUMBER ▾" in screen_lines(app)[0]
        await pilot.click(offset=(2, 0))
        assert table.sort == Sort("code")
        await pilot.click(offset=(2, 0))
        assert table.sort == Sort("code", descending=True)
        await pilot.click(offset=(78, 0))
        assert table.sort == Sort("code", descending=True)


async def test_the_mouse_moves_opens_and_scrolls() -> None:
    app, table = shown(Synthetic(100))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.click(offset=(10, 4))
        assert table.cursor == 4
        await pilot.double_click(offset=(10, 6))
        assert [one.record for one in app.heard if isinstance(one, RecordTable.Opened)] == [6]
        table.scroll_to(y=50, animate=False)
        await pilot.pause()
        # scrolled by hand the cursor may be out of sight; the next key brings it back
        assert screen_lines(app)[1].startswith(" C51 ")
        await pilot.press("down")
        assert screen_lines(app)[1].startswith(f"{HERE}C7 ")


async def test_an_empty_table_says_what_would_be_here() -> None:
    app, table = shown(Synthetic(0))
    async with app.run_test(size=(80, 24)) as pilot:
        assert screen_lines(app)[:3] == [screen_lines(app)[0], "", " Prints would be listed here."]
        await pilot.press("down", "end", "pageup", "space", "enter", "o", "O")
        assert table.cursor is None
        assert table.marked_in_order() == []
        assert [type(one) for one in app.heard] == []


async def test_a_filter_that_leaves_nothing_says_so() -> None:
    app, table = shown(Synthetic(40))
    async with app.run_test(size=(80, 24)) as pilot:
        table.show_only("no such sheet")
        await pilot.pause()
        assert screen_lines(app)[2] == " nothing here holds “no such sheet”"


async def test_a_million_rows_fetch_only_what_is_seen() -> None:
    source = Synthetic(1_000_000)
    app, table = shown(source)
    async with app.run_test(size=(120, 40)) as pilot:
        await settle(pilot)
        assert table.count == 1_000_000
        await pilot.press("space", "end", "pageup", "home", "down")
        assert table.cursor == 2
        await pilot.press("end")
        assert screen_lines(app)[-1].startswith(f"{HERE}C1000000")
        assert len(source.asked) < 1000
        table.sort_by("number")
        await settle(pilot)
        assert table.cursor == 1_000_000
        assert screen_lines(app)[1].startswith(f"{HERE}C1000000")
        assert table.marks == {1}
        assert line_widths(app) == {120}


async def test_a_large_table_stays_usable_while_another_order_is_made() -> None:
    source = Synthetic(100_000)
    source.go_on.clear()
    app, table = shown(source)
    async with app.run_test(size=(80, 24)) as pilot:
        assert table.busy
        assert screen_lines(app)[1].startswith(f"{HERE}C1 ")
        await pilot.press("down", "down", "space")
        assert (table.cursor, table.marks) == (4, {3})
        source.go_on.set()
        await settle(pilot)
        assert not table.busy
        assert (table.count, table.cursor, table.marks) == (100_000, 4, {3})
    assert source.stopped


async def test_only_the_newest_order_is_shown() -> None:
    source = Synthetic(100_000)
    app, table = shown(source)
    async with app.run_test(size=(80, 24)) as pilot:
        await settle(pilot)
        source.go_on.clear()
        table.show_only("9999")
        await pilot.pause()
        table.show_only("99999")
        await pilot.pause()
        source.go_on.set()
        await settle(pilot)
        assert (table.count, table.cursor) == (1, 99_999)


async def test_a_register_that_cannot_be_read_is_said_and_read_again() -> None:
    class Spoiled(Synthetic):
        spoiled = False

        def rows(self, ids: Sequence[int]) -> dict[int, tuple[str, ...]]:
            if self.spoiled:
                raise Damaged("the register is damaged")
            return super().rows(ids)

    source = Spoiled(200)
    app, table = shown(source)
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("down", "space")
        source.spoiled = True
        await pilot.press("end")
        await settle(pilot)
        assert "the register is damaged" in screen_text(app)
        assert [str(one.error) for one in app.heard if isinstance(one, RecordTable.Failed)] == [
            "the register is damaged"
        ]
        source.spoiled = False
        table.reload()
        await pilot.pause()
        assert (table.cursor, table.marks) == (200, {2})


TITLES = {
    1: "plain",
    2: "写真の記録",
    3: "e\u0301tude a\u0308 l'eau",
    4: "한국의 사진",
    5: "very long " * 20,
    6: "長い題名の写真" * 12,
    7: "o\u0302\u0323 stacked",
    8: "tab\there\x1b[31mred",
    9: "turned \u202eround\u202c",
}


@pytest.mark.parametrize("size", SIZES)
async def test_wide_and_combining_characters_keep_the_columns(size: tuple[int, int]) -> None:
    app, _table = shown(Synthetic(len(TITLES), TITLES.__getitem__))
    async with app.run_test(size=size):
        start, end = 1 + 8 + 2 + 8 + 2, size[0] - 1
        for record, title in TITLES.items():
            line = cells(app, record)
            assert len(line) == size[0]
            assert "".join(line[1:9]).rstrip() == f"C{record}"
            assert "".join(line[11:19]) == f"{5000 - record:>8}"
            assert "".join(line[end - 10 : end]) == "2026-03-14"
            assert line[end - 12 : end - 10] == [" ", " "]
            written = "".join(line[start : end - 12]).rstrip()
            if record in (5, 6):
                assert written.endswith("…")
                assert title.startswith(written[:-1].rstrip())
            elif record == 8:
                assert written == "tab here [31mred"
            elif record == 9:
                assert written == "turned round"
            else:
                assert written == title


@pytest.mark.parametrize(
    ("text", "width", "fitted"),
    [
        ("Quay", 6, "Quay  "),
        ("Quay steps", 6, "Quay …"),
        ("写真", 4, "写真"),
        ("写真", 3, "写…"),
        ("写真x", 4, "写 …"),
        ("e\u0301e\u0301e\u0301", 2, "e\u0301…"),
        ("Quay", 1, "…"),
        ("Quay", 0, ""),
    ],
)
def test_a_text_fills_its_cells_exactly(text: str, width: int, fitted: str) -> None:
    assert fit(text, width) == fitted


def test_numbers_stand_at_the_right() -> None:
    assert fit("7", 4, right=True) == "   7"
    assert fit("真", 4, right=True) == "  真"


def test_columns_share_what_is_left_and_go_from_the_right_when_room_lacks() -> None:
    columns = (Column("A", 4), Column("B"), Column("C", flex=2), Column("D", 6))
    wide = lay_out(columns, 60)
    assert [(span.start, span.width) for span in wide] == [(0, 4), (6, 17), (25, 27), (54, 6)]
    narrow = lay_out(columns, 25)
    assert [span.column.head for span in narrow] == ["A", "B", "C"]
    assert lay_out(columns, 3)[0].width == 3


async def test_a_window_of_almost_nothing_is_survived() -> None:
    app, table = shown(Synthetic(100))
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("end")
        for size in ((9, 3), (2, 1), (1, 1), (80, 24)):
            await pilot.resize_terminal(*size)
            await pilot.press("up", "down")
        assert table.cursor == 100
        assert screen_lines(app)[-1].startswith(f"{HERE}C100")


async def test_safelight_shows_nothing_but_red() -> None:
    source = Synthetic(100)
    table = RecordTable(source, COLUMNS, empty="")
    app = PlainApp(table, light="safelight")
    async with app.run_test(size=(80, 24)) as pilot:
        await pilot.press("space", "down")
        colours = screen_colours(app)
        assert len(colours) > 2
        assert [colour for colour in colours if not colour.endswith("0000")] == []
