"""The keys that work on a page, and the words that are used there."""

from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Static

from provenance.screens.actions import EVERYWHERE, with_keys
from provenance.screens.widgets.line_list import Line, LineList
from provenance.studio.settings import Settings

WORDS: dict[str, str] = {
    "standing": "How a fact came to be known: measured, tested by eye, logged while it was done,"
    " the same day's notes, entered later, calculated, not on record.",
    "act": "One person's one action. It is saved whole, and can be taken back whole.",
    "impression": "One place of an edition: a number, or a proof of its own series.",
    "AP, PP, HC": "Artist's proof, printer's proof, hors commerce: counted apart, in Roman"
    " numerals.",
    "BAT": "Bon à tirer: the proof that the edition is matched to.",
    "residual silver": "Silver compounds left by poor fixing. Tested after the wash, before"
    " toning.",
    "residual thiosulfate": "Fixer left by poor washing. Tested last of all.",
    "back": "The pencil mark on the back of a sheet, made before exposure: the bridge between the"
    " sheet and its record.",
    "states": "w at work, p tested, n numbered and signed, c certified, r released,"
    " x spoiled, destroyed or lost.",
}
"""Words of the trade and of this program, explained where they may be asked for."""

_NAMES = {
    "question_mark": "?",
    "slash": "/",
    "escape": "esc",
    "full_stop": ".",
    "plus": "+",
    "minus": "-",
}


def shown_key(key: str) -> str:
    """A key as it is printed on the keyboard."""
    return _NAMES.get(key, key)


class Help(ModalScreen[None]):
    """Everything that can be pressed here, then the words."""

    DEFAULT_CSS = """
    Help { align: center middle; background: $background; }
    Help Vertical { width: 100%; max-width: 96; height: 100%; padding: 0 1;
                    background: $background; }
    Help #heading { text-style: bold; height: 2; }
    Help #way-out { color: $quiet; height: 1; }
    """
    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("escape,q,question_mark", "dismiss", "back", show=False)
    ]

    def __init__(self, where: str, settings: Settings) -> None:
        super().__init__()
        self._where = where.split()
        self._settings = settings

    def compose(self) -> ComposeResult:
        """A heading, the list, the way out."""
        with Vertical():
            yield Static("Keys and words", id="heading", markup=False)
            yield LineList(lead_width=22, id="help")
            yield Static("esc back", id="way-out", markup=False)

    def on_mount(self) -> None:
        """Fill the list."""
        actions = with_keys(self._settings.keys)
        here = [one for one in actions if set(self._where) & set(one.where.split())]
        lists = [one for one in actions if one.where == "list"]
        everywhere = [one for one in actions if one.where == EVERYWHERE]
        lines: list[Line] = []
        for heading, group in (
            ("on this page", here),
            ("in a list", lists),
            ("everywhere", everywhere),
        ):
            if group:
                lines.append(Line(heading, heading=True))
                lines += [Line(one.about, lead=shown_key(one.key)) for one in group]
                lines.append(Line("", heading=True))
        lines.append(Line("words", heading=True))
        lines += [Line(about, lead=word) for word, about in WORDS.items()]
        listed = self.query_one(LineList)
        listed.show(lines)
        listed.focus()
