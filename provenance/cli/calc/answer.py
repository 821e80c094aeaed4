"""The shape of every calculation's answer: figures, what was assumed, what to heed."""

from dataclasses import dataclass, field
from typing import Any

from provenance.cli.output import json_line, line, pad


@dataclass
class Answer:
    """Lines for a person, data for a program; they say the same."""

    data: dict[str, Any] = field(default_factory=dict)
    rows: list[tuple[str, str]] = field(default_factory=list)
    drawing: list[str] = field(default_factory=list)
    """Lines of a curve, for a person only: its data says the same in figures."""
    assumed: list[str] = field(default_factory=list)
    heed: list[str] = field(default_factory=list)

    def tell(self, *, as_json: bool) -> None:
        """Give it out."""
        if as_json:
            json_line(
                {
                    "standing": "calculated",
                    **self.data,
                    "assumed": self.assumed,
                    "heed": self.heed,
                }
            )
            return
        line("calculated")
        columns = max((len(name) for name, _text in self.rows), default=0)
        for name, text in self.rows:
            line(f"  {pad(name, columns)}  {text}".rstrip())
        for drawn in self.drawing:
            line(f"  {drawn}".rstrip())
        for heading, texts in (("assumed", self.assumed), ("heed", self.heed)):
            for text in texts:
                line(f"{heading}: {text}")


def figure(value: float, unit: str = "") -> str:
    """A figure to four places that count, without a power of ten: ``0.02628 mol/L``."""
    whole = len(str(int(abs(value)))) if abs(value) >= 1 else 0
    if whole >= 4:
        text = f"{value:.0f}"
    elif abs(value) >= 1e-4 or value == 0:
        text = f"{value:.4g}"
    else:
        text = f"{value:.10f}".rstrip("0")
    return f"{text} {unit}".strip()
