"""Textual bindings from the table of actions, and keys as they are printed on a keyboard."""

from textual.binding import Binding, BindingType

from provenance.screens.actions import ACTIONS

_NAMES = {
    "question_mark": "?",
    "slash": "/",
    "escape": "esc",
    "full_stop": ".",
    "plus": "+",
    "minus": "-",
    "asterisk": "*",
}


def shown_key(key: str) -> str:
    """A key as it is printed on the keyboard; several are given between commas."""
    return " or ".join(_NAMES.get(one, one) for one in key.split(","))


def bindings_for(where: str) -> list[BindingType]:
    """The bindings of one place; their ids let settings.toml change the keys."""
    return [
        Binding(
            action.key,
            action.name,
            action.label,
            show=action.footer,
            id=action.name,
            tooltip=action.about,
        )
        for action in ACTIONS
        if where in action.where.split()
    ]
