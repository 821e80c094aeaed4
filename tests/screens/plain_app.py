"""An application that shows one widget, in the three lights, with the red filter."""

from textual.app import App, ComposeResult
from textual.filter import LineFilter
from textual.message import Message
from textual.widget import Widget

from provenance.screens.safelight import PureRed
from provenance.screens.theme import LIGHTS


class PlainApp(App[None]):
    """Keeps what its widget says."""

    def __init__(self, widget: Widget, *, light: str = "day") -> None:
        super().__init__()
        for theme in LIGHTS:
            self.register_theme(theme)
        self.theme = light
        self.animation_level = "none"
        self.widget = widget
        self.heard: list[Message] = []

    def compose(self) -> ComposeResult:
        yield self.widget

    def get_line_filters(self) -> list[LineFilter]:
        filters = list(super().get_line_filters())
        return [*filters, PureRed()] if self.theme == "safelight" else filters

    def on_record_table_opened(self, message: Message) -> None:
        self.heard.append(message)

    def on_record_table_moved(self, message: Message) -> None:
        self.heard.append(message)

    def on_record_table_marked(self, message: Message) -> None:
        self.heard.append(message)

    def on_record_table_failed(self, message: Message) -> None:
        self.heard.append(message)
