"""Dry side: what is prepared before the water runs, and what is measured after it."""

from collections.abc import Iterable

from textual.widget import Widget

from provenance.model.matching import MatchReport
from provenance.model.negative import Negative
from provenance.model.paper import Paper
from provenance.model.readings import Reading
from provenance.screens.actions import with_keys
from provenance.screens.bindings import shown_key
from provenance.screens.dialogs.match import HoldAgainst
from provenance.screens.dialogs.paper import NewPaper
from provenance.screens.dialogs.reading import NewReading
from provenance.screens.dialogs.reprint import PlanReprint
from provenance.screens.dialogs.wedge import NewWedge
from provenance.screens.places.dry_side_rows import sections
from provenance.screens.places.match_page import MatchPage
from provenance.screens.places.reprint_page import ReprintPage
from provenance.screens.reads_aside import ReadsAside
from provenance.screens.widgets.sections import Sections
from provenance.studio.browsing import name_of
from provenance.studio.dry_side import view_dry_side, worth_matching


class DrySide(ReadsAside):
    """Negatives, papers with their wedges, readings of prints, matches."""

    WHERE = "listed dry_side"

    def content(self) -> Iterable[Widget]:
        """Four tables."""
        yield Sections(id="dry-side")

    def refresh_content(self) -> None:
        """Read the records anew."""
        self.headline("Dry side", "", self.studio.studio_name)
        keys = {one.name: shown_key(one.key) for one in with_keys(self.studio.settings.keys)}
        units = self.studio.settings.units
        self.read_aside(
            lambda reader: sections(reader, view_dry_side(reader), units, keys),
            self.query_one(Sections).show,
        )

    def on_sections_opened(self) -> None:
        """A double click opens, like enter."""
        self.action_open_record()

    def action_open_record(self) -> None:
        """Open what the cursor is on."""
        record = self.query_one(Sections).cursor
        if record is not None:
            self.studio.go_to(record)

    def _called(self, record: int | None) -> str:
        stored = self.studio.register.read.find(record) if record is not None else None
        return name_of(self.studio.register.read, stored) if stored is not None else ""

    def _under_cursor(self) -> tuple[str, str]:
        """The print and the paper that the cursor is about; empty where it is about none."""
        reader, record = self.studio.register.read, self.query_one(Sections).cursor
        stored = reader.find(record) if record is not None else None
        match stored.body if stored is not None else None:
            case Negative():
                return self._called(worth_matching(reader, stored.id)), ""  # type: ignore[union-attr]
            case Paper(code=code):
                return "", code
            case Reading(print=held) | MatchReport(print=held):
                return self._called(held), ""
        return "", ""

    def action_reprint(self) -> None:
        """Plan a print that matches an earlier one."""
        form = PlanReprint(*self._under_cursor())

        def planned(saved: object) -> None:
            if saved and form.asked is not None:
                self.studio.push_screen(ReprintPage(*form.asked))

        self.studio.push_screen(form, planned)

    def action_match(self) -> None:
        """Hold a print against the one that it is to match."""
        form = HoldAgainst(self._under_cursor()[0])

        def held(saved: object) -> None:
            if saved and form.pair is not None:
                self.studio.push_screen(MatchPage(*form.pair))

        self.studio.push_screen(form, held)

    def action_new_paper(self) -> None:
        """Enter a batch of paper."""
        self.studio.push_screen(NewPaper())

    def action_new_wedge(self) -> None:
        """Enter a step tablet printed on a paper."""
        self.studio.push_screen(NewWedge(self._under_cursor()[1]))

    def action_new_reading(self) -> None:
        """Enter what an instrument showed of a print."""
        self.studio.push_screen(NewReading(self._under_cursor()[0]))
