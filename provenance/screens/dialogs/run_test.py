"""A residual test answered at the trays: one digit for all the sheets."""

from typing import ClassVar

from textual.binding import Binding, BindingType

from provenance.screens.dialogs.test import MarkedTest


class RunTest(MarkedTest):
    """The question of a marked test, with digits for its answers."""

    KIND = "run-test"
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("1", "answer('no stain')", "no stain"),
        Binding("2", "answer('stain')", "a stain"),
        Binding("3", "answer('unclear')", "unclear"),
        Binding("0", "leave_form", "leave"),
    ]
