"""Certifying a whole edition: one certificate after the other, each an act of its own."""

from collections.abc import Iterator
from dataclasses import dataclass

from provenance.errors import Problem, Refused
from provenance.model.certificate import Page
from provenance.model.edition import Edition
from provenance.records.print_order import print_order
from provenance.records.register import Register
from provenance.studio.calling import names_of
from provenance.studio.certifying.certify import Issued, certify
from provenance.studio.certifying.stationery import Stationery
from provenance.studio.folder import StudioFolder
from provenance.studio.references import resolve_as
from provenance.studio.uncertified import uncertified


@dataclass(frozen=True)
class Owing:
    """A print that has no certificate in force."""

    record: int
    name: str


@dataclass(frozen=True)
class Outcome:
    """What became of one print: a certificate, or what stands against it."""

    name: str
    issued: Issued | None
    problems: tuple[Problem, ...] = ()


def owing(register: Register, edition: str) -> list[Owing]:
    """The prints of an edition, by number, that exist and have no certificate in force.

    Raises NotFound for an unknown edition.
    """
    held = resolve_as(register.read, Edition, edition)
    reader = register.read
    prints = uncertified(reader, print_order(reader.connection, edition=held.id))
    return [Owing(*one) for one in zip(prints, names_of(reader, prints), strict=True)]


def certify_each(
    register: Register,
    folder: StudioFolder,
    prints: list[Owing],
    stationery: Stationery,
    *,
    who: str | None = None,
    page: Page | None = None,
) -> Iterator[Outcome]:
    """Issue the certificate of each print, when the next outcome is asked for.

    Who stops asking stops the work between two certificates.  A print that
    something stands against is passed over, and its problems given.  Raises
    Damaged for what is not as it was written.
    """
    for one in prints:
        try:
            issued = certify(
                register, folder, one.record, who=who, page=page, stationery=stationery
            )
        except Refused as error:
            yield Outcome(one.name, None, error.problems)
        else:
            yield Outcome(one.name, issued)
