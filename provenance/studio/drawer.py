"""Editions at a glance: what was promised, made, is out, and is left to make."""

from dataclasses import dataclass

from provenance.model.designation import Designation
from provenance.model.edition import Edition
from provenance.records.reader import Reader, Stored


@dataclass(frozen=True)
class Impression:
    """One place of an edition: its name, its state as a letter, and the print there."""

    name: str
    state: str
    """``·`` for what is not made yet."""
    record: int | None


@dataclass(frozen=True)
class EditionView:
    """An edition as the drawer shows it."""

    edition: Stored[Edition]
    made: int
    out: int
    last_printed: str
    declared: tuple[Impression, ...]
    """Every impression that was declared, in order, made or not."""
    beside: tuple[Impression, ...]
    """Prints without a place among those: not numbered yet, or outside the declared total."""

    @property
    def left(self) -> int:
        """How many declared impressions are still to be made."""
        return sum(place.record is None for place in self.declared)


def promise_in_short(edition: Edition, unnumbered: str = "") -> str:
    """``25 + 3 AP``; `unnumbered` says in another language how many have no number."""
    parts = [str(edition.numbered)] if edition.numbered else []
    for count, word in (
        (edition.artist_proofs, "AP"),
        (edition.printers_proofs, "PP"),
        (edition.hors_commerce, "HC"),
    ):
        if count:
            parts.append(f"{count} {word}")
    if edition.unnumbered:
        parts.append(unnumbered or f"{edition.unnumbered} unnumbered")
    return " + ".join(parts)


def view_edition(reader: Reader, edition: Stored[Edition]) -> EditionView:
    """One edition with every impression of it."""
    rows = reader.connection.execute(
        "SELECT id, designation, mark, state, printed_on FROM impression"
        " WHERE edition = ? ORDER BY position, id",
        (edition.id,),
    ).fetchall()
    places = _declared(edition.body)
    held: dict[str, tuple[int, str]] = {}
    beside: list[Impression] = []
    for record, designation, mark, state, _printed in rows:
        # a number that was given under an earlier promise keeps its place
        place = designation.partition("/")[0] if designation else ""
        if place in places:
            # a replacement stands in the place of the print it replaces
            held[place] = (record, state)
        else:
            beside.append(Impression(designation or mark, state, record))
    declared = tuple(
        Impression(name, held[name][1], held[name][0])
        if name in held
        else Impression(name, "·", None)
        for name in places
    )
    return EditionView(
        edition=edition,
        made=len(rows),
        out=sum(row[3] == "r" for row in rows),
        last_printed=max((row[4] for row in rows), default=""),
        declared=declared,
        beside=tuple(beside),
    )


def view_drawer(reader: Reader) -> list[EditionView]:
    """Every edition, in the order in which they were entered."""
    return [view_edition(reader, edition) for edition in reader.all(Edition)]


def _declared(edition: Edition) -> dict[str, None]:
    """Each declared place, by the short name that a cell has room for."""
    names = dict.fromkeys(str(number) for number in range(1, edition.numbered + 1))
    proofs = (
        ("AP", edition.artist_proofs),
        ("PP", edition.printers_proofs),
        ("HC", edition.hors_commerce),
    )
    for series, total in proofs:
        for number in range(1, total + 1):
            one = Designation(series=series, number=number, total=total)  # type: ignore[arg-type]
            names[one.place] = None
    return names
