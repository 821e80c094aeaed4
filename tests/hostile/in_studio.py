"""What reads text against the records of a studio: sheets, tables, settings, searches."""

import shutil
from functools import partial
from pathlib import Path

from provenance.documents.worksheet_words import read_worksheet_words
from provenance.records.register import Register
from provenance.resources import resource
from provenance.studio.daysheet.record import record_day_sheet
from provenance.studio.editions.disclosing import load_profile
from provenance.studio.editions.reminding import load_reminders
from provenance.studio.finding import look_up
from provenance.studio.folder import StudioFolder
from provenance.studio.keys.public import read_public_key
from provenance.studio.notebook import import_notebook
from provenance.studio.processes import load_process
from provenance.studio.readings_table import import_readings
from provenance.studio.references import resolve, resolve_print
from provenance.studio.rolls.words import read_words
from provenance.studio.settings import Settings, read_settings
from provenance.studio.tables.importing import KINDS, Kind, import_table
from provenance.studio.wordings import load_layout, load_wording
from tests import studios
from tests.hostile.readers import Reader
from tests.studio.finished import desk

DAY = """\
[day]
date = 2031-05-04
who = "artist"
[[negative]]
code = "N-7"
title = "Breakwater"
made = "1998~"
[[paper]]
code = "FB-7"
base = "fibre"
sheet = "30.5 x 40.6 cm"
[[bath]]
code = "fix-B"
role = "fix"
dilution = "1+4"
made = 2031-05-03
[[printing]]
edition = "QUAY"
sheets = ["Z1", "Z2"]
paper = "FB-1"
exposure = { aperture = "f/8", parts = [{ grade = "2", time = "17 s" }] }
[[printing.step]]
do = "fix"
bath = "F-1"
time = "5 min"
[[printing.step]]
test = "silver"
method = "sulfide spot"
specimen = "border"
reading = "no stain"
verdict = "passed"
[[number]]
edition = "QUAY"
sheets = ["Z1", "Z2"]
first = "8/25"
[[treatment]]
sheets = ["QUAY 7/25"]
[[treatment.step]]
do = "wash"
time = "1 h"
[[release]]
prints = ["QUAY 7/25"]
to = "a collector"
"""
NOTEBOOK = (
    "date;edition;sheets;paper;base;aperture;grade;develop;fix;wash;note\n"
    "2031-03-05;QUAY;14/a 14/b;FB-1;17 s;f/8;2;3 min;1 min;1 h;fresh\n"
    "2031~;QUAY;proof;;;;;;;;\n"
)
READINGS = (
    "print,SAMPLE_NAME,D,LAB_L,LAB_A,LAB_B\nQUAY 7/25,sky,0.12,,,\nQUAY 7/25,wall,,65.2,0.1,2\n"
)
TABLES: dict[Kind, str] = {
    "negatives": "code;title;made;size;copy_of\nN-7;Ropewalk;1998~;6.9 x 5.6 cm;'\n",
    "editions": (
        "code;negative;name;promise;numbered;image;sheet;bon_a_tirer;exhibition_only\n"
        "ROPE;N-1;Ropes;Ten;10;30 x 24 cm;40.6 x 30.5 cm;ROPE BAT;false\n"
    ),
    "processes": (
        'code;name;base;steps\np;Plain;fibre;[{"name":"fix","role":"fix","aim":{"time_ms":60000}}]\n'
    ),
    "printings": (
        "negative;done_on;paper;exposure;source\n"
        'N-1;2031-03-05;FB-1;{"base_ms":14000,"burns":[{"area":"sky","milli_stop":250}]};notes\n'
    ),
    "papers": "code;base;weight;surface;sheet size\nFB-7;fibre;double;gloss;40.6 x 30.5 cm\n",
    "prints": (
        "edition;number;date;paper;image size;signed;inscriptions\n"
        "QUAY;9/25;2031-03-05;FB-1;30 x 24 cm;2031-03-09;«for S.»\n"
    ),
    "custody": "print;event;date;to\nQUAY 7/25;sold;2031-05-01;A. Collector\n",
}
SETTINGS = (
    'units = "inch"\npage = "letter"\nwho = "MV"\ncolon_dilution = "parts"\n'
    'silver_limit = "single"\n[residual_limits.house]\nquestion = "thiosulfate"\n'
    'amount = "0.8 µg/cm²"\nreckoned_as = "ion"\nsource = "own choice"\n[keys]\nfind = "f3"\n'
)


