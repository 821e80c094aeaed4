"""Numbers, signatures, scans, releases and losses of a day sheet."""

import re
from functools import partial

from provenance.model.edition import Edition
from provenance.model.prints import Signature
from provenance.studio.custody import move_prints
from provenance.studio.daysheet.context import Context, Skipped
from provenance.studio.daysheet.finished_forms import (
    GoneForm,
    NumberForm,
    ReleaseForm,
    ScanForm,
    SignForm,
)
from provenance.studio.daysheet.forms import DaySheet
from provenance.studio.finishing import attach_scan, give_numbers, keep_thumbnail, record_gone, sign


def enter_finished(context: Context, sheet: DaySheet) -> None:
    """Enter what was done to dry prints."""
    for place, number in enumerate(sheet.number):
        _number(context, place, number)
    for place, signature in enumerate(sheet.sign):
        _sign(context, place, signature)
    for place, scan in enumerate(sheet.scan):
        _scan(context, place, scan)
    for place, release in enumerate(sheet.release):
        _release(context, place, release)


def enter_gone(context: Context, sheet: DaySheet) -> None:
    """Enter which prints are no more; their numbers may pass to replacements."""
    for place, gone in enumerate(sheet.gone):
        _gone(context, place, gone)


def _number(context: Context, place: int, form: NumberForm) -> None:
    with context.item("number", place, names=_numbers(form)) as item:
        edition = item.known(Edition, form.edition, "edition")
        prints = [item.print(text, "sheets", form.edition) for text in form.sheets]
        given = give_numbers(context.act, edition, prints, form.first)
        context.entered.append(f"numbered {form.edition} {', '.join(given)}")


def _numbers(form: NumberForm) -> tuple[str, ...]:
    """What later items may call the prints, should their numbers be refused."""
    names = [f"{form.edition} {form.first}"]
    if match := re.fullmatch(r"(\d{1,9})((?:/\d{1,9})?)", form.first):
        for place in range(len(form.sheets)):
            names.append(f"{form.edition} {int(match[1]) + place}{match[2]}")
    return tuple(names)


def _sign(context: Context, place: int, form: SignForm) -> None:
    with context.item("sign", place) as item:
        on = item.day("on", form.on)
        prints = [item.print(text, "prints") for text in form.prints]
        item.check()
        sign(
            context.act,
            prints,
            Signature(
                by=form.by,
                means=form.means,
                medium=form.medium,
                where=form.where,
                on=on,
                role=form.role,
                source=context.source,
            ),
        )
        context.entered.append(f"signed {', '.join(form.prints)}")


def _scan(context: Context, place: int, form: ScanForm) -> None:
    with context.item("scan", place) as item:
        held = item.print(form.print, "print")
        path = context.base / form.file
        thumbnail = item.attempt(lambda: attach_scan(context.act, held, path), "file")
        if thumbnail is None:
            raise Skipped
        context.files.append(partial(keep_thumbnail, context.folder, thumbnail))
        context.entered.append(f"scan of {form.print}")


def _release(context: Context, place: int, form: ReleaseForm) -> None:
    with context.item("release", place) as item:
        on = item.day("on", form.on)
        prints = [item.print(text, "prints") for text in form.prints]
        item.check()
        party = context.people.key(form.to, field="to") if form.to else None
        move_prints(
            context.act,
            prints,
            "released",
            on,
            condition=form.condition,
            source=context.source,
            party=party,
        )
        context.entered.append(f"released {', '.join(form.prints)}")


def _gone(context: Context, place: int, form: GoneForm) -> None:
    with context.item("gone", place) as item:
        on = item.day("on", form.on)
        held = item.print(form.print, "print")
        item.check()
        record_gone(context.act, held, form.how, on, form.why, form.evidence)
        context.entered.append(f"{form.how} {form.print}")
