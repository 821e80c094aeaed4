"""Writes docs/keys.md from the table of actions: python -m tests.documented.keys"""

from collections.abc import Iterable
from pathlib import Path

from provenance.screens.actions import ACTIONS, EVERYWHERE, MOVING, Action
from provenance.screens.bindings import shown_key
from provenance.screens.words import WORDS

PAGE = Path(__file__).parents[2] / "docs" / "keys.md"
INTRODUCTION = """\
# Keys

`provenance` without a command opens the terminal application. The line at the bottom of the screen
names the keys that matter there, `?` all of them and the words used, and `ctrl+p` finds an action
by its words.

Keys can be changed in `settings.toml` of the studio folder, by the names given here; two actions of
one place on one key are refused:

```toml
[keys]
number = "f5"
```

This page is made from the program: `python -m tests.documented.keys`.
"""
PLACES = {
    EVERYWHERE: "Everywhere",
    "list": "In a table of records",
    "editions": "Editions",
    "edition": "An edition",
    "print": "A print",
    "evidence": "Evidence",
    "history": "History",
    "finishing": "Finishing",
    "form": "In a form",
}
"""The headings, in the order of the page; what is not named here follows under its own name."""


def page() -> str:
    """The text of docs/keys.md."""
    named = dict.fromkeys([*PLACES, *(one for each in ACTIONS for one in each.where.split())])
    parts = [INTRODUCTION]
    for where in named:
        here = [action for action in ACTIONS if where in action.where.split()]
        heading = PLACES.get(where, where.replace("_", " ").capitalize())
        parts.append(f"## {heading}\n\n{_table(here)}")
    moving = [f"| `{keys}` | {about} |" for keys, about in MOVING.items()]
    parts.append("\n".join(["## Moving about", "", "| keys | |", "|---|---|", *moving, ""]))
    words = [f"- **{word}**: {about}" for word, about in WORDS.items()]
    parts.append("\n".join(["## Words", "", *words, ""]))
    return "\n".join(parts)


def _table(actions: Iterable[Action]) -> str:
    rows = [f"| `{shown_key(one.key)}` | {one.about} | `{one.name}` |" for one in actions]
    return "\n".join(["| key | what it does | name |", "|---|---|---|", *rows, ""])


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
