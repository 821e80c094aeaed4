"""The last line of a form: what its keys do."""

from rich.text import Text
from textual.widgets import Static


class FormKeys(Static):
    """The keys of a form, as they are set."""

    def on_mount(self) -> None:
        """Follow what may be pressed at the moment."""
        self.screen.bindings_updated_signal.subscribe(self, lambda _screen: self.refresh())

    def render(self) -> Text:
        """One line: each action with all its keys."""
        line = Text(no_wrap=True, overflow="ellipsis")
        keys: dict[str, list[str]] = {}
        for active in self.screen.active_bindings.values():
            if active.binding.show and active.enabled:
                shown = self.app.get_key_display(active.binding)
                keys.setdefault(active.binding.description, []).append(shown)
        for label, names in keys.items():
            line.append(f"{' or '.join(names)} ", "bold")
            line.append(f"{label}   ")
        return line
