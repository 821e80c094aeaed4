"""Reads the table of substances from CSV text, row by row.

Codes in parentheses are given by some suppliers only.  An empty hazard standing
means that no source was consulted.
"""

import csv
import io
import re
import unicodedata
from collections.abc import Mapping
from typing import NoReturn, get_args

from provenance.craft.atomic import molar_mass
from provenance.craft.numbers import read_number
from provenance.craft.substances import Assay, Hazard, Solubility, Substance, Substances
from provenance.craft.tables import reads_a_table
from provenance.errors import Problem, Refused
from provenance.model.sources import Grade

COLUMNS = (
    "id",
    "name",
    "formula",
    "cas",
    "assay_percent",
    "assay_standing",
    "h_codes",
    "euh_codes",
    "signal_word",
    "pictograms",
    "hazard_standing",
    "solubility_g_per_l",
    "solubility_standing",
    "note",
)

_GRADES: dict[str, Grade] = {grade: grade for grade in get_args(Grade)}
_ID = re.compile(r"[a-z][a-z0-9_]*")
_CODES = {
    "h_codes": re.compile(r"H[234][0-9]{2}[A-Za-z]{0,2}"),
    "euh_codes": re.compile(r"EUH[0-9]{3}"),
    "pictograms": re.compile(r"GHS0[1-9]"),
}
_SIGNAL_WORDS = ("", "Warning", "Danger")


@reads_a_table
def read_substances(text: str, *, name: str = "substances.csv") -> Substances:
    """The substances in the CSV `text` of the file `name`.

    Raises Refused with every row that is malformed and its line, and for an id
    or CAS number that stands there twice.
    """
    reader = csv.DictReader(io.StringIO(unicodedata.normalize("NFC", text), newline=""))
    if tuple(reader.fieldnames or ()) != COLUMNS:
        raise Refused(
            Problem(
                what="the heads of the columns are not those of a table of substances",
                record=name,
                mend=f"write the first line as {','.join(COLUMNS)}",
                line=1,
            )
        )
    substances: list[Substance] = []
    problems: list[Problem] = []
    seen: dict[str, int] = {}
    for row in reader:
        try:
            substance = _substance(row)
            for key in filter(None, (substance.id, substance.cas)):
                if key in seen:
                    _refuse("id", f"{key} is also in line {seen[key]}", "keep one of the two")
                seen[key] = reader.line_num
            substances.append(substance)
        except Refused as refusal:
            problems += [
                Problem(p.what, row.get("id") or name, p.field, p.mend, reader.line_num)
                for p in refusal.problems
            ]
    if problems:
        raise Refused(*problems)
    return Substances(tuple(substances))


def _substance(row: Mapping[str | None, str | None]) -> Substance:
    if None in row or None in row.values():
        _refuse("", "the row has too many or too few columns", "put text with a comma in quotes")
    cell = {str(head): (value or "").strip() for head, value in row.items()}
    if not _ID.fullmatch(cell["id"]):
        _refuse(
            "id", f"“{cell['id']}” is not an id", "write it in small letters: potassium_bromide"
        )
    if not cell["name"]:
        _refuse("name", "the name is missing", "add it")
    if cell["formula"]:
        _formula(cell["formula"])
    if cell["cas"] and not is_cas(cell["cas"]):
        _refuse(
            "cas", f"“{cell['cas']}” is not a CAS number", "check its digits: the last checks them"
        )
    return Substance(
        id=cell["id"],
        name=cell["name"],
        formula=cell["formula"],
        cas=cell["cas"],
        usual_assay=_assay(cell),
        hazard=_hazard(cell),
        solubility=_solubility(cell),
        note=cell["note"],
    )


def is_cas(text: str) -> bool:
    """Whether `text` is a CAS registry number whose last digit agrees with the others."""
    if not re.fullmatch(r"[1-9][0-9]{1,6}-[0-9]{2}-[0-9]", text):
        return False
    *digits, check = (int(digit) for digit in text.replace("-", ""))
    return sum(place * digit for place, digit in enumerate(reversed(digits), 1)) % 10 == check


def _formula(formula: str) -> None:
    try:
        molar_mass(formula)
    except Refused as refusal:
        raise Refused(
            *(Problem(p.what, field="formula", mend=p.mend) for p in refusal.problems)
        ) from refusal


def _assay(cell: dict[str, str]) -> Assay | None:
    if not cell["assay_percent"]:
        return None
    percent = read_number(cell["assay_percent"], field="assay_percent")
    if not 0 < percent <= 100:
        _refuse("assay_percent", f"an assay of {cell['assay_percent']} % is none", "write 1 to 100")
    return Assay(percent, _grade(cell, "assay_standing"))


def _hazard(cell: dict[str, str]) -> Hazard:
    h_codes, some_h = _codes(cell, "h_codes")
    euh_codes, some_euh = _codes(cell, "euh_codes")
    pictograms, some_pictograms = _codes(cell, "pictograms")
    if cell["signal_word"] not in _SIGNAL_WORDS:
        _refuse("signal_word", f"“{cell['signal_word']}” is no signal word", "Warning or Danger")
    return Hazard(
        h_codes=h_codes,
        euh_codes=euh_codes,
        signal_word=cell["signal_word"],
        pictograms=pictograms,
        some_suppliers=some_h + some_euh + some_pictograms,
        grade=_grade(cell, "hazard_standing") if cell["hazard_standing"] else None,
    )


def _codes(cell: dict[str, str], column: str) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Codes that every label has, and those in parentheses that some have."""
    outside, _, inside = cell[column].partition("(")
    if inside and not inside.endswith(")"):
        _refuse(column, "a parenthesis is left open", "close it at the end")
    always, some = tuple(outside.split()), tuple(inside.removesuffix(")").split())
    for code in always + some:
        if not _CODES[column].fullmatch(code):
            _refuse(column, f"“{code}” is not a code", "write codes with spaces between: H302 H314")
    return always, some


def _solubility(cell: dict[str, str]) -> Solubility | None:
    text = cell["solubility_g_per_l"]
    if not text:
        return None
    if not re.fullmatch(r"[1-9][0-9]{0,4}", text):
        _refuse("solubility_g_per_l", f"“{text}” is not a whole number of grams", "write it as 460")
    return Solubility(int(text), _grade(cell, "solubility_standing"))


def _grade(cell: dict[str, str], column: str) -> Grade:
    if cell[column] not in _GRADES:
        _refuse(column, f"“{cell[column]}” is no standing", f"write one of: {', '.join(_GRADES)}")
    return _GRADES[cell[column]]


def _refuse(field: str, what: str, mend: str) -> NoReturn:
    raise Refused(Problem(what=what, field=field, mend=mend))
