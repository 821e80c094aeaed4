"""What a day sheet may say of finished prints: number, signature, scan, way out, end."""

from typing import Literal

from provenance.studio.daysheet.words import Names, When, Written
from provenance.studio.written.forms import Form


class NumberForm(Form, kw_only=True):
    """Gives numbers to sheets, in the order in which they are named."""

    edition: Written
    sheets: Names
    first: Written


class SignForm(Form, kw_only=True):
    """A signature on one or more prints."""

    prints: Names
    on: When | None = None
    by: Literal["artist", "other"] = "artist"
    means: Literal["hand", "stamp", "facsimile"] = "hand"
    medium: str = ""
    where: str = ""
    role: str = ""


class ScanForm(Form, kw_only=True):
    """A scan of a print; the path is relative to the day sheet."""

    print: Written
    file: Written


class ReleaseForm(Form, kw_only=True):
    """Prints that left the studio; `to` goes into the contact book, not the journal."""

    prints: Names
    on: When | None = None
    to: str = ""
    condition: str = ""


class GoneForm(Form, kw_only=True):
    """A print that is no more."""

    print: Written
    how: Literal["spoiled", "destroyed", "lost"]
    on: When | None = None
    why: Written
    evidence: str = ""
