"""Negatives, editions and papers of a day sheet."""

from msgspec.structs import replace

from provenance.craft.units import parse_size
from provenance.model.edition import Edition
from provenance.model.negative import Negative
from provenance.model.paper import Paper
from provenance.studio.daysheet.context import Context
from provenance.studio.daysheet.forms import (
    DaySheet,
    EditionForm,
    NegativeForm,
    NegativeStateForm,
    PaperForm,
)
from provenance.studio.daysheet.shelved import enter_shelved


def enter_planned(context: Context, sheet: DaySheet) -> None:
    """Enter what the work of the day needs to stand on."""
    for place, negative in enumerate(sheet.negative):
        _negative(context, place, negative)
    for place, edition in enumerate(sheet.edition):
        _edition(context, place, edition)
    for place, paper in enumerate(sheet.paper):
        _paper(context, place, paper)
    enter_shelved(context, sheet)


def _negative(context: Context, place: int, form: NegativeForm) -> None:
    with context.item("negative", place, names=(form.code,)) as item:
        made = item.date("made", form.made)
        frame = item.read("format", parse_size, form.format)
        since = item.date("since", form.since)
        item.check()
        item.enter(
            Negative(
                code=form.code,
                title=form.title,
                made=made,
                format=frame,
                state=form.state,
                state_since=since,
                subject=form.subject,
                description=form.description,
                taken_by=form.taken_by,
                copy_of=form.copy_of,
                note=form.note,
            ),
            f"negative {form.code}  {form.title}",
        )


def _edition(context: Context, place: int, form: EditionForm) -> None:
    with context.item("edition", place, names=(form.code,)) as item:
        image = item.read("image", parse_size, form.image)
        sheet = item.read("sheet", parse_size, form.sheet)
        opened, closed = item.date("opened", form.opened), item.date("closed", form.closed)
        negative = item.known(Negative, form.negative, "negative")
        item.check()
        if image is None or sheet is None:
            return  # `check` went no further
        item.enter(
            Edition(
                negative=negative.id,
                code=form.code,
                name=form.name,
                promise=form.promise,
                numbered=form.numbered,
                artist_proofs=form.artist_proofs,
                printers_proofs=form.printers_proofs,
                hors_commerce=form.hors_commerce,
                unnumbered=form.unnumbered,
                image=image,
                sheet=sheet,
                opened=opened,
                closed=closed,
                disclosed=form.other_editions,
                rights=form.rights,
                exhibition_only=form.exhibition_only,
            ),
            f"edition {form.code}  {form.name}",
        )


def _paper(context: Context, place: int, form: PaperForm) -> None:
    with context.item("paper", place, names=(form.code,)) as item:
        size = item.read("sheet", parse_size, form.sheet)
        bought = item.date("bought", form.bought)
        item.check()
        item.enter(
            Paper(
                code=form.code,
                base=form.base,
                weight=form.weight,
                surface=form.surface,
                tone=form.tone,
                contrast=form.contrast,
                maker=form.maker,
                batch=form.batch,
                sheet=size,
                bought=bought,
                source=context.source,
            ),
            f"paper {form.code}",
        )


def change_negative_state(context: Context, place: int, form: NegativeStateForm) -> None:
    """Record what became of a negative; comes last, after the day's printing from it."""
    with context.item("negative_state", place) as item:
        since = item.date("since", form.since)
        held = item.known(Negative, form.negative, "negative")
        item.check()
        body = replace(held.body, state=form.state, state_since=since, state_why=form.why)
        context.act.change(held.id, held.version, body)
        context.entered.append(f"negative {form.negative}  {form.state}")
