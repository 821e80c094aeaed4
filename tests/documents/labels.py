"""Labels to test with: finished texts, invented."""

from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

from provenance.documents.label import LabelSheet
from provenance.documents.label_text import LabelText

ORDINARY = LabelText(
    code="hydroxide-B",
    name="Thiourea toner, stock B",
    contents="potassium hydroxide 85 %, 100 g/L",
    basis="Label codes estimated from contents. The supplier’s safety data sheet decides.",
    keep_from=("Keep from", "ammonium salts, aluminium and zinc, hypochlorite bleach."),
    protect=("Use with", "gloves, eye protection, air drawn off"),
    mixed=("Mixed", "2031-03-14"),
    discard=("Discard after", "2031-09-10"),
    signal_word="Danger",
    pictograms=(("GHS05", "corrosive"), ("GHS07", "harmful or irritant")),
    hazards=(("H314", "Burns skin and eyes badly."), ("H302", "Harmful when swallowed.")),
    lines=(("Waste", "Hand it in as local rules say."), ("Keeps", "180 days in a full bottle")),
)


def label(**changes: Any) -> LabelText:
    """The ordinary label, with some fields changed."""
    return replace(ORDINARY, **changes)


def sheet(*labels: LabelText, **other: Any) -> LabelSheet:
    """Those labels, or the ordinary one, on A4."""
    drawn_at = datetime(2031, 3, 14, 9, 30, tzinfo=UTC)
    fields: dict[str, Any] = {"labels": labels or (ORDINARY,), "drawn_at_utc": drawn_at}
    return LabelSheet(**fields | other)


def said(label: LabelText) -> list[str]:
    """Everything that a label says, when there is room for all of it."""
    pairs = (*label.hazards, *label.pictograms, *label.lines)
    pairs += (label.keep_from, label.protect, label.mixed, label.discard)
    texts = [label.code, label.name, label.contents, label.basis, label.no_codes]
    texts += [label.signal_word.upper(), *(text for pair in pairs for text in pair)]
    return [text for text in texts if text]
