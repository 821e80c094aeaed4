"""What a day sheet may say of people, and of where prints go."""

from typing import Literal

import msgspec

from provenance.model.custody import CustodyKind
from provenance.studio.daysheet.words import Names, When, Written
from provenance.studio.written.forms import Form


class ContactForm(Form, kw_only=True):
    """A person or an institution: a page of the contact book, never of the journal."""

    name: Written
    place: str = ""
    life: str = ""
    dealer: bool = False
    address: str = ""
    email: str = ""
    telephone: str = ""
    note: str = ""


class CustodyForm(Form, kw_only=True):
    """What became of prints; people, price and place are kept apart from the journal."""

    prints: Names
    event: CustodyKind
    on: When | None = None
    to: str = ""
    giver: str = msgspec.field(name="from", default="")
    until: When | None = None
    price: str = ""
    place: str = ""
    conditions: str = ""
    rights: Literal["stay", "pass"] | None = None
    condition: str = ""
    why: str = ""
    evidence: str = ""


class OpeningForm(Form, kw_only=True):
    """Prints made, and gone, before the records began: their numbers are taken."""

    edition: Written
    numbers: Names
    printed: When
    printer: str = ""
    note: str = ""


class ReplaceForm(Form, kw_only=True):
    """A new sheet that takes the place and the number of a print that is gone for good."""

    former: Written
    sheet: Written


class ApproveForm(Form, kw_only=True):
    """Who passed prints that another hand had made."""

    prints: Names
    by: Literal["artist", "other"] = "artist"
    role: str = ""
    on: When | None = None


class DescribeForm(Form, kw_only=True):
    """What tells prints, or the image of a negative, from others."""

    prints: Names | None = None
    features: str | None = None
    inscriptions: str | None = None
    counted: Literal["inside", "outside"] | None = None
    negative: Written | None = None
    subject: str | None = None
    description: str | None = None
    taken_by: Literal["artist", "other"] | None = None
    copy_of: str | None = None
