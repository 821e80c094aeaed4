"""A match put on a sheet of paper."""

from collections.abc import Iterator
from datetime import datetime
from pathlib import Path

from provenance.documents.match_sheet import MatchSheet, draw_match_sheet
from provenance.documents.worksheet_words import FILE, MatchWords, read_worksheet_words
from provenance.model.certificate import Page
from provenance.model.matching import MatchReport
from provenance.model.prints import Print
from provenance.model.studio import Studio
from provenance.records.files import write_new
from provenance.records.reader import Reader
from provenance.studio.folder import StudioFolder
from provenance.studio.naming import called
from provenance.studio.pictures import picture_of
from provenance.studio.reprinting.matching import Matched
from provenance.studio.reprinting.spots import Spot, spots_of


def write_report(
    path: Path,
    reader: Reader,
    folder: StudioFolder,
    matched: Matched,
    *,
    page: Page,
    language: str,
    drawn_at_utc: datetime,
) -> None:
    """Write what readings of two prints say, and what was decided, to `path`.

    The picture is the new print's, else its reference's.  Raises Refused when it
    does not fit on one side, and for a language that the template does not have.
    """
    text = folder.template(FILE).read_text(encoding="utf-8")
    words = read_worksheet_words(text, language).match
    new, reference = (called(reader, one) for one in (matched.print, matched.reference))
    size = reader.get(Print, matched.print).body.image
    spots = spots_of(matched)
    held = picture_of(reader, folder, matched.print) or picture_of(
        reader, folder, matched.reference
    )
    sheet = MatchSheet(
        title=words.title.format(print=new, reference=reference),
        verdict=words.matches
        if matched.found.matches
        else words.differs.format(where=", ".join(matched.differs_at)),
        heads=("", words.spot, words.then, words.off, words.allowed, "ΔE00", words.verdict),
        rows=tuple(_cells(one, words) for one in spots),
        differs=tuple(one.found is None or not one.found.matches for one in spots),
        image=(size.height_tenth_mm, size.width_tenth_mm),
        letters=tuple((one.letter, *one.share) for one in spots if one.share is not None),
        sketch_alternative=words.sketch,
        picture=(held.load(), words.picture) if held is not None else None,
        lines=tuple(_lines(reader, matched, words)),
        drawn_at_utc=drawn_at_utc,
        author=reader.get(Studio, 1).body.artist,
        page=page,
        language=language,
    )
    write_new(path, draw_match_sheet(sheet))


def _cells(spot: Spot, words: MatchWords) -> tuple[str, ...]:
    found = spot.found
    if found is None:
        return spot.letter, spot.name, "", "", "", "", words.unread
    return (
        spot.letter,
        spot.name,
        f"{found.reference:.2f}",
        f"{found.delta_density:+.3f}",
        f"± {found.tolerance.density_at(found.reference):.3f}",
        "" if found.delta_e00 is None else f"{found.delta_e00:.2f}",
        words.yes if found.matches else words.no,
    )


def _lines(reader: Reader, matched: Matched, words: MatchWords) -> Iterator[str]:
    yield words.sketch
    held = matched.tolerance
    yield words.held_to.format(
        light=f"{held.light_density:g}",
        light_from=f"{held.light_from:g}",
        dark=f"{held.dark_density:g}",
        dark_to=f"{held.dark_to:g}",
        colour=f"{held.delta_e00:g}",
        source=held.source,
    )
    yield from map(str, matched.found.cautions)
    reports = [
        one.body
        for one in reader.linked(matched.print, MatchReport, "print")
        if one.body.reference == matched.reference
    ]
    for one in reports:
        pattern = words.accepted if one.accepted else words.rejected
        yield pattern.format(on=one.on, by=one.by, why=one.why).strip()
    if not reports:
        yield words.undecided
