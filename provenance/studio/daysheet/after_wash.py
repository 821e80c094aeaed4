"""What a day sheet says of drying, flattening, mounting: the finish of prints."""

from msgspec.structs import replace

from provenance.errors import Problem, Refused
from provenance.model.finish import Condition, Finish, Inscription
from provenance.records.reader import Reader
from provenance.studio.daysheet.context import Context
from provenance.studio.daysheet.finish_forms import FinishForm
from provenance.studio.daysheet.forms import DaySheet
from provenance.studio.printing import place_after

_ALIKE = (
    "drying",
    "flattening",
    "spotting",
    "trimmed",
    "mount",
    "adhesive",
    "coating",
    "enclosure",
)
"""What one print can have from another; words on it and its condition are its own."""


def enter_finishes(context: Context, sheet: DaySheet) -> None:
    """Enter what was done to prints after the last wash."""
    for place, form in enumerate(sheet.finish):
        _finish(context, place, form)


def _finish(context: Context, place: int, form: FinishForm) -> None:
    with context.item("finish", place) as item:
        on = item.day("on", form.on)
        prints = tuple(item.print(text, "prints").id for text in form.prints)
        like = item.print(form.like, "like").id if form.like else None
        item.check()
        words = form.inscription
        body = Finish(
            prints=prints,
            done_on=on,
            place=place_after(context.act, prints, on),
            inscriptions=None
            if words is None
            else tuple(
                Inscription(text=one.text, medium=one.medium, where=one.where) for one in words
            ),
            condition=Condition(occasion=form.occasion, text=form.condition)
            if form.condition
            else None,
            source=context.source,
            note=form.note,
            **{name: getattr(form, name) for name in _ALIKE},
        )
        if like is not None:
            body = as_finished(context.act, body, like)
        item.enter(body, f"finish of {', '.join(form.prints)}")


def as_finished(reader: Reader, body: Finish, like: int) -> Finish:
    """`body` with what it leaves open taken from the last finish of print `like`.

    Raises Refused when nothing is on record there.
    """
    held = reader.linked(like, Finish, "prints")
    if not held:
        raise Refused(
            Problem("has no finish on record", field="like", mend="say how these were finished")
        )
    last = held[-1].body
    open_ = {name: getattr(last, name) for name in _ALIKE if getattr(body, name) is None}
    return replace(body, **open_)
