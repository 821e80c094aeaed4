"""Wet side: the run in hand."""

from provenance.model.printing import Printing
from provenance.model.process import ProcessSheet
from provenance.screens.places.listed import Listed


class WetSide(Listed):
    """Process sheets and printings; the clock comes later."""

    WHERE = "wet_side listed"
    NAME = "Wet side"
    HOLDS = (("process sheets in use", ProcessSheet), ("printings", Printing))
    LATER = "The run in hand will live here: steps, clock, trays and sheets."
