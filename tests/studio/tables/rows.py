"""For each kind of table a row that says all it can, and each field of it said otherwise."""

from dataclasses import dataclass

from provenance.studio.tables import coded, custody, printings, prints
from provenance.studio.tables.importing import Kind
from provenance.studio.tables.mapping import Fields

FIELDS: dict[Kind, Fields] = {
    "negatives": coded.NEGATIVES,
    "editions": coded.EDITIONS,
    "papers": coded.PAPERS,
    "processes": coded.PROCESSES,
    "printings": printings.FIELDS,
    "prints": prints.FIELDS,
    "custody": custody.FIELDS,
}
STEPS = '[{""name"":""fix"",""role"":""fix""}]'
SIGNED = '{""on"":""2031-03-09"",""medium"":""pencil""}'


@dataclass(frozen=True)
class Full:
    """Every cell that a row may have, with another text for each."""

    kind: Kind
    cells: dict[str, tuple[str, str]]
    named_by: tuple[str, ...]
    """What the record is found by: with another text the row speaks of another record."""

    def table(self, **other: str) -> str:
        """The table of that one row; `other` are cells that say something else."""
        row = [other.get(name, said) for name, (said, _) in self.cells.items()]
        return f"{';'.join(self.cells)}\n" + ";".join(f'"{one}"' for one in row) + "\n"


def _sides(name: str) -> dict[str, tuple[str, str]]:
    return {f"{name}_{side}_tenth_mm": ("2000", "1900") for side in ("height", "width")}


_NEGATIVE = {
    "code": ("N-9", "N-8"),
    "title": ("Ropes", "Knots"),
    "made": ("1998", "1999"),
    "state": ("retired", "lost"),
    "state_since": ("2030", "2031"),
    "state_why": ("scratched", "torn"),
    "subject": ("ropes", "knots"),
    "description": ("on a quay", "in a boat"),
    "taken_by": ("artist", "other"),
    "copy_of": ("a glass plate", "a print"),
    "note": ("dense", "thin"),
}
_EDITION = {
    "code": ("ROPE", "KNOT"),
    "negative": ("N-1", "N-2"),
    "name": ("Rope", "Knot"),
    "promise": ("Ten, no more.", "Ten."),
    "numbered": ("10", "11"),
    "artist_proofs": ("1", "2"),
    "printers_proofs": ("1", "2"),
    "hors_commerce": ("1", "2"),
    "unnumbered": ("1", "2"),
    "opened": ("2030", "2029"),
    "closed": ("2031", "2031-04"),
    "closed_why": ("all made", "worn"),
    "bon_a_tirer": ("ROPE R1", "ROPE R2"),
    "disclosed": ("one larger", "none"),
    "rights": ("stay", "pass"),
    "exhibition_only": ("yes", "no"),
}
_PAPER = {
    "code": ("P-9", "P-8"),
    "base": ("fibre", "resin-coated"),
    **dict.fromkeys(("weight", "surface", "tone", "contrast", "maker", "batch"), ("one", "two")),
    "bought": ("2030", "2029"),
    "source": ("memory", "notes"),
}
_PRINT = {
    "edition": ("QUAY", "ROPE"),
    "mark": ("S1", "S2"),
    "designation": ("1/25", "2/25"),
    "printed_on": ("2031-03-05", "2031-03-06"),
    "paper": ("FB-1", "FB-2"),
    "printer": ("assistant", "artist"),
    "printing_place": ("1", "2"),
    "inscriptions": ("for a friend", "none"),
    "features": ("a crease", "a stain"),
    "existence": ("destroyed", "lost"),
    "gone_on": ("2031-04", "2031-05"),
    "gone_why": ("torn", "burnt"),
    "gone_evidence": ("the framer", "a photograph"),
    "replaces": ("QUAY G1", "QUAY G2"),
    "opening": ("yes", "no"),
    "source": ("memory", "notes"),
}
_SHEET = {"image": ("20 x 20 cm", "19 x 20 cm"), "sheet": ("20 x 20 cm", "21 x 21 cm")}
_MOVE = {
    "print": ("QUAY G3", "QUAY G4"),
    "event": ("sold", "given"),
    "on": ("2031-04-01", "2031-04-02"),
    "party": ("Ada", "Bea"),
    "price": ("900 EUR", "800 EUR"),
    "place": ("a town", "a village"),
    "conditions": ("framed", "unframed"),
    "note": ("a wedding", "a birthday"),
    "rights": ("stay", "pass"),
    "source": ("memory", "notes"),
}
_LOAN = {
    "print": _MOVE["print"],
    "event": ("lent", "consigned"),
    "on": _MOVE["on"],
    "party": _MOVE["party"],
    "until": ("2032", "2033"),
    "terms": ("ab" * 32, "cd" * 32),
}
_LOSS = {
    "print": _MOVE["print"],
    "event": ("lost", "destroyed"),
    "on": _MOVE["on"],
    "why": ("in the post", "in a fire"),
    "evidence": ("the carrier", "the neighbour"),
}
_RETURN = {
    "print": ("QUAY G5", "QUAY G4"),
    "event": ("returned", "sold"),
    "on": _MOVE["on"],
    "giver": ("Cid", "Dan"),
}
FULL = (
    Full("negatives", {**_NEGATIVE, "format": ("6 x 6 cm", "6 x 7 cm")}, ("code",)),
    Full("negatives", {**_NEGATIVE, **_sides("format")}, ("code",)),
    Full("editions", {**_EDITION, **_SHEET}, ("code",)),
    Full("editions", {**_EDITION, **_sides("image"), **_sides("sheet")}, ("code",)),
    Full("papers", {**_PAPER, "sheet": ("20 x 25 cm", "24 x 30 cm")}, ("code",)),
    Full("papers", {**_PAPER, **_sides("sheet")}, ("code",)),
    Full(
        "processes",
        {
            "code": ("plain", "other"),
            "name": ("Plain", "Other"),
            "base": ("fibre", "resin-coated"),
            "steps": (STEPS, STEPS.replace("fix", "wash")),
        },
        ("code",),
    ),
    Full(
        "prints",
        {
            **_PRINT,
            **_SHEET,
            "signed": ("2031-03-09", "2031-03"),
            "medium": ("ink", "pencil"),
            "where": ("verso", "recto"),
        },
        ("edition", "mark"),
    ),
    Full(
        "prints",
        {
            **_PRINT,
            **_sides("image"),
            **_sides("sheet"),
            "signature": (SIGNED, SIGNED.replace("pencil", "ink")),
            "approved": ('{""on"":""2031-03-05""}', '{""on"":""2031-03-06""}'),
        },
        ("edition", "mark"),
    ),
    Full(
        "prints",
        {
            "edition": ("QUAY", "ROPE"),
            "mark": ("S1", "S2"),
            "designation": ("EX", "TP"),
            "printed_on": ("2031-03-05", "2031-03-06"),
            "counted": ("outside", "inside"),
        },
        ("edition", "mark"),
    ),
    Full("custody", _MOVE, ("print", "event")),
    Full("custody", _LOAN, ("print", "event")),
    Full("custody", _RETURN, ("print", "event")),
    Full("custody", _LOSS, ("print", "event")),
)
"""A printing is not among them: nothing but all that it says tells it from another."""
ELSEWHERE = {"id", "print_id", "replaces_id"}
"""Columns with ids of the studio that a table came from: they say nothing of this one."""
