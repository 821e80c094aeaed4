"""The statement of a print in the words of a language."""

from collections.abc import Iterator

from provenance.craft.history import PrintHistory
from provenance.craft.statement import statement
from provenance.craft.wording import Wording
from provenance.craft.wording_rules import FORBIDDEN
from provenance.errors import Problem
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


def boasts(claims: tuple[IssuedClaim, ...], name: str) -> Iterator[Problem]:
    """Sentences that say more than a record can show.

    The wording was checked when it was read, so the words came with a record: an
    agent called archival, a criterion that names a standard.
    """
    for claim in claims:
        if found := FORBIDDEN.search(claim.sentence):
            records = ", ".join(f"#{record}" for record in claim.evidence)
            yield Problem(
                f"a sentence would say {found[0]!r}, which no record can show",
                name,
                claim.id,
                f"correct the words of {records}",
            )
