"""Promises, disclosure and instructions of a day sheet, and the death of the artist."""

from typing import Any

from msgspec.structs import replace

from provenance.craft.units import parse_size
from provenance.model.disclosure import Answer
from provenance.model.edition import Edition
from provenance.model.instruction import Instruction
from provenance.model.studio import Studio
from provenance.studio.daysheet.context import Context
from provenance.studio.daysheet.forms import DaySheet
from provenance.studio.daysheet.promise_forms import (
    ArtistForm,
    CloseForm,
    DiscloseForm,
    InstructionForm,
    PromiseForm,
)
from provenance.studio.editions.disclosing import answer
from provenance.studio.editions.promise import change_promise, close_edition

_FIGURES = (
    "promise",
    "numbered",
    "artist_proofs",
    "printers_proofs",
    "hors_commerce",
    "unnumbered",
)


def enter_promised(context: Context, sheet: DaySheet) -> None:
    """Enter what is said of editions before the day's work, and that the artist died."""
    if sheet.artist is not None:
        _artist(context, sheet.artist)
    for place, promise in enumerate(sheet.promise):
        _promise(context, place, promise)
    for place, disclose in enumerate(sheet.disclose):
        _disclose(context, place, disclose)
    for place, instruction in enumerate(sheet.instruction):
        _instruction(context, place, instruction)


def enter_closed(context: Context, sheet: DaySheet) -> None:
    """Close editions, after the day's work on them."""
    for place, form in enumerate(sheet.close):
        _close(context, place, form)


def _artist(context: Context, form: ArtistForm) -> None:
    with context.item("artist") as item:
        died = item.date("died", form.died)
        item.check()
        held = context.act.get(Studio, 1)
        context.act.change(held.id, held.version, replace(held.body, died=died))
        context.entered.append(f"the artist died {died}")


def _promise(context: Context, place: int, form: PromiseForm) -> None:
    with context.item("promise", place) as item:
        edition = item.known(Edition, form.edition, "edition")
        sizes = {name: item.read(name, parse_size, getattr(form, name)) for name in _SIZES}
        item.check()
        fields: dict[str, Any] = {name: getattr(form, name) for name in _FIGURES} | sizes
        given = {name: value for name, value in fields.items() if value is not None}
        changed = change_promise(context.act, edition, form.reason, given)
        said = ", ".join(name.replace("_", " ") for name in changed)
        context.entered.append(f"promise of {form.edition} changed: {said}")


_SIZES = ("image", "sheet")


def _disclose(context: Context, place: int, form: DiscloseForm) -> None:
    with context.item("disclose", place) as item:
        edition = item.known(Edition, form.edition, "edition")
        said = {
            "disclosed": form.other_editions,
            "rights": form.rights,
            "exhibition_only": form.exhibition_only,
        }
        given = {name: value for name, value in said.items() if value is not None}
        if given:
            context.act.change(edition.id, edition.version, replace(edition.body, **given))
        if form.answer:
            answers = tuple(Answer(item=a.item, reply=a.reply, words=a.words) for a in form.answer)
            answer(context.act, edition, answers)
        context.entered.append(f"disclosure of {form.edition}")


def _instruction(context: Context, place: int, form: InstructionForm) -> None:
    with context.item("instruction", place) as item:
        edition = item.known(Edition, form.edition, "edition").id if form.edition else None
        on = item.day("on", form.on)
        person = context.people.key(form.person, field="person") if form.person else None
        item.check()
        item.enter(
            Instruction(
                topic=form.topic, words=form.words, edition=edition, person=person, given_on=on
            ),
            f"instruction: {form.topic}",
        )


def _close(context: Context, place: int, form: CloseForm) -> None:
    with context.item("close", place) as item:
        on = item.day("on", form.on)
        edition = item.known(Edition, form.edition, "edition")
        item.check()
        close_edition(context.act, edition, on, form.why)
        context.entered.append(f"edition {form.edition}  closed")
