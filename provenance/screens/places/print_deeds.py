"""What can be done to prints, in the list of an edition and on the page of one."""

from collections.abc import Sequence

from provenance.screens.frame import Frame
from provenance.screens.places.answers import form_for


class PrintDeeds(Frame):
    """Forms for the prints that are `chosen`: their tests, numbers, signatures, whereabouts."""

    @property
    def chosen(self) -> Sequence[int]:
        """The prints that a deed is about, in the order shown."""
        raise NotImplementedError

    def done(self) -> None:
        """What was chosen is dealt with."""

    def _answer(self, what: str) -> None:
        prints = self.chosen
        if not prints:
            self.say("There is no print here yet; p enters a printing.")
            return
        form = form_for(self.studio.register.read, what, prints)
        self.studio.push_screen(form, lambda saved: self.done() if saved else None)

    def action_test(self) -> None:
        """A residual test."""
        self._answer("test")

    def action_finish(self) -> None:
        """What was done after the wash."""
        self._answer("finish")

    def action_number(self) -> None:
        """Numbers, in the order shown."""
        self._answer("number")

    def action_sign(self) -> None:
        """The signature."""
        self._answer("sign")

    def action_scan(self) -> None:
        """A picture, of the first."""
        self._answer("scan")

    def action_gone(self) -> None:
        """What became of the first."""
        self._answer("gone")

    def action_custody_of(self) -> None:
        """Who has them now."""
        self._answer("custody")

    def action_release(self) -> None:
        """They left the studio."""
        self._answer("release")
