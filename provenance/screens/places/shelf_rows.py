"""The shelf as rows: trays, bottles and papers, in words and short bars."""

from datetime import date

from provenance.craft.solutions.needed import WATER
from provenance.model.quantity_text import Units, format_size, format_volume
from provenance.screens.widgets.columns import Column
from provenance.screens.widgets.gauge import WIDTH, gauge, level
from provenance.screens.widgets.sections import Row, Section
from provenance.studio.shelf.bottles import Bottle
from provenance.studio.shelf.trays import Tray
from provenance.studio.shelf.view import PaperBox, Shelf

NAME = 12
TRAYS = (
    Column("TRAYS", NAME),
    Column("MADE FROM"),
    Column("AGE", WIDTH + 6, right=True),
    Column(" " * WIDTH + " USED", WIDTH + 10),
    Column("FIT FOR", 14),
)
BOTTLES = (
    Column("BOTTLES", NAME),
    Column("LEFT", WIDTH + 8),
    Column("OF", 7, right=True),
    Column("MIXED", 10),
    Column("KEEPS TO", 10),
    Column("STATE", 13),
    Column("WHAT IS IN IT"),
)
PAPERS = (
    Column("PAPERS", NAME),
    Column("WHAT IT IS"),
    Column("SHEET", 19),
    Column("PRINTED", 7, right=True),
    Column("LAST USED", 10),
)

_DAYS_IN_WORDS = 99
_DAYS_IN_A_MONTH = 30.44
_MONTHS_IN_WORDS = 24


def sections(shelf: Shelf, units: Units, keys: dict[str, str]) -> list[Section]:
    """The three tables; `keys` gives the key of each action, for what may be empty."""
    return [
        Section(
            TRAYS,
            tuple(Row(one.bath.id, tray_texts(one)) for one in shelf.trays),
            f"No tray stands ready: {keys['mix']} mixes a bath, {keys['new_bath']} enters one.",
            left_out(shelf.trays_left_out, "thrown away earlier"),
        ),
        Section(
            BOTTLES,
            tuple(Row(one.stock.id, bottle_texts(one)) for one in shelf.bottles),
            f"No bottle stands here: {keys['mix_stock']} mixes one from a formula.",
            left_out(shelf.bottles_left_out, "thrown away earlier"),
        ),
        Section(
            PAPERS,
            tuple(Row(one.paper.id, _paper_texts(one, units)) for one in shelf.papers),
            "No paper is on record; it is entered on the dry side.",
        ),
    ]


def left_out(count: int, what: str) -> str:
    """``and 4,900 more, thrown away earlier``; empty where nothing is left out."""
    return f"and {count:,} more, {what}" if count else ""


def tray_texts(tray: Tray) -> tuple[str, ...]:
    """A tray as a row."""
    sheets = "1 sheet" if tray.sheets == 1 else f"{tray.sheets} sheets"
    retired = tray.state == "retired"
    return (
        tray.bath.body.code,
        tray.made_from,
        "" if retired else f"{gauge(tray.age_share)}{age_text(tray.age_days):>6}",
        f"{gauge(tray.silver_share)} {sheets if tray.sheets else 'fresh'}",
        fit_text(tray),
    )


def fit_text(tray: Tray) -> str:
    """``4 to 9 more``, from the worst estimate to the usual one; or the word that matters more."""
    if tray.state == "may be past its limit":
        return "perhaps past"
    if tray.state not in ("fresh", "in use"):
        return tray.state
    if tray.first is not None:
        return "second bath"
    if tray.fit_for is not None and tray.size is not None:
        worst, usual = tray.fit_for.sheets_at_worst, tray.fit_for.sheets
        return f"{worst} to {usual} more" if worst < usual else f"{usual} more"
    if tray.bath.body.role in WATER:
        return ""
    if tray.sheets_left is not None:
        return f"{tray.sheets_left} more"
    if tray.bath.body.role == "fix":
        return "not known"
    return "one use" if tray.bath.body.one_shot else "test it"


def age_text(days: int | None) -> str:
    """``today``, ``12 d``, ``5 mo``, ``3 y``; empty where it is not known."""
    if days is None:
        return ""
    if days <= _DAYS_IN_WORDS:
        return f"{days} d" if days else "today"
    months = int(days / _DAYS_IN_A_MONTH)
    return f"{months} mo" if months <= _MONTHS_IN_WORDS else f"{months // 12} y"


def bottle_texts(bottle: Bottle) -> tuple[str, ...]:
    """A bottle as a row; that it is good is not worth a word."""
    body = bottle.stock.body
    return (
        body.code,
        f"{level(bottle.left_share)}{bottle.left_text:>8}",
        format_volume(body.volume_hundredth_ml),
        body.mixed_on,
        body.keeps_until or "not known",
        "" if bottle.state == "good" else bottle.state,
        bottle.name,
    )


def bottle_age_share(bottle: Bottle, today: date) -> float | None:
    """How far its time has come on the way to its last day."""
    if bottle.days_left is None:
        return None
    try:
        age = (today - date.fromisoformat(bottle.stock.body.mixed_on)).days
    except ValueError:
        return None  # mixed on no day that is known
    whole = age + bottle.days_left
    return age / whole if whole > 0 else None


def _paper_texts(box: PaperBox, units: Units) -> tuple[str, ...]:
    body = box.paper.body
    words = (body.base, body.weight, body.surface, body.tone)
    return (
        body.code,
        ", ".join(word for word in words if word),
        format_size(body.sheet, units) if body.sheet else "",
        str(box.sheets),
        box.last_used,
    )
