"""People, beginnings, replacements and custody of a day sheet."""

from msgspec.structs import replace

from provenance.errors import Problem, Refused
from provenance.model.edition import Edition
from provenance.model.negative import Negative
from provenance.model.printing import Printing
from provenance.model.prints import Approval, Print
from provenance.studio.custody import move_prints, terms_key
from provenance.studio.daysheet.context import Context
from provenance.studio.daysheet.custody_forms import (
    ApproveForm,
    ContactForm,
    CustodyForm,
    DescribeForm,
    OpeningForm,
    ReplaceForm,
)
from provenance.studio.daysheet.forms import DaySheet
from provenance.studio.finishing import enter_opening, replace_print

_OF_A_PRINT = ("features", "inscriptions", "counted")
_OF_A_NEGATIVE = ("subject", "description", "taken_by", "copy_of")


def enter_people(context: Context, sheet: DaySheet) -> None:
    """Enter the people that the rest of the sheet may name."""
    for place, contact in enumerate(sheet.contact):
        _contact(context, place, contact)


def enter_openings(context: Context, sheet: DaySheet) -> None:
    """Enter what was made and gone before the records began."""
    for place, opening in enumerate(sheet.opening):
        _opening(context, place, opening)


def enter_replaced(context: Context, sheet: DaySheet) -> None:
    """Put new sheets in the place of prints that are gone."""
    for place, form in enumerate(sheet.replace):
        _replace(context, place, form)


def enter_held(context: Context, sheet: DaySheet) -> None:
    """Enter what is said of finished prints, and where they went."""
    for place, approve in enumerate(sheet.approve):
        _approve(context, place, approve)
    for place, describe in enumerate(sheet.describe):
        _describe(context, place, describe)
    for place, custody in enumerate(sheet.custody):
        _custody(context, place, custody)


def _contact(context: Context, place: int, form: ContactForm) -> None:
    with context.item("contact", place):
        context.people.enter(
            name=form.name,
            dealer=form.dealer,
            place=form.place,
            life=form.life,
            address=form.address,
            email=form.email,
            telephone=form.telephone,
            note=form.note,
        )
        # the line is for the person at the desk; the name goes no further
        context.entered.append("contact, in the contact book alone")


def _opening(context: Context, place: int, form: OpeningForm) -> None:
    names = tuple(f"{form.edition} {number}" for number in form.numbers)
    with context.item("opening", place, names=names) as item:
        printed = item.date("printed", form.printed)
        edition = item.known(Edition, form.edition, "edition")
        item.check()
        printing = Printing(
            negative=edition.body.negative,
            done_on=printed or "",
            printer=form.printer,
            source=context.source,
            note=form.note,
        )
        given = enter_opening(context.act, edition, printing, form.numbers)
        context.entered.append(f"before the records  {form.edition} {', '.join(given)}")


def _replace(context: Context, place: int, form: ReplaceForm) -> None:
    with context.item("replace", place) as item:
        former = item.print(form.former, "former")
        sheet = item.print(form.sheet, "sheet")
        item.check()
        given = replace_print(context.act, former, sheet)
        context.entered.append(f"replaced {form.former}: {form.sheet} is {given}")


def _approve(context: Context, place: int, form: ApproveForm) -> None:
    with context.item("approve", place) as item:
        on = item.day("on", form.on)
        prints = [item.print(text, "prints") for text in form.prints]
        item.check()
        passed = Approval(by=form.by, role=form.role, on=on)
        for held in prints:
            body = replace(held.body, approved=passed)
            context.act.change(held.id, held.version, body)
        context.entered.append(f"approved {', '.join(form.prints)}")


def _describe(context: Context, place: int, form: DescribeForm) -> None:
    with context.item("describe", place) as item:
        of_prints = _given(form, _OF_A_PRINT)
        of_image = _given(form, _OF_A_NEGATIVE)
        if bool(of_prints) != bool(form.prints) or bool(of_image) != bool(form.negative):
            raise Refused(
                Problem(
                    "prints have features, inscriptions and whether they count; a negative has"
                    " a subject, a description, who took it and what it copies",
                    field="prints" if of_prints or form.prints else "negative",
                    mend="name what is described, and say it",
                )
            )
        for text in form.prints or ():
            held = item.print(text, "prints")
            context.act.change(held.id, held.version, replace(held.body, **of_prints))
        if form.negative:
            negative = item.known(Negative, form.negative, "negative")
            body = replace(negative.body, **of_image)
            context.act.change(negative.id, negative.version, body)
        said = [*(form.prints or ()), *([f"negative {form.negative}"] if form.negative else [])]
        context.entered.append(f"described {', '.join(said)}")


def _given(form: DescribeForm, names: tuple[str, ...]) -> dict[str, str]:
    return {name: getattr(form, name) for name in names if getattr(form, name) is not None}


def _custody(context: Context, place: int, form: CustodyForm) -> None:
    with context.item("custody", place) as item:
        on = item.day("on", form.on)
        until = item.date("until", form.until)
        prints = [item.print(text, "prints") for text in form.prints]
        people = context.people
        party = item.attempt(lambda: people.key(form.to, field="to")) if form.to else None
        giver = item.attempt(lambda: people.key(form.giver, field="from")) if form.giver else None
        item.check()
        terms = terms_key(
            context.folder,
            context.files,
            price=form.price,
            place=form.place,
            conditions=form.conditions,
        )
        move_prints(
            context.act,
            [context.act.get(Print, held.id) for held in prints],
            form.event,
            on,
            condition=form.condition,
            why=form.why,
            evidence=form.evidence,
            source=context.source,
            party=party,
            giver=giver,
            until=until,
            terms=terms,
            rights=form.rights,
        )
        context.entered.append(f"{form.event} {', '.join(form.prints)}")
