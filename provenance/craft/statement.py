"""The treatment statement of a print: what its record supports, and no more.

A statement is a list of claims in a fixed order: how the print was made, what
was tested, what is not known.  A claim that lacks a piece of its evidence is
not weakened by silence: the gap becomes a claim of its own.
"""

from provenance.craft.history import PrintHistory
from provenance.craft.proof import judge
from provenance.craft.stated.catalogue import CLAIMS
from provenance.craft.stated.made import made
from provenance.craft.stated.tested import tested
from provenance.craft.stated.toned import toned
from provenance.craft.stated.unknown import unknown
from provenance.model.evidence import Claim
from provenance.model.process import Question

__all__ = ["CLAIMS", "QUESTIONS", "statement"]

QUESTIONS: tuple[Question, ...] = ("silver", "thiosulfate")


def statement(history: PrintHistory) -> tuple[Claim, ...]:
    """Every claim that the record of one print supports, in the order of reading."""
    findings = [judge(history, question) for question in QUESTIONS]
    studied = tuple(toned(history))
    return (
        *made(history),
        *(claim for finding in findings for claim in tested(history, finding)),
        *studied,
        *unknown(history, findings, studied),
    )
