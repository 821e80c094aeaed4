"""Shelf: what stands ready."""

from provenance.model.chemistry import Bath
from provenance.screens.dialogs.bath import NewBath
from provenance.screens.places.listed import Listed


class Shelf(Listed):
    """Trays."""

    WHERE = "shelf listed"
    NAME = "Shelf"
    HOLDS = (("trays", Bath),)
    LATER = "Bottles, formulas, ages and capacities will live here."

    def action_new_bath(self) -> None:
        """Enter a bath."""
        self.studio.push_screen(NewBath())
