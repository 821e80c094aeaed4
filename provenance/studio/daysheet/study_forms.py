"""What a day sheet may say of studies: washing, toning, spots."""

from provenance.model.proof import Method, ThiosulfateAs
from provenance.model.study import BleachTest
from provenance.studio.daysheet.words import Names, When, Written
from provenance.studio.written.forms import Form


class WashStudyForm(Form, kw_only=True):
    """What was left in sheets that were washed for different times."""

    code: Written
    paper: Written
    on: When | None = None
    fixing: str = ""
    aid: bool | None = None
    washing: str = ""
    temperature: Written | None = None
    method: Method
    reckoned_as: ThiosulfateAs = "ion"
    laboratory: str = ""
    readings: Written
    note: str = ""


class ToningStudyForm(Form, kw_only=True):
    """Densities of the same patches before and after a bleach."""

    code: Written
    paper: Written
    process: Written | None = None
    on: When | None = None
    bleach: BleachTest
    bath: str = ""
    bleached: Written | None = None
    paper_density: Written
    patches: Names
    filter: str = ""
    instrument: str = ""
    note: str = ""


class CalibrationForm(Form, kw_only=True):
    """The studio's own scale from the darkness of a spot to an amount."""

    code: Written
    paper: Written
    on: When | None = None
    method: Method
    contact: Written | None = None
    read: Written | None = None
    points: Names
    reckoned_as: ThiosulfateAs | None = None
    laboratory: str = ""
    instrument: str = ""
    filter: str = ""
    note: str = ""
