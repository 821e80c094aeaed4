"""The two counts of an edition: its own, and that of its negative in all sizes."""

from dataclasses import dataclass

from provenance.craft.counting import Count, count, together
from provenance.model.edition import Edition
from provenance.model.prints import Print
from provenance.records.reader import Reader, Stored


@dataclass(frozen=True)
class Counts:
    """How many were declared and made: of the edition, and of every edition of its negative."""

    edition: Count
    negative: Count
    others: tuple[Stored[Edition], ...]
    """The other editions of the negative, in the order in which they were entered."""


def count_edition(reader: Reader, edition: Stored[Edition]) -> Counts:
    """Both counts of an edition."""
    editions = reader.linked(edition.body.negative, Edition, "negative")
    counted = {one.id: count(one.body, _prints(reader, one.id)) for one in editions}
    return Counts(
        edition=counted[edition.id],
        negative=together(counted.values()),
        others=tuple(one for one in editions if one.id != edition.id),
    )


def _prints(reader: Reader, edition: int) -> list[tuple[int, Print]]:
    return [(held.id, held.body) for held in reader.linked(edition, Print, "edition")]
