"""What a day sheet may contain: one form per table, as a person writes it.

Quantities are text with their unit (``"2 min 30 s"``); they are read later, so
that every mistake in a sheet is found in one reading.
"""

from typing import Literal

import msgspec

from provenance.model.body import Count
from provenance.model.chemistry import Finish, Role
from provenance.model.formula import Use
from provenance.model.negative import NegativeState
from provenance.model.paper import Base
from provenance.model.printing import Head
from provenance.model.process import Question
from provenance.model.proof import Method, Specimen, ThiosulfateAs, Verdict
from provenance.model.readings import Backing, Geometry, State
from provenance.model.sources import Grade
from provenance.studio.daysheet.custody_forms import (
    ApproveForm,
    ContactForm,
    CustodyForm,
    DescribeForm,
    OpeningForm,
    ReplaceForm,
)
from provenance.studio.daysheet.finish_forms import FinishForm
from provenance.studio.daysheet.finished_forms import (
    GoneForm,
    NumberForm,
    ReleaseForm,
    ScanForm,
    SignForm,
)
from provenance.studio.daysheet.promise_forms import (
    ArtistForm,
    CloseForm,
    DiscloseForm,
    InstructionForm,
    PromiseForm,
)
from provenance.studio.daysheet.study_forms import (
    CalibrationForm,
    ToningStudyForm,
    WashStudyForm,
)
from provenance.studio.daysheet.words import Names, When, Written
from provenance.studio.formulas import PartForm
from provenance.studio.written.forms import Form


class Day(Form, kw_only=True):
    """The day that the sheet is about, who writes it, and from what."""

    date: When
    who: Written | None = None
    source: Literal["notes", "memory"] = msgspec.field(name="from", default="notes")


class StudioForm(Form, kw_only=True):
    """Founds a studio where there is none."""

    name: Written
    artist: Written
    place: str = ""
    mark: Written


class NegativeForm(Form, kw_only=True):
    """A negative."""

    code: Written
    title: Written
    made: When | None = None
    format: Written | None = None
    state: NegativeState = "in use"
    since: When | None = None
    subject: str = ""
    description: str = ""
    taken_by: Literal["artist", "other"] | None = None
    copy_of: str | None = None
    note: str = ""


class NegativeStateForm(Form, kw_only=True):
    """What became of a negative."""

    negative: Written
    state: NegativeState
    since: When
    why: str = ""


class EditionForm(Form, kw_only=True):
    """An edition and its promise."""

    code: Written
    negative: Written
    name: Written
    promise: Written
    numbered: Count = 0
    artist_proofs: Count = 0
    printers_proofs: Count = 0
    hors_commerce: Count = 0
    unnumbered: Count = 0
    image: Written
    sheet: Written
    opened: When | None = None
    closed: When | None = None
    other_editions: str = ""
    rights: Literal["stay", "pass"] | None = None
    exhibition_only: bool | None = None


class PaperForm(Form, kw_only=True):
    """A batch of paper."""

    code: Written
    base: Base
    weight: str = ""
    surface: str = ""
    tone: str = ""
    contrast: str = ""
    maker: str = ""
    batch: str = ""
    sheet: Written | None = None
    bought: When | None = None


class FormulaEntryForm(Form, kw_only=True):
    """A formula: one of the templates by its code alone, or the studio's own with its parts."""

    code: Written
    name: Written | None = None
    role: Role | None = None
    test: Question | None = None
    use: Use | None = None
    finish: Finish | None = None
    dilution: Written | None = None
    one_shot: bool = False
    keeps_days: Count | None = None
    tray_days: Count | None = None
    source: Written | None = None
    standing: Grade | None = None
    note: str = ""
    part: list[PartForm] = []


class StockForm(Form, kw_only=True):
    """A bottle that was mixed, or opened."""

    code: Written
    formula: Written | None = None
    made_from: str = ""
    mixed: When | None = None
    volume: Written
    lot: str = ""
    keeps_until: When | None = None
    note: str = ""


class BathForm(Form, kw_only=True):
    """A working solution in a tray."""

    code: Written
    role: Role
    made_from: str = ""
    formula: Written | None = None
    draw: dict[str, Written] = {}
    finish: Finish = "made up to"
    dilution: Written | None = None
    volume: Written | None = None
    made: When | None = None
    one_shot: bool | None = None
    film_used: bool | None = None
    hardening: bool | None = None
    limit: str = ""
    second_of: Written | None = None


class RetireForm(Form, kw_only=True):
    """Trays and bottles that were emptied."""

    baths: Names | None = None
    stocks: Names | None = None
    on: When | None = None
    why: Written
    disposed: str = ""


class BurnForm(Form, kw_only=True):
    """A named area that gets more or less exposure."""

    area: Written
    stops: Written
    grade: str = ""
    note: str = ""
    at: Written | None = None


