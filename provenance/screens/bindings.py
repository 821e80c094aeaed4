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
_KEYPAD = frozenset({"add", "subtract", "multiply", "divide", "decimal", "comma"})
"""What some terminals call keys of the keypad that are printed as others are."""


def shown_key(key: str) -> str:
    """A key as it is printed on the keyboard; several are given between commas."""
    keys = [one for one in key.split(",") if one not in _KEYPAD]
    if len(keys) > 3:
        return f"{keys[0]}-{keys[-1]}"
    return " or ".join(_NAMES.get(one, one) for one in keys)


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
