"""What Object ID (ICOM) asks, so that a print that is lost can be described."""

from collections.abc import Callable
from dataclasses import dataclass

from provenance.craft.history import PrintHistory
from provenance.model.chemistry import TONERS
from provenance.model.prints import on_the_back
from provenance.model.quantities import Size


@dataclass(frozen=True)
class Described:
    """One heading, and what the record says under it; empty where it says nothing."""

    name: str
    words: str
    mend: str
    """Where to write it down."""


def object_id(history: PrintHistory) -> tuple[Described, ...]:
    """Every heading of Object ID for one print, in its order."""
    return tuple(Described(name, say(history), mend) for name, say, mend in _HEADINGS)


def _measured(history: PrintHistory) -> str:
    body = history.print.body
    return f"image {_cm(body.image)}, sheet {_cm(body.sheet)} (height × width)"


def _cm(size: Size) -> str:
    return f"{size.height_tenth_mm / 100:.1f} × {size.width_tenth_mm / 100:.1f} cm"


def _materials(history: PrintHistory) -> str:
    if history.paper is None:
        return ""
    paper = history.paper.body
    toned = any(step.body.role in TONERS for step in history.steps)
    return ", ".join(
        filter(
            None,
            (
                f"silver in gelatin on {paper.base}-based paper",
                paper.weight,
                paper.surface,
                "toned" if toned else "",
            ),
        )
    )


def _marks(history: PrintHistory) -> str:
    body = history.print.body
    signed = body.signature
    written = [one.text for finish in history.finishes for one in finish.body.inscriptions or ()]
    pencilled = on_the_back(body.mark, body.designation)
    said = [
        f"{pencilled} on the back" if pencilled else "",
        body.designation or "",
        f"signed {signed.medium} {signed.where}".strip() if signed and signed.counts else "",
        body.inscriptions,
        *written,
    ]
    return "; ".join(filter(None, said))


def _dates(history: PrintHistory) -> str:
    made = history.negative.body.made
    printed = f"printed {history.printing.body.done_on}"
    return f"negative {made}, {printed}" if made else printed


def _maker(history: PrintHistory) -> str:
    printer = history.printing.body.printer
    artist = history.studio.body.artist
    return f"{artist}; printed by {printer}" if printer else artist


def _photograph(history: PrintHistory) -> str:
    return f"{history.scans[-1].body.file_name}" if history.scans else ""


_HEADINGS: tuple[tuple[str, Callable[[PrintHistory], str], str], ...] = (
    ("type of object", lambda _history: "photograph", ""),
    ("measurements", _measured, ""),
    ("materials and techniques", _materials, "name the paper of the printing"),
    ("inscriptions and markings", _marks, "[[describe]] inscriptions"),
    ("date", _dates, ""),
    ("maker", _maker, ""),
    ("subject", lambda history: history.negative.body.subject, "[[describe]] subject"),
    ("title", lambda history: history.negative.body.title, ""),
    (
        "distinguishing features",
        lambda history: history.print.body.features,
        "[[describe]] features",
    ),
    ("description", lambda history: history.negative.body.description, "[[describe]] description"),
    ("photograph", _photograph, "[[scan]]"),
)