class GradeForm(Form, kw_only=True):
    """One exposure of the whole sheet, of several."""

    grade: Written
    time: Written


class CropForm(Form, kw_only=True):
    """The part of the negative that is printed."""

    left: Written
    top: Written
    size: Written


class ExposureForm(Form, kw_only=True):
    """How the sheets were exposed."""

    base: Written | None = None
    grade: str = ""
    parts: list[GradeForm] = []
    preflash: Written | None = None
    mask: str = ""
    aperture: Written | None = None
    enlarger: str = ""
    head: Head = ""
    carrier: str = ""
    lens: str = ""
    magnification: Written | None = None
    magnification_from: Literal["measured", "computed"] = "measured"
    crop: CropForm | None = None
    burns: list[BurnForm] = []
    emergence: Written | None = None


class HowForm(Form, kw_only=True):
    """How readings were taken."""

    instrument: str = ""
    geometry: Geometry = "not known"
    backing: Backing = "not known"
    filter: str = ""
    state: State = "dry"
    note: str = ""


class WedgeForm(HowForm, kw_only=True):
    """A step tablet printed on a paper; `readings` is a table of text."""

    paper: Written
    on: When | None = None
    grade: str = ""
    tablet: Written
    steps: Count = 0
    exposure: Written
    light: str = ""
    developer: str = ""
    readings: Written


class ReadingForm(HowForm, kw_only=True):
    """What an instrument read on a print, by the names of the spots."""

    print: Written
    on: When | None = None
    density: dict[str, Written] = {}
    lab: dict[str, Written] = {}
    at: dict[str, Written] = {}


class MatchForm(Form, kw_only=True):
    """A print held against its reference, and what a person decided."""

    print: Written
    reference: Written
    accepted: bool
    by: Written
    on: When | None = None
    why: str = ""


class StepForm(Form, kw_only=True):
    """A bath (`do`) or a test (`test`), in its place in the order of work."""

    do: Role | None = None
    test: Question | None = None
    name: str = ""
    after: str = ""
    sheets: Names | None = None
    date: When | None = None
    note: str = ""
    # of a bath
    bath: Written | None = None
    agent: str = ""
    time: Written | None = None
    own: dict[str, Written] = {}
    temperature: Written | None = None
    start: Written | None = None
    # of a test
    method: Method | None = None
    specimen: Specimen | None = None
    contact: Written | None = None
    read: Written | None = None
    reading: str = ""
    measured: Written | None = None
    reckoned_as: ThiosulfateAs | None = None
    darker: Written | None = None
    calibration: Written | None = None
    limit: Written | None = None
    criterion: str = ""
    criterion_source: str = ""
    verdict: Verdict | None = None
    kept_at: str = ""
    photograph: Written | None = None
    report: Written | None = None


class TreatmentForm(Form, kw_only=True):
    """Steps that sheets which exist already went through."""

    sheets: Names
    date: When | None = None
    process: Written | None = None
    as_planned: bool = False
    baths: dict[str, Written] = {}
    step: list[StepForm] = []


class PrintingForm(Form, kw_only=True):
    """New sheets of one edition, how they were exposed and what they went through."""

    edition: Written
    sheets: Names
    date: When | None = None
    printer: str = ""
    paper: Written | None = None
    image: Written | None = None
    sheet: Written | None = None
    exposure: ExposureForm | None = None
    note: str = ""
    process: Written | None = None
    as_planned: bool = False
    baths: dict[str, Written] = {}
    step: list[StepForm] = []


class DaySheet(Form, kw_only=True):
    """The whole sheet."""

    day: Day
    studio: StudioForm | None = None
    artist: ArtistForm | None = None
    contact: list[ContactForm] = []
    negative: list[NegativeForm] = []
    negative_state: list[NegativeStateForm] = []
    edition: list[EditionForm] = []
    promise: list[PromiseForm] = []
    disclose: list[DiscloseForm] = []
    close: list[CloseForm] = []
    instruction: list[InstructionForm] = []
    opening: list[OpeningForm] = []
    paper: list[PaperForm] = []
    formula: list[FormulaEntryForm] = []
    stock: list[StockForm] = []
    bath: list[BathForm] = []
    printing: list[PrintingForm] = []
    treatment: list[TreatmentForm] = []
    number: list[NumberForm] = []
    sign: list[SignForm] = []
    scan: list[ScanForm] = []
    wedge: list[WedgeForm] = []
    reading: list[ReadingForm] = []
    match: list[MatchForm] = []
    wash_study: list[WashStudyForm] = []
    toning_study: list[ToningStudyForm] = []
    calibration: list[CalibrationForm] = []
    finish: list[FinishForm] = []
    describe: list[DescribeForm] = []
    replace: list[ReplaceForm] = []
    approve: list[ApproveForm] = []
    release: list[ReleaseForm] = []
    custody: list[CustodyForm] = []
    retire: list[RetireForm] = []
    gone: list[GoneForm] = []
