"""What a day sheet may say of the finish of prints."""

from provenance.model.finish import Drying, Flattening, Occasion, Spotting
from provenance.studio.daysheet.words import Names, When, Written
from provenance.studio.written.forms import Form


class InscriptionForm(Form, kw_only=True):
    """Words on a sheet."""

    text: Written
    medium: str = ""
    where: str = ""


class FinishForm(Form, kw_only=True):
    """What was done after the last wash; what is left out was not recorded."""

    prints: Names
    on: When | None = None
    like: Written | None = None
    drying: Drying | None = None
    flattening: Flattening | None = None
    spotting: Spotting | None = None
    trimmed: bool | None = None
    mount: str | None = None
    adhesive: str | None = None
    coating: str | None = None
    enclosure: str | None = None
    inscription: list[InscriptionForm] | None = None
    condition: Written | None = None
    occasion: Occasion = "finished"
    note: str = ""
