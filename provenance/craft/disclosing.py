"""What is disclosed of a print, item by item: stated, not applicable, disclaimed, or open.

The items are the union of what the US disclosure statutes ask (handbook: New York
ACAL art. 15, California Civ. 1740-1745, North Carolina 25C-14, Maryland 14-504,
Georgia 10-1-432).  What the record states needs no answer; knowledge is disclaimed
one item at a time (ACAL 13.05).
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Literal, get_args

from provenance.craft.history import PrintHistory
from provenance.model.chemistry import TONERS
from provenance.model.dates import format_edtf
from provenance.model.disclosure import Answer, Item, Reply
from provenance.model.edition import Edition

ITEMS: tuple[Item, ...] = get_args(Item)

ASKED: dict[Item, str] = {
    "artist": "the artist",
    "signature": "whether and how it is signed",
    "medium": "medium, process and material",
    "reproduction": "whether it reproduces a work in another medium",
    "posthumous": "whether it was printed after the artist's death",
    "other editions": "other editions of the negative, and their sizes",
    "negative made": "the year of the negative",
    "printed": "the year of the printing",
    "limited": "whether the edition is limited",
    "numbered": "how many numbered prints at most",
    "unnumbered": "how many unnumbered prints at most",
    "proofs": "how many proofs at most",
    "total": "how many in all",
    "negative": "the state of the negative",
    "workshop": "where and by whom it was printed",
}
"""Each item in words."""


@dataclass(frozen=True)
class Checked:
    """One item as it stands today."""

    item: Item
    reply: Reply | Literal["open"]
    words: str
    recorded: bool = False
    """Whether the record itself says it."""


def checklist(
    history: PrintHistory, others: Sequence[Edition], answers: Iterable[Answer]
) -> tuple[Checked, ...]:
    """Every item of a print; `others` are the other editions of its negative."""
    given = {answer.item: answer for answer in answers}
    found = []
    for item in ITEMS:
        said = _other_editions(others) if item == "other editions" else _STATED[item](history)
        if said:
            found.append(Checked(item, "stated", said, recorded=True))
        elif answer := given.get(item):
            found.append(Checked(item, answer.reply, answer.words))
        else:
            found.append(Checked(item, "open", ""))
    return tuple(found)


def _signature(history: PrintHistory) -> str:
    signed = history.print.body.signature
    if signed is None:
        return ""
    if signed.means != "hand":
        how = f"not signed; it bears a {signed.means}"
    else:
        whose = "the artist" if signed.by == "artist" else signed.role or "another hand"
        how = f"signed by {whose}" if signed.by == "artist" else f"not by the artist, by {whose}"
    return ", ".join(filter(None, (how, signed.medium, signed.where, signed.on)))


def _medium(history: PrintHistory) -> str:
    if history.paper is None:
        return ""
    toned = any(step.body.role in TONERS for step in history.steps)
    base = history.paper.body.base
    return f"gelatin silver print on {base}-based paper" + (", toned" if toned else "")


def _reproduction(history: PrintHistory) -> str:
    copied = history.negative.body.copy_of
    if copied is None:
        return ""
    return f"a reproduction of {copied}" if copied else "no: printed from the original negative"


def _posthumous(history: PrintHistory) -> str:
    posthumous, printed = history.posthumous, history.printing.body.done_on
    if posthumous is None:
        return ""
    died = history.studio.body.died
    return f"yes: printed {printed}, the artist died {died}" if posthumous else f"no: {printed}"


def _other_editions(others: Sequence[Edition]) -> str:
    if not others:
        return "none on record"
    return "; ".join(
        f"{one.name}, {one.declared} in all, image {_cm(one.image.height_tenth_mm)}"
        f" × {_cm(one.image.width_tenth_mm)} cm"
        for one in others
    )


def _cm(tenth_mm: int) -> str:
    return f"{tenth_mm / 100:.1f}"


def _proofs(edition: Edition) -> str:
    counts = (edition.artist_proofs, edition.printers_proofs, edition.hors_commerce)
    said = [f"{count} {name}" for count, name in zip(counts, ("AP", "PP", "HC"), strict=True)]
    return ", ".join(said)


def _negative(history: PrintHistory) -> str:
    body = history.negative.body
    since = f" since {body.state_since}" if body.state_since else ""
    return f"{'intact, ' if body.state in ('in use', 'retired') else ''}{body.state}{since}"


def _workshop(history: PrintHistory) -> str:
    studio, printer = history.studio.body, history.printing.body.printer
    passed = history.print.body.approved
    said = [studio.name, studio.place, f"printed by {printer}" if printer else ""]
    if passed is not None:
        whom = "the artist" if passed.by == "artist" else passed.role or "another"
        said.append(f"approved by {whom}, {passed.on}")
    return ", ".join(filter(None, said))


def _day(text: str) -> str:
    """A date in figures as it is; “about”, “possibly” and intervals in words."""
    return text if text.replace("-", "").isdecimal() or not text else format_edtf(text)


_STATED: dict[Item, Callable[[PrintHistory], str]] = {
    "artist": lambda history: history.studio.body.artist,
    "signature": _signature,
    "medium": _medium,
    "reproduction": _reproduction,
    "posthumous": _posthumous,
    "negative made": lambda history: _day(history.negative.body.made or ""),
    "printed": lambda history: _day(history.printing.body.done_on),
    "limited": lambda history: f"limited to {history.edition.body.declared} in all",
    "numbered": lambda history: str(history.edition.body.numbered),
    "unnumbered": lambda history: str(history.edition.body.unnumbered),
    "proofs": lambda history: _proofs(history.edition.body),
    "total": lambda history: str(history.edition.body.declared),
    "negative": _negative,
    "workshop": _workshop,
}
