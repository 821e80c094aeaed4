"""A print held against its reference: spot by spot, and where on the picture it differs."""

from collections.abc import Iterable

from textual.containers import Horizontal
from textual.widget import Widget

from provenance.model.matching import MatchReport
from provenance.model.prints import Print
from provenance.screens.dialogs.match import Decide
from provenance.screens.frame import Frame
from provenance.screens.widgets.line_list import Line, LineList
from provenance.screens.widgets.spot_picture import SpotPicture
from provenance.studio.naming import called
from provenance.studio.pictures import picture_of
from provenance.studio.reprinting.matching import Matched, compare_prints
from provenance.studio.reprinting.pictures import spot_lines
from provenance.studio.reprinting.spots import LEGEND, Spot, spots_of

_FRAME = (40, 12)


class MatchPage(Frame):
    """Both prints' latest readings, by the studio's tolerances of today; and what was decided."""

    WHERE = "match"

    def __init__(self, new: int, reference: int) -> None:
        super().__init__()
        self._pair = (new, reference)
        self._matched: Matched | None = None

    def content(self) -> Iterable[Widget]:
        """The spots, and the picture where there is room for it."""
        with Horizontal():
            yield LineList(lead_width=20, id="match")
            yield SpotPicture(columns=36, rows=22, id="picture")

    def refresh_content(self) -> None:
        """Compare anew."""
        reader, studio = self.studio.register.read, self.studio
        new, reference = self._pair
        matched = compare_prints(reader, new, reference, studio.settings.tolerances)
        self._matched, spots = matched, spots_of(matched)
        found = "matches" if matched.found.matches else "differs"
        against = f"against {called(reader, reference)}"
        self.headline(f"Match  {called(reader, new)}", against, found)
        picture = self.query_one(SpotPicture)
        letters = tuple((one.letter, one.share) for one in spots if one.share is not None)
        shown = new if picture_of(reader, studio.folder, new) is not None else reference
        if picture_of(reader, studio.folder, shown) is not None and letters:
            picture.letters = letters
            picture.show_print(studio, shown)
        else:
            picture.clear()
        self.query_one(LineList).show(list(self._lines(matched, spots)))

    def _lines(self, matched: Matched, spots: tuple[Spot, ...]) -> Iterable[Line]:
        where = f" at {', '.join(matched.differs_at)}" if matched.differs_at else ""
        said = "match" if matched.found.matches else "differ"
        yield Line(f"The prints {said}{where}.", strong=True, wide=True)
        yield Line("", heading=True)
        yield Line("spot by spot: then, how far off, how far it may be", heading=True)
        for one in spots:
            yield _spot(one, (matched.new.id, matched.old.id))
        yield from self._picture(spots)
        yield Line("", heading=True)
        yield Line("held to", heading=True)
        tolerance = matched.tolerance
        yield Line(
            f"density {tolerance.light_density:g} from L* {tolerance.light_from:g} up,"
            f" {tolerance.dark_density:g} from {tolerance.dark_to:g} down;"
            f" ΔE00 {tolerance.delta_e00:g} where both were read as Lab",
            note=str(tolerance.source),
            wide=True,
        )
        for caution in matched.found.cautions:
            yield Line(str(caution), wide=True)
        yield from self._decided()

    def _picture(self, spots: tuple[Spot, ...]) -> Iterable[Line]:
        image = self.studio.register.read.get(Print, self._pair[0]).body.image
        rows = spot_lines(spots, image, *_FRAME)
        yield Line("", heading=True)
        yield Line("where it differs", heading=True)
        if not rows:
            yield Line(
                "where the spots lie is not on record; @ and percent in a reading say it",
                quiet=True,
                wide=True,
            )
            return
        yield from (Line(row, heading=True, quiet=True) for row in rows)
        yield Line(LEGEND, heading=True, quiet=True)

    def _decided(self) -> Iterable[Line]:
        reader, (new, reference) = self.studio.register.read, self._pair
        reports = [
            one
            for one in reader.linked(new, MatchReport, "print")
            if one.body.reference == reference
        ]
        yield Line("", heading=True)
        yield Line("decided", heading=True)
        if not reports:
            yield Line("nothing yet", quiet=True, wide=True)
        for one in reports:
            body = one.body
            verdict = "accepted" if body.accepted else "not accepted"
            by_then = ", ".join((body.outcome, *body.differs_at))
            yield Line(
                f"{verdict} by {body.by}; the readings said: {by_then}",
                lead=body.on,
                note=body.why,
                records=(one.id,),
            )

    def _decide(self, *, accepted: bool) -> None:
        if self._matched is not None:
            differs = not self._matched.found.matches
            self.studio.push_screen(Decide(*self._pair, accepted=accepted, differs=differs))

    def action_accept(self) -> None:
        """Record that the print was accepted, and by whom."""
        self._decide(accepted=True)

    def action_reject(self) -> None:
        """Record that the print was not accepted."""
        self._decide(accepted=False)

    def action_open_behind(self) -> None:
        """Open the record of the line under the cursor."""
        line = self.query_one(LineList).current
        if line is not None and line.records:
            self.studio.go_to(line.records[0])

    async def action_return(self) -> None:
        """Back to where it was opened from."""
        await self.studio.action_back()


def _spot(one: Spot, records: tuple[int, int]) -> Line:
    lead = f"{one.letter}  {one.name}"
    if one.found is None:
        return Line("not read again", lead=lead, right="differs", strong=True, records=records)
    found = one.found
    colour = "" if found.delta_e00 is None else f", ΔE00 {found.delta_e00:.2f}"
    text = (
        f"{found.reference:.2f}  {found.delta_density:+.3f}"
        f"  ± {found.tolerance.density_at(found.reference):.3f}{colour}"
    )
    word = "matches" if found.matches else "differs"
    return Line(text, lead=lead, right=word, strong=not found.matches, records=records)
