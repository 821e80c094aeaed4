"""The statement of a print in the words of a language."""

from provenance.craft.history import PrintHistory
from provenance.craft.statement import statement
from provenance.craft.wording import Wording
from provenance.model.certificate import IssuedClaim


def worded(history: PrintHistory, wording: Wording) -> tuple[IssuedClaim, ...]:
    """The statement of a print in words, each sentence with its standing and evidence."""
    return tuple(
        IssuedClaim(
            id=claim.id,
            section=claim.section,
            sentence=wording.sentence(claim),
            standing=claim.standing,
            evidence=claim.evidence,
        )
        for claim in statement(history)
    )
