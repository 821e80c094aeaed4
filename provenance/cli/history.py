"""`provenance history REF` and `provenance undo ACT`"""

import re
from typing import Any

import click

from provenance.cli.main import WHOLE, json_option
from provenance.cli.output import counted, json_line, line, narrate, pad


@click.command("history")
@click.argument("ref", nargs=-1, required=True)
@json_option
@click.pass_obj
def history_command(studio: str | None, ref: tuple[str, ...], as_json: bool) -> None:
    """Every version of the record that REF names, oldest first.

    A retired record is named by its id: #123.
    """
    from provenance.errors import NotFound, Problem
    from provenance.studio.folder import choose_folder
    from provenance.studio.past import past_with_overrides
    from provenance.studio.references import resolve

    text = " ".join(ref)
    with choose_folder(studio).open() as register:
        by_id = re.fullmatch(r"#?(\d{1,15})", text)
        record = int(by_id[1]) if by_id else resolve(register.read, text).id
        events = past_with_overrides(register.read, record)
    if not events:
        raise NotFound(
            Problem(what="no record has this id", record=text, mend="see `provenance list`")
        )
    for event in events:
        if as_json:
            json_line(
                {
                    "entry": event.seq,
                    "act": event.act,
                    "verb": event.verb,
                    "at": event.at,
                    "who": event.who,
                    "reason": event.reason,
                    "changed": {
                        field: {"before": before, "after": after}
                        for field, (before, after) in event.changed.items()
                    },
                }
            )
            continue
        reason = f": {event.reason}" if event.reason else ""
        line(
            f"entry {event.seq}, act {event.act}   {event.at}   {event.who}   {event.verb}{reason}"
        )
        for field, (before, after) in event.changed.items():
            shown = (
                _shown(after) if before in (None, "", []) else f"{_shown(before)} → {_shown(after)}"
            )
            if shown:
                line(f"    {pad(field, 18)}  {shown}")


def _shown(value: Any) -> str:
    return "" if value in (None, "", []) else str(value)


@click.command("undo")
@click.argument("act", type=WHOLE)
@click.option("--reason", required=True, help="Why it is taken back.")
@click.option("--who", help="Who takes it back: a role or initials.")
@json_option
@click.pass_obj
def undo_command(studio: str | None, act: int, reason: str, who: str | None, as_json: bool) -> None:
    """Take the whole act ACT back, by new entries; what it wrote stays readable."""
    from provenance.studio.folder import choose_folder
    from provenance.studio.settings import read_settings

    folder = choose_folder(studio)
    with folder.open() as register:
        settings = read_settings(folder)
        with register.act(who or settings.who) as writing:
            writing.undo(act, reason)
            first, last = writing.number, writing.head()[0]
    if as_json:
        json_line({"act": first, "undoes": act, "entries": last - first + 1})
        return
    entries = counted(last - first + 1, "entry", "entries")
    narrate(f"saved: act {act} is taken back by act {first}, {entries}")
