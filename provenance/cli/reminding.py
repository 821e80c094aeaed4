"""`provenance reminders EDITION`, `provenance disclosure REF`"""

import click

from provenance.cli.main import json_option
from provenance.cli.output import json_line, line, pad


@click.command("reminders")
@click.argument("edition")
@click.option("--price", metavar="PRICE", help="Of one print, as 1250 EUR.")
@json_option
@click.pass_obj
def reminders_command(studio: str | None, edition: str, price: str | None, as_json: bool) -> None:
    """Hold EDITION against rules of law and custom: each holds, does not hold, or cannot be said.

    The rules are data, with source and the date they were read.  They remind;
    they are not legal advice, and local law decides.
    """
    from provenance.craft.reminders import NOT_ADVICE
    from provenance.model.edition import Edition
    from provenance.studio.editions.counts import count_edition
    from provenance.studio.editions.reminding import read_money, remind
    from provenance.studio.folder import choose_folder
    from provenance.studio.references import resolve_as

    folder = choose_folder(studio)
    money = read_money(price, field="--price") if price is not None else None
    with folder.open() as register:
        held = resolve_as(register.read, Edition, edition)
        counts = count_edition(register.read, held)
        verdicts = remind(register.read, folder, held, money)
    if as_json:
        for one in verdicts:
            json_line(
                {
                    "rule": one.reminder.id,
                    "about": one.reminder.about,
                    "figure": one.reminder.figure,
                    "counts": one.reminder.scope,
                    "result": one.result,
                    "why": one.why,
                    "source": one.reminder.source.source,
                    "standing": one.reminder.source.grade,
                    "read": one.reminder.read_on,
                    "note": NOT_ADVICE,
                }
            )
        return
    own, all_sizes = counts.edition, counts.negative
    line(f"{held.body.code}   {own.given} of {own.declared} in this edition")
    line(f"  all sizes of the negative: {all_sizes.given} of {all_sizes.declared}")
    for one in verdicts:
        line("")
        line(f"{pad(one.result, 14)}  {one.reminder.about}")
        line(f"{'':14}  {one.why}")
        line(f"{'':14}  {one.reminder.source}, read {one.reminder.read_on}")
    line("")
    line(NOT_ADVICE)


@click.command("disclosure")
@click.argument("ref", nargs=-1, required=True)
@json_option
@click.pass_obj
def disclosure_command(studio: str | None, ref: tuple[str, ...], as_json: bool) -> None:
    """Show the checklist of disclosure of the print REF, item by item.

    Each item is stated, not applicable, disclaimed, or open.  Those that the
    profile of the studio's settings asks for are marked.
    """
    from provenance.craft.disclosing import ASKED
    from provenance.studio.browsing import name_of
    from provenance.studio.editions.disclosing import disclosed_of, load_profile
    from provenance.studio.folder import choose_folder
    from provenance.studio.references import resolve_print
    from provenance.studio.settings import read_settings

    folder = choose_folder(studio)
    profile = load_profile(folder, read_settings(folder).disclosure)
    asked = profile.items if profile else ()
    with folder.open() as register:
        held = resolve_print(register.read, " ".join(ref))
        name = name_of(register.read, held)
        items = disclosed_of(register.read, held.id)
    if as_json:
        for one in items:
            json_line(
                {
                    "item": one.item,
                    "reply": one.reply,
                    "words": one.words,
                    "recorded": one.recorded,
                    "asked": one.item in asked,
                }
            )
        return
    open_ = sum(one.reply == "open" for one in items)
    chosen = f"profile {profile.name}" if profile else "no profile is chosen in the settings"
    line(f"{name}   {open_} of {len(items)} open; {chosen}")
    for one in items:
        mark = "*" if one.item in asked else " "
        line(f"{mark} {pad(one.reply, 14)}  {pad(ASKED[one.item], 52)}  {one.words}".rstrip())
