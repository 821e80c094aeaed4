"""An edition as `provenance show` tells it."""

from typing import TYPE_CHECKING

from provenance.cli.output import json_line, line, pad

if TYPE_CHECKING:
    from provenance.records.reader import Reader
    from provenance.studio.folder import StudioFolder


def show_edition(reader: "Reader", folder: "StudioFolder", record: int, *, as_json: bool) -> None:
    """Show the promise, both counts, what was changed, and what else came of the negative."""
    from msgspec import to_builtins

    from provenance.model.edition import Edition
    from provenance.model.negative import UNPRINTABLE, Negative
    from provenance.studio.browsing import as_data
    from provenance.studio.drawer import promise_in_short
    from provenance.studio.editions.counts import count_edition
    from provenance.studio.editions.promise import promise_changes
    from provenance.studio.plain import plain_fields
    from provenance.studio.settings import read_settings

    units = read_settings(folder).units
    held = reader.get(Edition, record)
    negative = reader.get(Negative, held.body.negative).body
    counts = count_edition(reader, held)
    changes = list(promise_changes(reader, record, units))
    if as_json:
        json_line(
            as_data(held)
            | {
                "counts": {
                    "edition": to_builtins(counts.edition),
                    "negative": to_builtins(counts.negative),
                },
                "other_editions": [one.body.code for one in counts.others],
                "promise_changes": [to_builtins(one) for one in changes],
            }
        )
        return
    body = held.body
    line(f"edition {body.code}   {negative.title}   #{held.id}, entry {held.version}")
    line(f"  “{body.promise}”")
    own, whole = counts.edition, counts.negative
    over = negative.state in UNPRINTABLE
    told = _told(own.given, own.declared, over=over or body.closed is not None)
    line(f"  {pad('this edition', 18)}  {promise_in_short(body)}: {told}")
    line(f"  {pad('all sizes', 18)}  {_told(whole.given, whole.declared, over=over)}")
    state = f"{negative.code}, {negative.state}"
    if negative.state_since:
        state += f" since {negative.state_since}"
    if over:
        state += "; nothing more can be printed from it"
    line(f"  {pad('negative', 18)}  {state}")
    shown = ("promise", "code", "negative", "closed", "closed why")
    for name, text in plain_fields(body, units):
        if name not in shown:
            line(f"  {pad(name, 18)}  {text}")
    if body.closed:
        why = f": {body.closed_why}" if body.closed_why else ""
        line(f"  {pad('closed', 18)}  {body.closed}{why}")
    for other in counts.others:
        said = f"{other.body.code}  {other.body.name}, {promise_in_short(other.body)}"
        line(f"  {pad('other edition', 18)}  {said}")
    if changes:
        line("")
        line("changes of the promise")
    for one in changes:
        why = f": {one.reason}" if one.reason else ""
        line(f"  {one.day}  {one.field}: {one.before or 'none'} → {one.after or 'none'}{why}")


def _told(given: int, declared: int, *, over: bool) -> str:
    still = "no more can come" if over else f"{max(0, declared - given)} still to come"
    return f"{given} of {declared} on record, {still}"
