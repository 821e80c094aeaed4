"""Which prints have no certificate in force."""

from collections.abc import Sequence

from provenance.records.print_order import prints_by_id
from provenance.records.reader import Reader


def uncertified(reader: Reader, prints: Sequence[int]) -> tuple[int, ...]:
    """Those of `prints` that exist and have no certificate in force, in the order given."""
    rows = prints_by_id(reader.connection, prints)
    return tuple(
        record
        for record in prints
        for _code, _designation, _mark, state, _day, certificate in [rows[record]]
        if state != "x" and not certificate
    )
