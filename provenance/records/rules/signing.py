"""Rules for who signs a print, and who passes one that another hand made."""

from collections.abc import Iterator

from provenance.errors import Problem
from provenance.model.printing import Printing
from provenance.model.prints import Print
from provenance.model.studio import Studio
from provenance.records.rules.case import Case, before


def signature(case: Case[Print], printing: Printing) -> Iterator[Problem]:
    """A signature comes after the print, and the artist's own in the artist's life."""
    signed = case.body.signature
    if signed is None:
        return
    dated = list(case.edtf("signed.on", signed.on))
    yield from dated
    if not dated and before(signed.on, printing.done_on):
        yield case.problem(
            f"signed on {signed.on}, before it was printed on {printing.done_on}",
            "signed.on",
            "a print is signed after it is made; check both dates",
        )
    signing = case.before is None or case.before.signature is None
    if signing and case.body.designation is None:
        yield case.problem(
            "it has no number yet", "signed", "number it first, or in the same day sheet"
        )
    if signed.counts and not dated:
        yield from _in_life(case, printing, signed.on)


def _in_life(case: Case[Print], printing: Printing, on: str) -> Iterator[Problem]:
    died = case.act.get(Studio, 1).body.died
    if died is None:
        return
    mend = "record what it bears as it is: an estate's stamp, a facsimile, another's hand"
    if before(died, printing.done_on):
        yield case.problem(
            f"it is posthumous: printed on {printing.done_on}, and the artist died on {died};"
            " it cannot bear the artist's signature",
            "signed",
            mend,
        )
    elif before(died, on):
        yield case.problem(
            f"signed on {on}, and the artist died on {died}", "signed.on", "check both dates"
        )


def approval(case: Case[Print], printing: Printing) -> Iterator[Problem]:
    """A print is passed after it was made, by the artist only in the artist's life."""
    passed = case.body.approved
    if passed is None or (case.before and case.before.approved == passed):
        return
    dated = list(case.edtf("approved.on", passed.on))
    yield from dated
    if dated:
        return
    if before(passed.on, printing.done_on):
        yield case.problem(
            f"approved on {passed.on}, before it was printed on {printing.done_on}",
            "approved.on",
            "check both dates",
        )
    died = case.act.get(Studio, 1).body.died
    if passed.by == "artist" and died is not None and before(died, passed.on):
        yield case.problem(
            f"approved on {passed.on}, and the artist died on {died}",
            "approved.on",
            "say who approved it, or check both dates",
        )
