"""What a day sheet may say of a promise, and of what is to be done later."""

from typing import Literal

from provenance.model.body import Count
from provenance.model.disclosure import Item, Reply
from provenance.model.instruction import Topic
from provenance.studio.daysheet.words import When, Written
from provenance.studio.written.forms import Form


class ArtistForm(Form, kw_only=True):
    """That the artist died: what is printed later is posthumous."""

    died: When


class PromiseForm(Form, kw_only=True):
    """A promise that is changed, with the reason; what it was is shown ever after."""

    edition: Written
    reason: Written
    promise: Written | None = None
    numbered: Count | None = None
    artist_proofs: Count | None = None
    printers_proofs: Count | None = None
    hors_commerce: Count | None = None
    unnumbered: Count | None = None
    image: Written | None = None
    sheet: Written | None = None


class CloseForm(Form, kw_only=True):
    """An edition of which no more is printed."""

    edition: Written
    on: When | None = None
    why: str = ""


class AnswerForm(Form, kw_only=True):
    """One item of disclosure and what is said of it."""

    item: Item
    reply: Reply
    words: str = ""


class DiscloseForm(Form, kw_only=True):
    """What buyers of an edition are told that the records do not say."""

    edition: Written
    other_editions: str | None = None
    rights: Literal["stay", "pass"] | None = None
    exhibition_only: bool | None = None
    answer: list[AnswerForm] | None = None


class InstructionForm(Form, kw_only=True):
    """What the artist wants done, or not done, by whoever comes after."""

    topic: Topic
    words: Written
    edition: Written | None = None
    person: str = ""
    on: When | None = None
