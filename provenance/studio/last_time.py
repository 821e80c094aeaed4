"""Same as last time: what a form begins with, so that only what differs is typed."""

import re
from dataclasses import dataclass, field

from provenance.craft.numbers import plain
from provenance.model.chemistry import Bath
from provenance.model.custody import CustodyEvent
from provenance.model.edition import Edition
from provenance.model.finish import Finish
from provenance.model.paper import Paper
from provenance.model.printing import Burn, Exposure, Printing, Step
from provenance.model.prints import Print, Signature
from provenance.model.process import ProcessSheet, Question
from provenance.model.proof import Test
from provenance.model.quantity_text import format_duration, format_stops, format_temperature
from provenance.records.at_hand import baths_in_use
from provenance.records.reader import Reader, Stored

_NUMBERED = re.compile(r"(?P<letters>.*?)(?P<number>\d{1,9})")


@dataclass(frozen=True)
class LastTime:
    """The printing before this one, in the words of a day sheet; empty where nothing is known."""

    day: str = ""
    sheets: int = 1
    printer: str = ""
    paper: str = ""
    process: str = ""
    baths: dict[str, str] = field(default_factory=dict)
    """By the name of the planned step: the code of the bath that would stand for it now."""
    temperature: str = ""
    """Of the developer."""
    base: str = ""
    aperture: str = ""
    grade: str = ""
    enlarger: str = ""
    lens: str = ""
    burns: str = ""


def last_time(reader: Reader, edition: Stored[Edition]) -> LastTime:
    """The last printing of `edition`; of the studio where the edition has none.

    How another image was exposed says nothing of this one: then only what stands
    on the enlarger is taken over.
    """
    own = _last_of(reader, edition.id)
    stored = own or _last_of_studio(reader)
    if stored is None:
        return LastTime()
    printing = stored.body
    prints = reader.linked(stored.id, Print, "printing")
    steps = reader.linked(prints[0].id, Step, "sheets") if prints else []
    develop = next((step.body for step in steps if step.body.role == "develop"), None)
    exposure = printing.exposure or Exposure()
    here = exposure if own else Exposure()
    return LastTime(
        day=printing.done_on,
        sheets=len(prints) or 1,
        printer=printing.printer,
        paper=reader.get(Paper, printing.paper).body.code if printing.paper else "",
        process=reader.get(ProcessSheet, printing.process).body.code if printing.process else "",
        baths=_baths(reader, steps),
        temperature=""
        if develop is None or develop.temperature_tenth_c is None
        else format_temperature(develop.temperature_tenth_c),
        base="" if here.base_ms is None else format_duration(here.base_ms),
        aperture="" if here.aperture_tenth is None else f"f/{here.aperture_tenth / 10:g}",
        grade=here.grade,
        enlarger=exposure.enlarger,
        lens=exposure.lens,
        burns="; ".join(map(_burn, here.burns)),
    )


def _last_of(reader: Reader, edition: int) -> Stored[Printing] | None:
    row = reader.connection.execute(
        "SELECT id FROM impression WHERE edition = ? ORDER BY printed_on DESC, id DESC LIMIT 1",
        (edition,),
    ).fetchone()
    return reader.get(Printing, reader.get(Print, row[0]).body.printing) if row else None


def _last_of_studio(reader: Reader) -> Stored[Printing] | None:
    row = reader.connection.execute(
        "SELECT max(id) FROM record WHERE kind = 'printing' AND live"
    ).fetchone()
    return reader.get(Printing, row[0]) if row[0] else None


def _baths(reader: Reader, steps: list[Stored[Step]]) -> dict[str, str]:
    found: dict[str, str] = {}
    for step in steps:
        if step.body.bath is None or not step.body.name:
            continue
        bath: Stored[Bath] | None = reader.get(Bath, step.body.bath)
        if bath and (bath.body.one_shot or bath.body.retired_on):
            bath = _newer(reader, bath)
        if bath is not None:
            found[step.body.name] = bath.body.code
    return found


def _newer(reader: Reader, spent: Stored[Bath]) -> Stored[Bath] | None:
    """The bath entered last that can stand in for one that was thrown away."""
    return next(
        (
            bath
            for bath in reversed(baths_in_use(reader))
            if bath.id > spent.id
            and bath.body.role == spent.body.role
            and not (bath.body.one_shot and reader.linked(bath.id, Step, "bath"))
        ),
        None,
    )


def _burn(burn: Burn) -> str:
    stops = plain(format_stops(burn.milli_stop)).removesuffix("s").removesuffix("stop").strip()
    return f"{burn.area} {stops}" + (f" grade {burn.grade}" if burn.grade else "")


def next_marks(reader: Reader, edition: Stored[Edition], count: int) -> list[str]:
    """The next `count` pencil marks of an edition: after Q11 come Q12, Q13 …"""
    row = reader.connection.execute(
        "SELECT mark FROM print_key WHERE edition = ? ORDER BY id DESC LIMIT 1", (edition.id,)
    ).fetchone()
    match = _NUMBERED.fullmatch(row[0]) if row else None
    letters = match["letters"] if match else edition.body.code[:1].upper()
    number = int(match["number"]) if match else 0
    marks: list[str] = []
    while len(marks) < count:
        number += 1
        mark = f"{letters}{number}"
        taken = reader.connection.execute(
            "SELECT 1 FROM print_key WHERE edition = ? AND mark = ?", (edition.id, mark)
        ).fetchone()
        if not taken:
            marks.append(mark)
    return marks


def lowest_free(reader: Reader, edition: Stored[Edition], count: int = 1) -> int | None:
    """The lowest number from which `count` numbers of the edition are free; None without one."""
    taken = {
        row[0]
        for row in reader.connection.execute(
            "SELECT number FROM impression WHERE edition = ? AND series = 'numbered'",
            (edition.id,),
        )
    }
    for first in range(1, edition.body.numbered - count + 2):
        if taken.isdisjoint(range(first, first + count)):
            return first
    return None


def last_test(reader: Reader, question: Question) -> Test | None:
    """The test of `question` that was entered last."""
    for (record,) in reader.connection.execute(
        "SELECT id FROM record WHERE kind = 'test' AND live ORDER BY id DESC"
    ):
        body = reader.get(Test, record).body
        if body.question == question:
            return body
    return None


def last_signature(reader: Reader) -> Signature | None:
    """The signature on the print that was entered last of those that bear one."""
    row = reader.connection.execute(
        "SELECT id FROM impression WHERE state IN ('n', 'c', 'r') ORDER BY id DESC LIMIT 1"
    ).fetchone()
    return reader.get(Print, row[0]).body.signature if row else None


def last_finish(reader: Reader) -> Finish | None:
    """How prints were finished that were entered last."""
    row = reader.connection.execute(
        "SELECT max(id) FROM record WHERE kind = 'finish' AND live"
    ).fetchone()
    return reader.get(Finish, row[0]).body if row[0] else None


def last_custody(reader: Reader) -> CustodyEvent | None:
    """The custody event that was entered last, of any print."""
    row = reader.connection.execute(
        "SELECT max(id) FROM record WHERE kind = 'custody' AND live"
    ).fetchone()
    return reader.get(CustodyEvent, row[0]).body if row[0] else None


def last_edition(reader: Reader) -> Edition | None:
    """The edition that was entered last."""
    row = reader.connection.execute(
        "SELECT max(id) FROM record WHERE kind = 'edition' AND live"
    ).fetchone()
    return reader.get(Edition, row[0]).body if row[0] else None
