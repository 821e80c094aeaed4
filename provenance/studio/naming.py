"""What to call a record in a line of its own, whatever its kind."""

from provenance.model.body import Body
from provenance.model.certificate import Certificate
from provenance.model.custody import CustodyEvent
from provenance.model.finish import Finish
from provenance.model.negative import Negative
from provenance.model.printing import Printing, Step
from provenance.model.prints import Scan
from provenance.model.proof import Test
from provenance.model.readings import Reading, Wedge
from provenance.records.reader import Reader, Stored
from provenance.studio.browsing import name_of, summary


def called(reader: Reader, record: int) -> str:
    """A record that another one refers to."""
    stored = reader.find(record)
    if stored is None:
        return f"#{record}, no longer on record"
    match stored.body:
        case Printing(done_on=day):
            return f"printing of {day}"
        case Step(name=name, role=role, done_on=day):
            return f"{name or role} of {day}"
        case Test(question=question, done_on=day):
            return f"{question} test of {day}"
        case Finish(done_on=day):
            return f"finish of {day}"
        case Scan(file_name=name):
            return name
        case CustodyEvent(event=event, on=day):
            return f"{event} {day}"
        case Reading(print=print_, done_on=day):
            return f"readings of {called(reader, print_)}, {day}"
        case Wedge(paper=paper, grade=grade, done_on=day):
            return f"wedge on {called(reader, paper)} {grade}".strip() + f", {day}"
        case Certificate(number=number):
            return number
        case _:
            return name_of(reader, stored)


def row_of(reader: Reader, stored: Stored[Body]) -> tuple[str, str]:
    """A record in a list of its kind: what to call it, and a line about it.

    What has no name of its own is called by its day.
    """
    match stored.body:
        case Printing() as body:
            title = reader.get(Negative, body.negative).body.title
            words = [title, body.printer, body.note]
            return body.done_on, "   ".join(word for word in words if word)
        case CustodyEvent() as body:
            return body.on, f"{called(reader, body.print)} {body.event}"
        case Certificate() as body:
            said = f"{called(reader, body.print)}, {body.state} {body.issued_at[:10]}"
            return body.number, said
    found = summary(reader, stored)
    return found.name, found.about.replace("  ", "   ")
