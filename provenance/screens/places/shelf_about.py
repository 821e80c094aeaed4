"""More about what the cursor is on: what a row of the shelf has no room for."""

from provenance.craft.fixing import SilverLimit
from provenance.craft.silver import Coating
from provenance.model.quantity_text import Units, format_size
from provenance.model.sources import GRADES, Grade
from provenance.studio.shelf.bottles import Bottle
from provenance.studio.shelf.trays import Tray
from provenance.studio.shelf.view import PaperBox, Shelf


def about(shelf: Shelf, record: int, units: Units) -> str:
    """A few lines about one record of the shelf; empty where there is nothing to add."""
    for tray in shelf.trays:
        if tray.bath.id == record:
            return "\n".join(_tray(tray, units))
    for bottle in shelf.bottles:
        if bottle.stock.id == record:
            return "\n".join(_bottle(bottle))
    for box in shelf.papers:
        if box.paper.id == record:
            return _paper(box, units)
    return ""


def _tray(tray: Tray, units: Units) -> list[str]:
    body = tray.bath.body
    named = tray.made_from.startswith(body.role)
    lines = [f"{body.code}   {tray.made_from if named else f'{body.role}: {tray.made_from}'}"]
    if body.retired_on is not None:
        return [*lines, f"retired on {body.retired_on}: {body.retired_why}"]
    fit = tray.fit_text(units)
    if tray.state not in ("fresh", "in use"):
        fit = tray.state
    elif tray.fit_for is not None:
        fit = f"fit for {fit}"
    said = [tray.silver_text, fit, tray.open_tray_text]
    lines.append("; ".join(text for text in said if text))
    if tray.advice is not None and (tray.advice.move_up or tray.advice.renew_both):
        deed = "renew both baths" if tray.advice.renew_both else "move the second bath up"
        lines.append(f"{deed}: {tray.advice.why}")
    elif tray.limit is not None and tray.ledger is not None:
        lines.append(f"assumed: {_assumed(tray.ledger.coating, tray.limit)}")
    if tray.bound is not None:
        lines.append(tray.bound.text(units))
    return [line for line in lines if line]


def _assumed(coating: Coating, limit: SilverLimit) -> str:
    """What silver and limit rest on, in one line; the page of the tray says it whole."""
    return (
        f"{coating.mg_per_m2 / 1000:g} g/m² coated, {coating.developed_percent} % of it developed"
        f" ({_in_a_word(coating.source.grade)}); limit “{limit.name}”,"
        f" {limit.mg_per_l / 1000:g} g/L ({_in_a_word(limit.source.grade)})"
    )


def _in_a_word(grade: Grade) -> str:
    return GRADES[grade].split(":")[0]


def _bottle(bottle: Bottle) -> list[str]:
    body = bottle.stock.body
    lines = [f"{body.code}   {bottle.name}"]
    if body.retired_on is not None:
        return [*lines, f"retired on {body.retired_on}: {body.retired_why}"]
    drawn = f"drawn for {', '.join(bottle.baths)}" if bottle.baths else "nothing was drawn yet"
    lot = f"lot {body.lot}" if body.lot else ""
    return [*lines, "; ".join(text for text in (drawn, lot, body.note) if text)]


def _paper(box: PaperBox, units: Units) -> str:
    body = box.paper.body
    words = (body.maker, body.base, body.weight, body.surface, body.tone, body.contrast)
    said = ", ".join(word for word in words if word)
    batch = f"batch {body.batch}" if body.batch else ""
    size = format_size(body.sheet, units) if body.sheet else ""
    bought = f"bought {body.bought}" if body.bought else ""
    rest = "; ".join(text for text in (batch, size, bought) if text)
    return f"{body.code}   {said}\n{rest}"
