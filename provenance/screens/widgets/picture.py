"""A thumbnail among the words of a page."""

import asyncio
from collections.abc import Callable
from typing import TYPE_CHECKING, ClassVar

from rich.color import Color
from rich.segment import Segment
from textual import work
from textual.geometry import Size
from textual.strip import Strip
from textual.widget import Widget

from provenance.errors import ProvenanceError
from provenance.screens.widgets.columns import fit
from provenance.screens.widgets.half_cells import half_cells, room_for
from provenance.studio.pictures import picture_of

if TYPE_CHECKING:
    from provenance.screens.app import StudioApp

MISSING = "no picture to show"


class Picture(Widget):
    """A picture of at most `columns` by `rows` cells, in its true proportion.

    Its place is kept free while its bytes are read and scaled in a thread.
    """

    COMPONENT_CLASSES: ClassVar[set[str]] = {"picture--note"}
    DEFAULT_CSS = """
    Picture { width: auto; height: auto; }
    Picture .picture--note { color: $quiet; }
    """

    def __init__(
        self,
        *,
        columns: int = 24,
        rows: int = 12,
        id: str | None = None,  # noqa: A002 - Textual's own name
    ) -> None:
        super().__init__(id=id)
        self._most = (columns, rows)
        self._proportion = (0, 0)
        self._strips: list[Strip] = []
        self._note = ""

    def show(self, load: Callable[[], bytes], width_px: int, height_px: int) -> None:
        """Show what `load` gives; it is called in a thread and may raise what reading raises.

        The size is that of the picture, as its record has it.
        """
        self._clear((width_px, height_px))
        self._read(load)

    def show_print(self, studio: "StudioApp", record: int | None) -> None:
        """Show the print with that id, if there is one and it was scanned."""
        held = None
        if record is not None:
            held = picture_of(studio.register.read, studio.folder, record)
        if held is None:
            self.clear()
        else:
            self.show(held.load, held.width_px, held.height_px)

    def clear(self) -> None:
        """Show nothing, and take no room."""
        self.workers.cancel_group(self, "picture")
        self._clear((0, 0))

    def _clear(self, proportion: tuple[int, int]) -> None:
        self._proportion, self._strips, self._note = proportion, [], ""
        self.refresh(layout=True)

    @work(group="picture", exclusive=True)
    async def _read(self, load: Callable[[], bytes]) -> None:
        across, down = room_for(*self._proportion, *self._most)
        # an odd half cell below the picture is the ground's
        ground = Color.from_triplet(self.background_colors[1].rich_color.get_truecolor())
        try:
            self._strips = await asyncio.to_thread(
                lambda: half_cells(load(), across, down, ground) if across else []
            )
        except ProvenanceError:
            self._note = MISSING
        self.refresh()

    def get_content_width(self, container: Size, viewport: Size) -> int:
        """As wide as the picture."""
        return room_for(*self._proportion, *self._most)[0]

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        """As high as the picture; half a cell counts as one."""
        return (room_for(*self._proportion, *self._most)[1] + 1) // 2

    def render_line(self, y: int) -> Strip:
        """A line of the picture, or of the room that is kept for it."""
        base = self.rich_style
        width = self.size.width
        if y < len(self._strips):
            return self._strips[y].adjust_cell_length(width, base)
        note = fit(self._note if y == 0 else "", width)
        quiet = self.get_component_rich_style("picture--note")
        return Strip([Segment(note, quiet)], width)
