"""A study behind a sentence is seen as a table and a curve."""

from pathlib import Path

from provenance.model.paper import Paper
from provenance.model.study import BleachedPatch, ToningStudy
from provenance.screens.places.evidence_page import EvidencePage
from provenance.studio.folder import StudioFolder
from tests import studios
from tests.screens.house import at_work


async def test_the_table_of_a_study_keeps_its_columns_and_its_curve(studio: Path) -> None:
    with StudioFolder(studio).open() as register:
        study = ToningStudy(
            code="T-1",
            paper=register.read.all(Paper)[0].id,
            done_on="1998-03-02",
            bleach="oxidising bleach",
            d_min_md=60,
            patches=tuple(
                BleachedPatch(before_md=before, after_md=after)
                for before, after in ((260, 80), (960, 360), (1860, 1500))
            ),
        )
        record = studios.enter(register, study)
    async with at_work(studio) as printer:
        printer.app.push_screen(EvidencePage("On a strip of this paper.", "measured", (record,)))
        await printer.until("left   between")
        rows = printer.text().replace("\u00a0", " ").splitlines()
        assert any("   0.90      33 %   30 to 36 %" in row for row in rows)
        await printer.press("end")
        await printer.until("0 %, density 0.20 to 1.80")
        assert "densities do not tell which toner took what" in printer.text()
