"""Everything on record about one print, gathered from the register."""

from datetime import date
from typing import TypeVar

from provenance.craft.custody import Move, in_order
from provenance.craft.history import Fact, HeldAgainst, PrintHistory, work_order
from provenance.craft.overriding import sift
from provenance.model.body import Body
from provenance.model.certificate import Certificate
from provenance.model.chemistry import Bath
from provenance.model.custody import CustodyEvent
from provenance.model.edition import Edition
from provenance.model.finish import Finish
from provenance.model.matching import MatchReport
from provenance.model.negative import Negative
from provenance.model.paper import Paper
from provenance.model.printing import Printing, Step
from provenance.model.prints import Print, Scan
from provenance.model.proof import Test
from provenance.model.studio import Studio
from provenance.model.study import SpotCalibration, ToningStudy
from provenance.records.overridden import overridden
from provenance.records.reader import Reader, Stored

B = TypeVar("B", bound=Body)


def fact(stored: Stored[B]) -> Fact[B]:
    """A record as evidence."""
    return Fact(stored.id, stored.version, stored.body, stored.changed.local_date())


def print_history(reader: Reader, record: int) -> PrintHistory:
    """The history of the print with id `record`.  Raises NotFound."""
    stored = reader.get(Print, record)
    edition = reader.get(Edition, stored.body.edition)
    printing = reader.get(Printing, stored.body.printing)
    paper = printing.body.paper
    steps = [fact(step) for step in reader.linked(record, Step, "sheets")]
    overrides = overridden(reader, record)
    sifted = sift(sorted(steps, key=work_order), overrides)
    tests = [fact(test) for test in reader.linked(record, Test, "covers")]
    finishes = [fact(finish) for finish in reader.linked(record, Finish, "prints")]
    scales = sorted({test.body.calibration for test in tests if test.body.calibration is not None})
    baths = sorted({step.body.bath for step in steps if step.body.bath is not None})
    return PrintHistory(
        studio=fact(reader.get(Studio, 1)),
        print=fact(stored),
        edition=fact(edition),
        negative=fact(reader.get(Negative, edition.body.negative)),
        printing=fact(printing),
        paper=fact(reader.get(Paper, paper)) if paper else None,
        baths=tuple(fact(reader.get(Bath, bath)) for bath in baths),
        steps=sifted.steps,
        tests=tuple(sorted(tests, key=work_order)),
        overrides=overrides,
        contradicted=sifted.contradicted,
        scans=tuple(fact(scan) for scan in reader.linked(record, Scan, "print")),
        certificates=tuple(
            fact(certificate) for certificate in reader.linked(record, Certificate, "print")
        ),
        custody=_custody(reader, record),
        matches=tuple(
            _held_against(reader, report) for report in reader.linked(record, MatchReport, "print")
        ),
        finishes=tuple(sorted(finishes, key=work_order)),
        toning_studies=tuple(fact(study) for study in reader.linked(paper, ToningStudy, "paper"))
        if paper
        else (),
        calibrations=tuple(fact(reader.get(SpotCalibration, scale)) for scale in scales),
        replaced=fact(reader.get(Print, stored.body.replaces)) if stored.body.replaces else None,
        signature_entered_on=_signature_entered_on(reader, stored),
    )


def _custody(reader: Reader, record: int) -> tuple[Fact[CustodyEvent], ...]:
    events = {event.id: event for event in reader.linked(record, CustodyEvent, "print")}
    moves = in_order(Move(event.id, event.body) for event in events.values())
    return tuple(fact(events[move.id]) for move in moves)


def _held_against(reader: Reader, report: Stored[MatchReport]) -> HeldAgainst:
    held = reader.get(Print, report.body.reference).body
    edition = reader.get(Edition, held.edition).body
    return HeldAgainst(
        fact(report),
        f"{edition.code} {held.designation or held.mark}",
        held.printing,
        reader.get(Printing, held.printing).body.done_on,
    )


def _signature_entered_on(reader: Reader, stored: Stored[Print]) -> date | None:
    """When the signature that stands was written: numbering and signing share one record."""
    entered: date | None = None
    signature = stored.body.signature
    for version in reversed(reader.versions(stored.id)) if signature else ():
        if not isinstance(version.body, Print) or version.body.signature != signature:
            break
        entered = version.entry.moment.local_date()
    return entered
