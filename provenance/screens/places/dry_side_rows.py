"""The dry side as rows: negatives, papers, readings and matches."""

from statistics import fmean

from provenance.craft.colour import density_of
from provenance.model.printing import Exposure
from provenance.model.quantity_text import Units, format_size
from provenance.model.readings import Reading, Tone
from provenance.records.reader import Reader, Stored
from provenance.screens.places.shelf_rows import left_out
from provenance.screens.widgets.columns import Column
from provenance.screens.widgets.sections import Row, Section
from provenance.studio.dry_side import DrySide, NegativeRow, PaperRow
from provenance.studio.naming import called

NEGATIVES = (
    Column("NEGATIVES", 12),
    Column("IMAGE", 26),
    Column("LAST EXPOSED", 22),
    Column("STATE", 9),
    Column("MADE", 10),
    Column("FORMAT", 14),
)
PAPERS = (
    Column("PAPERS", 12),
    Column("WHAT IT IS"),
    Column("D-MIN", 5, right=True),
    Column("D-MAX", 5, right=True),
    Column("WEDGES AT", 15),
)
READINGS = (
    Column("READINGS", 12),
    Column("SPOTS"),
    Column("ON", 10),
    Column("INSTRUMENT", 15),
)
MATCHES = (
    Column("MATCHES", 12),
    Column("AGAINST", 10),
    Column("FOUND", 24),
    Column("DECIDED", 12),
    Column("ON", 10),
    Column("BY", 12),
)


def sections(reader: Reader, view: DrySide, units: Units, keys: dict[str, str]) -> list[Section]:
    """The four tables; `keys` gives the key of each action, for what may be empty."""
    return [
        Section(
            NEGATIVES,
            tuple(Row(one.negative.id, _negative(one, units)) for one in view.negatives),
            "No negative is on record; a new edition enters one.",
        ),
        Section(
            PAPERS,
            tuple(Row(one.paper.id, _paper(one)) for one in view.papers),
            f"No paper is on record: {keys['new_paper']} enters a batch.",
        ),
        Section(
            READINGS,
            tuple(Row(one.id, _reading(reader, one)) for one in view.readings),
            f"No print was read: {keys['new_reading']} enters what an instrument shows.",
            left_out(view.readings_left_out, "read earlier"),
        ),
        Section(
            MATCHES,
            tuple(
                Row(
                    one.id,
                    (
                        called(reader, one.body.print),
                        called(reader, one.body.reference),
                        ", ".join((one.body.outcome, *one.body.differs_at)),
                        "accepted" if one.body.accepted else "not accepted",
                        one.body.on,
                        one.body.by,
                    ),
                )
                for one in view.matches
            ),
            f"No print was held against another: {keys['match']} does it.",
            left_out(view.matches_left_out, "decided earlier"),
        ),
    ]


def _negative(row: NegativeRow, units: Units) -> tuple[str, ...]:
    body = row.negative.body
    exposure = row.last.body.exposure if row.last is not None else None
    return (
        body.code,
        body.title,
        exposed_text(exposure) if exposure is not None else "no plan on record",
        "" if body.state == "in use" else body.state,
        body.made or "",
        format_size(body.format, units) if body.format is not None else "",
    )


def exposed_text(exposure: Exposure) -> str:
    """``14 s f/8 grade 2 1/2``."""
    times = " + ".join(f"{ms / 1000:g}" for ms in exposure.base_exposures_ms.values())
    words = (
        f"{times} s" if times else "",
        f"f/{exposure.aperture_tenth / 10:g}" if exposure.aperture_tenth is not None else "",
        f"grade {exposure.grade}" if exposure.grade else "",
    )
    return " ".join(filter(None, words))


def _paper(row: PaperRow) -> tuple[str, ...]:
    body = row.paper.body
    words = (body.base, body.weight, body.surface, body.tone)
    latest = next(reversed(row.wedges.values())).body if row.wedges else None
    return (
        body.code,
        ", ".join(word for word in words if word),
        mean_text(latest.unexposed) if latest is not None else "",
        mean_text(latest.full) if latest is not None else "",
        "; ".join(row.wedges) or "none",
    )


def mean_text(tones: tuple[Tone, ...]) -> str:
    """The mean density, with two decimals."""
    return f"{fmean(density_of(one) for one in tones):.2f}"


def _reading(reader: Reader, one: Stored[Reading]) -> tuple[str, ...]:
    spots = ", ".join(f"{each.spot} {mean_text(each.tones)}" for each in one.body.patches)
    return called(reader, one.body.print), spots, one.body.done_on, one.body.how.instrument
