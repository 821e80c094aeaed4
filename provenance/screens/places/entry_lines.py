"""A tray or a bottle as lines to be read: made of, used, its ledger, what met it, cautions."""

from collections.abc import Iterable
from datetime import date
from itertools import groupby

from provenance.model.chemistry import Bath, Draw, Stock
from provenance.model.quantity_text import Units, format_volume
from provenance.model.sources import GRADES
from provenance.records.reader import Reader
from provenance.screens.places.shelf_rows import age_text, bottle_age_share
from provenance.screens.widgets.gauge import gauge, level
from provenance.screens.widgets.line_list import Line
from provenance.studio.recall import Recall, Recalled, Side
from provenance.studio.shelf.bottles import Bottle
from provenance.studio.shelf.inside import Inside
from provenance.studio.shelf.trays import Tray

_SIDES: dict[Side, str] = {
    "within": "within the limit",
    "perhaps past": "perhaps past the limit: only if all that was coated dissolved",
    "past": "past the limit, by the usual estimate",
    "not known": "on which side of the limit is not known",
}

MET = 200
"""How many of the prints on one side of the limit are listed: those that came last."""


def tray_lines(
    reader: Reader, tray: Tray, found: Recall, inside: Inside, units: Units
) -> Iterable[Line]:
    """A tray, from what it was made of to what to heed."""
    yield Line("made of", heading=True)
    yield Line(tray.made_from, lead="of")
    yield from (_draw(reader, draw) for draw in tray.bath.body.drawn)
    yield from _holds(inside)
    yield from _use(tray, found, units)
    yield from _met(found)
    yield from _end(tray.bath.body)
    yield from _heed(inside)


def bottle_lines(reader: Reader, bottle: Bottle, inside: Inside, today: date) -> Iterable[Line]:
    """A bottle, from what is in it to what to heed."""
    body = bottle.stock.body
    yield Line("made of", heading=True)
    yield Line(bottle.name or "not on record", lead="of")
    yield from _holds(inside)
    if bottle.formula is not None:
        formula = bottle.formula
        worth = f"{formula.source} ({GRADES[formula.grade]})"
        yield Line(formula.code, lead="formula", note=worth)
    yield Line(body.mixed_on, lead="mixed")
    if body.lot or body.note:
        yield Line("; ".join(text for text in (body.lot, body.note) if text), lead="lot, note")
    yield from _space("how it stands")
    of = format_volume(body.volume_hundredth_ml)
    yield Line(f"{level(bottle.left_share)} {bottle.left_text} of {of}", lead="left")
    share = bottle_age_share(bottle, today)
    until = body.keeps_until or "not on record"
    left = bottle.days_left
    days = "" if left is None else f"; {left} days to go" if left >= 0 else f"; {-left} days past"
    yield Line(f"{gauge(share)} {until}{days}" if share is not None else until, lead="keeps until")
    yield from _space("what was drawn from it")
    baths = reader.linked(bottle.stock.id, Bath, "drawn_from")
    for bath in baths:
        for draw in bath.body.drawn:
            if draw.stock == bottle.stock.id:
                volume = format_volume(draw.volume_hundredth_ml)
                text = f"{volume} for {bath.body.code}, {bath.body.role}"
                yield Line(text, lead=bath.body.made_on or "", records=(bath.id,))
    if not baths:
        yield Line("nothing yet", quiet=True, wide=True)
    yield from _end(body)
    yield from _heed(inside)


def _space(heading: str) -> Iterable[Line]:
    yield Line("", heading=True)
    yield Line(heading, heading=True)


def _draw(reader: Reader, draw: Draw) -> Line:
    stock = reader.get(Stock, draw.stock).body
    text = f"{format_volume(draw.volume_hundredth_ml)} of {stock.code}, {stock.made_from}"
    return Line(text, lead="drawn", records=(draw.stock,))


def _holds(inside: Inside) -> Iterable[Line]:
    if inside.contents:
        yield Line(inside.contents, lead="holds", right="calculated")
    else:
        yield Line("what is in it is not on record", lead="holds", quiet=True)


