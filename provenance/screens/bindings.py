"""Textual bindings from the table of actions."""

from textual.binding import Binding, BindingType

from provenance.screens.actions import ACTIONS


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
