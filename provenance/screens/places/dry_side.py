"""Dry side: what is prepared before the water runs."""

from provenance.model.negative import Negative
from provenance.model.paper import Paper
from provenance.screens.dialogs.paper import NewPaper
from provenance.screens.places.listed import Listed


class DrySide(Listed):
    """Negatives and papers."""

    WHERE = "dry_side listed"
    NAME = "Dry side"
    HOLDS = (("negatives", Negative), ("papers", Paper))
    LATER = "Exposure plans, wedges and reprint plans will live here."

    def action_new_paper(self) -> None:
        """Enter a batch of paper."""
        self.studio.push_screen(NewPaper())
