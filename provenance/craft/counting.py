"""How many prints an edition and its negative were promised and have: two counts.

The trade counts an edition by itself, in one size and process.  Tax rules and
the US statute on visual art count every signed print of the image, in all sizes.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from provenance.model.designation import UNCOUNTED, parse_designation
from provenance.model.edition import Edition
from provenance.model.prints import Print

WARN_PERCENT, STRONG_PERCENT = 15, 20
"""Above which share of artist's proofs to warn, and to warn strongly: customs run
from 5 to 20 % and no authority sets one (handbook, S2)."""


@dataclass(frozen=True)
class Share:
    """Artist's proofs against the numbered prints, in hundredths of a percent."""

    proofs: int
    numbered: int

    @property
    def hundredth_percent(self) -> int:
        """The share, rounded down."""
        return self.proofs * 10_000 // self.numbered

    @property
    def excess(self) -> str:
        """``large`` or ``very large``; empty where it is within what is usual."""
        if self.proofs * 100 > self.numbered * STRONG_PERCENT:
            return "very large"
        return "large" if self.proofs * 100 > self.numbered * WARN_PERCENT else ""

    @property
    def said(self) -> str:
        """The share in words."""
        percent = self.hundredth_percent / 100
        return (
            f"{self.proofs} artist's proofs beside {self.numbered} prints is {percent:g} %,"
            f" a {self.excess or 'usual'} share"
        )

    @property
    def mend(self) -> str:
        """What to think of."""
        limit = STRONG_PERCENT if self.excess == "very large" else WARN_PERCENT
        return f"buyers may question more than {limit} %; no rule forbids it"


def proofs_share(edition: Edition) -> Share | None:
    """The share of artist's proofs; None where there are no numbered prints to compare."""
    if not edition.numbered or not edition.artist_proofs:
        return None
    return Share(edition.artist_proofs, edition.numbered)


@dataclass(frozen=True)
class Count:
    """One count: what was declared, and what is on record."""

    declared: int
    numbered: int
    """Declared, without the proofs."""
    given: int
    """Prints on record within what was declared; a print and its replacement are one."""
    made: int
    """Every print on record, of whatever series, as it stands or gone."""
    existing: int
    """Of those, the ones that are not spoiled, destroyed or lost."""

    @property
    def still(self) -> int:
        """How many may still be given."""
        return max(0, self.declared - self.given)

    @property
    def copies(self) -> int:
        """The most there are or may be: what a limit is to be held against."""
        return max(self.declared, self.given)


def count(edition: Edition, prints: Iterable[tuple[int, Print]]) -> Count:
    """The count of one edition; `prints` are (id, print) of all its prints."""
    held = list(prints)
    replaced = {body.replaces for _id, body in held if body.replaces is not None}
    return Count(
        declared=edition.declared,
        numbered=edition.numbered,
        given=sum(within(body) for record, body in held if record not in replaced),
        made=len(held),
        existing=sum(body.existence == "exists" for _id, body in held),
    )


def together(counts: Iterable[Count]) -> Count:
    """The count of a negative: of all its editions, in all sizes."""
    held = list(counts)
    return Count(
        declared=sum(one.declared for one in held),
        numbered=sum(one.numbered for one in held),
        given=sum(one.given for one in held),
        made=sum(one.made for one in held),
        existing=sum(one.existing for one in held),
    )


def within(print_: Print) -> bool:
    """Whether a print counts towards what was declared of its edition.

    A sheet without a number does not count yet.  A bon à tirer or an exhibition
    print counts only where it was said to; a trial proof never does.
    """
    if print_.designation is None:
        return False
    series = parse_designation(print_.designation).series
    if series == "TP":
        return False
    return print_.counted == "inside" if series in UNCOUNTED else True