class Studio:
    """A studio whose files are written over with what is to be read."""

    def __init__(self, place: Path) -> None:
        self._place = place
        self.path = place / "studio"
        desk(self.path).register.close()
        self.folder = StudioFolder(self.path)
        self.register = Register.open(self.path, clock=studios.clock())

    def close(self) -> None:
        """Close the register and take everything away."""
        self.register.close()
        shutil.rmtree(self.path)

    def _write(self, text: str, *parts: str) -> Path:
        path = self._place.joinpath(*parts)
        path.parent.mkdir(parents=True, exist_ok=True)
        # as a careless program would: whatever the bytes come to
        path.write_bytes(text.encode("utf-8", "surrogateescape" if _escaped(text) else "replace"))
        return path

    def readers(self) -> tuple[Reader, ...]:
        """Each is tried as a rehearsal: nothing that is read stays."""
        read = self.register.read
        return (
            Reader("day sheet, entered", self._day_sheet, (DAY,)),
            Reader("notebook", self._notebook, (NOTEBOOK,)),
            Reader("readings", self._readings, (READINGS,)),
            *(
                Reader(f"table of {one}", partial(self._table, one), (TABLES[one],))
                for one in KINDS
            ),
            Reader(
                "words of a roll", lambda text: read_words(text, "en"), (_shipped("roll.toml"),)
            ),
            Reader("settings", self._settings, (SETTINGS,)),
            Reader("wording", self._wording, (_shipped("wording", "en.toml"),)),
            Reader(
                "words of a worksheet",
                lambda text: read_worksheet_words(text, "fr"),
                (_shipped("worksheet.toml"),),
            ),
            Reader("reminders", self._reminders, (_shipped("data", "reminders.toml"),)),
            Reader("disclosure", self._disclosure, (_shipped("data", "disclosure.toml"),)),
            Reader("own layout", self._layout, (_shipped("certificate.toml"),)),
            Reader(
                "name of a process", lambda text: load_process(self.folder, text), ("fibre-plain",)
            ),
            Reader("language", lambda text: load_wording(self.folder, text), ("en", "fr")),
            Reader(
                "reference",
                lambda text: resolve(read, text),
                ("QUAY 7/25", "#12", "F-1", "QUAY Q7"),
            ),
            Reader("print", lambda text: resolve_print(read, text, "QUAY"), ("7/25", "AP2", "Q7")),
            Reader(
                "search", lambda text: look_up(read, text), ("quay slip", "DR-2031-0001-58", "N-1")
            ),
            Reader("public key", lambda text: read_public_key(_bytes(text), "key"), (_PEM,)),
        )

    def _day_sheet(self, text: str) -> object:
        path = self._write(text, "day.toml")
        return record_day_sheet(self.folder, path, rehearse=True, clock=studios.clock())

    def _notebook(self, text: str) -> object:
        path = self._write(text, "notebook.csv")
        return import_notebook(
            self.register, self.folder, path, source="notes", settings=Settings(), rehearse=True
        )

    def _readings(self, text: str) -> object:
        path = self._write(text, "readings.csv")
        return import_readings(
            self.register,
            self.folder,
            path,
            mapping={},
            fixed={"instrument": "densitometer"},
            source="notes",
            settings=Settings(),
            rehearse=True,
        )

    def _table(self, kind: Kind, text: str) -> object:
        path = self._write(text, "table.csv")
        return import_table(
            self.register,
            self.folder,
            path,
            kind=kind,
            mapping={},
            fixed={},
            source="notes",
            settings=Settings(),
            rehearse=True,
        )

    def _settings(self, text: str) -> object:
        self._write(text, "studio", "settings.toml")
        try:
            return read_settings(self.folder)
        finally:
            self.folder.settings.unlink()

    def _wording(self, text: str) -> object:
        self._write(text, "studio", "templates", "wording", "own.toml")
        return load_wording(self.folder, "own")

    def _reminders(self, text: str) -> object:
        self._write(text, "studio", "templates", "data", "reminders.toml")
        return load_reminders(self.folder)

    def _disclosure(self, text: str) -> object:
        self._write(text, "studio", "templates", "data", "disclosure.toml")
        return load_profile(self.folder, "union")

    def _layout(self, text: str) -> object:
        own = self._write(text, "studio", "templates", "certificate.toml")
        try:
            return load_layout(self.folder, "en")
        finally:
            own.unlink()


def _escaped(text: str) -> bool:
    return all(not 0xD800 <= ord(one) <= 0xDFFF or 0xDC80 <= ord(one) <= 0xDCFF for one in text)


def _bytes(text: str) -> bytes:
    return text.encode("utf-8", "replace")


def _shipped(*parts: str) -> str:
    return resource("templates", *parts).read_text(encoding="utf-8")


_PEM = (
    "-----BEGIN PUBLIC KEY-----\n"
    "MCowBQYDK2VwAyEAGb9ECWmEzf6FQbrBZ9w7lshQhqowtrbLDFw4rXAxZuE=\n-----END PUBLIC KEY-----\n"
)
