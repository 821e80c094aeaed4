"""Which records speak of one edition."""

from provenance.model.body import links_of
from provenance.model.edition import Edition
from provenance.model.prints import Print
from provenance.records.reader import Reader, Stored

_NOT_FOLLOWED = frozenset({"print", "edition"})
"""Where a record of this edition leads to another edition, it is not followed."""


def records_of(reader: Reader, edition: Stored[Edition]) -> frozenset[int]:
    """The ids of the edition, its prints, what was done to them, and all that those rest on."""
    prints = [one.id for one in reader.linked(edition.id, Print, "edition")]
    found = {1, edition.id, *prints}
    for target in (edition.id, *prints):
        found.update(
            source for source, kind in reader.links_to(target) if kind not in _NOT_FOLLOWED
        )
    waiting = list(found)
    while waiting:
        stored = reader.find(waiting.pop())
        for _, target in links_of(stored.body) if stored else ():
            if target in found or reader.kind_of(target) in _NOT_FOLLOWED:
                continue
            if _is_of_others(reader, target, found):
                continue
            found.add(target)
            waiting.append(target)
    return frozenset(found)


def _is_of_others(reader: Reader, record: int, found: set[int]) -> bool:
    """Whether it speaks of prints, and of none that is wanted: what another edition was read at."""
    stored = reader.find(record)
    links = [target for _, target in links_of(stored.body)] if stored else []
    prints = [one for one in links if reader.kind_of(one) == "print"]
    return bool(prints) and not found.intersection(prints)