def _use(tray: Tray, found: Recall, units: Units) -> Iterable[Line]:
    yield from _space("how it stands")
    body = tray.bath.body
    keeps = f"; kept {tray.keeps_days} days at most" if tray.keeps_days else ""
    share = f"{gauge(tray.age_share)} " if tray.age_share is not None else ""
    made = f"{body.made_on}, {age_text(tray.age_days)}" if body.made_on else "not on record"
    open_tray = f"; {tray.open_tray_text}" if tray.open_tray_text else ""
    yield Line(f"{share}{made}{keeps}{open_tray}", lead="made", note=tray.keeps_source)
    days = "1 day" if tray.uses == 1 else f"{tray.uses} days"
    area = f", {tray.ledger.area_m2:.2f} m² in all" if tray.ledger is not None else ""
    sheets = "1 sheet" if tray.sheets == 1 else f"{tray.sheets} sheets"
    used = f"{sheets} on {days}{area}" if tray.sheets else "nothing went through it yet"
    yield Line(used, lead="used")
    if found.limit is not None:
        limit = found.limit
        if tray.silver_text:
            text = f"{gauge(tray.silver_share)} {tray.silver_text}"
            yield Line(text, lead="silver", right="calculated")
        whose = "chosen for this bath" if found.own_limit else "the studio's choice"
        yield Line(
            f"“{limit.name}”, {whose}: {limit.mg_per_l / 1000:g} g/L, {limit.meaning}",
            lead="limit",
            note=f"{limit.source}",
        )
    fit = tray.fit_text(units)
    if fit and fit not in (tray.state, "one use"):
        lead = "fit for" if tray.fit_for is not None and tray.first is None else ""
        yield Line(fit, lead=lead, note=_basis(tray))
    if body.one_shot:
        yield Line("one use", lead="", quiet=True)
    if tray.bound is not None and tray.ledger is not None:
        yield Line(
            tray.bound.text(units),
            lead="bound",
            right="calculated",
            note=f"assumed: {tray.ledger.coating}",
        )
    if tray.advice is not None:
        deed = "renew both: " if tray.advice.renew_both else ""
        deed = "the second moves up: " if tray.advice.move_up else deed
        yield Line(f"{deed}{tray.advice.why}", lead="pair", strong=bool(deed))


def _basis(tray: Tray) -> str:
    return f"assumed: {tray.ledger.coating}" if tray.ledger is not None and tray.limit else ""


def _met(found: Recall) -> Iterable[Line]:
    certificates = len(found.certificates)
    count = f"{found.prints} prints" if found.prints != 1 else "1 print"
    issued = f"{certificates} certificates" if certificates != 1 else "1 certificate"
    if not found.lines:
        yield from _space("no print met it")
        return
    yield from _space(f"what met it, in the order of work: {count}, {issued}")
    for side, held in groupby(found.lines, key=lambda one: one.side):
        if found.limit is not None:
            yield Line(_SIDES[side], heading=True, quiet=True)
        lines = tuple(held)
        if more := len(lines[:-MET]):
            told = f"{more:,} before these: provenance recall {found.bath.body.code}"
            yield Line(told, heading=True, quiet=True)
        yield from map(_recalled, lines[-MET:])


def _recalled(one: Recalled) -> Line:
    silver = ""
    if one.mg_per_l is not None and one.mg_per_l_at_worst is not None:
        usual, worst = one.mg_per_l / 1000, one.mg_per_l_at_worst / 1000
        silver = f"  {usual:.3f} g/L, worst {worst:.3f}"
    named = [f"certificate {number} {state}" for number, state in one.certificates]
    before = ["it came from another fixing bath"] if one.fixed_before else []
    return Line(
        f"{one.done_on}  sheet {one.sheets:>2}{silver}",
        lead=one.name,
        right=f"{one.where} {one.where_on}".rstrip(),
        note="\n".join((*before, *named)),
        records=(one.print,),
    )


def _end(body: Bath | Stock) -> Iterable[Line]:
    if body.retired_on is None:
        return
    yield from _space("how it ended")
    yield Line(f"{body.retired_on}: {body.retired_why}", lead="retired")
    yield Line(body.disposed or "not on record", lead="disposed")


def _heed(inside: Inside) -> Iterable[Line]:
    yield from _space("what to heed")
    *lines, decides = inside.heed
    for line in lines:
        yield Line(line, wide=True, strong=line.startswith("Danger"))
    yield Line(decides, wide=True, quiet=True)
