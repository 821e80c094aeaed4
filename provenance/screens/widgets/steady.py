"""A text that is asked for several times a second, and drawn only when it has changed."""

from rich.text import Text
from textual.widgets import Static


class Steady(Static):
    """Writes to the terminal no more than the clock needs."""

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002 - Textual's own name
        super().__init__(id=id, markup=False)
        self._stands: Text | None = None

    def stand(self, text: Text) -> None:
        """Show `text`, unless it stands there already."""
        if self._stands is None or text != self._stands or text.spans != self._stands.spans:
            self._stands = text
            self.update(text)
