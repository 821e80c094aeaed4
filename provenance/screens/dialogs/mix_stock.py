"""Mix a bottle from a formula: what to weigh, in which order, what to heed, how long it keeps."""

from collections.abc import Iterable

from textual.suggester import SuggestFromList

from provenance.craft.units import parse_volume_hundredth_ml
from provenance.errors import NotFound, Problem, Refused
from provenance.model.dates import parse_edtf
from provenance.records.act import Act
from provenance.screens.dialogs.mixed import heed_shown, weighing_shown
from provenance.screens.dialogs.mixing import MixingForm, with_unit
from provenance.screens.widgets.fields import Field, Row, TextField
from provenance.screens.widgets.working import Said, Shown
from provenance.studio.daysheet.record import Recorded
from provenance.studio.shelf.heeding import label_text
from provenance.studio.shelf.weighing import Weighing, good_until, mix_stock, weigh
from provenance.studio.shelf.wishing import find_formula, known_formulas


class MixStock(MixingForm):
    """Which formula, how much of it, and what the bottle is called."""

    KIND = "mix-stock"
    TITLE = "Mix a bottle"
    WORKED_FROM = ("formula", "volume")

    def rows(self) -> Iterable[Row]:
        """The formula and volume, then the bottle."""
        codes = known_formulas(self.read, self.studio_folder)
        yield Row(
            TextField(
                "formula",
                "Formula",
                hint="right completes what is begun",
                width=2,
                suggester=SuggestFromList(codes, case_sensitive=False),
            ),
            TextField("volume", "Volume, L", hint="1", check=parse_volume_hundredth_ml, unit="L"),
        )
        yield Row(
            TextField("code", "Code", hint="as thiourea-A"),
            TextField("mixed", "Mixed", value=self.today, check=parse_edtf),
            TextField("keeps_until", "Keeps until", hint="by its formula", check=parse_edtf),
            TextField("lot", "Lots"),
        )

    def typed(self, field: Field) -> None:
        """The formula says how long it keeps."""
        if field.key in ("formula", "mixed"):
            self._propose()
        super().typed(field)

    def _propose(self) -> None:
        try:
            formula = self._weighed("1 L").formula
            until = good_until(formula, parse_edtf(self.value("mixed"), field="mixed").text)
        except (NotFound, Refused):
            return
        self.fields["keeps_until"].propose(until or "")

    def _weighed(self, volume: str) -> Weighing:
        code = self.value("formula")
        if not code:
            known = ", ".join(known_formulas(self.read, self.studio_folder))
            raise Refused(
                Problem("by which formula is not said", field="formula", mend=f"there are: {known}")
            )
        formula = find_formula(
            self.read, self.studio_folder, code, self.chemicals.substances, field="formula"
        )
        if not volume:
            raise Refused(Problem("how much is not said", field="volume", mend="as 1 L, or 500 ml"))
        return weigh(formula, parse_volume_hundredth_ml(volume, field="volume"), self.chemicals)

    def work_out(self) -> Iterable[Shown]:
        """What to weigh, and what to heed."""
        weighing = self._weighed(with_unit(self.value("volume"), "L"))
        yield from weighing_shown(weighing, self.chemicals)
        label = label_text(weighing.label, self.chemicals.hazards)
        yield from heed_shown((label, *weighing.heed))
        days = weighing.formula.keeps_days
        if days is not None:
            yield Said(f"a closed full bottle keeps {days} days by its formula", quiet=True)

    async def enter(self) -> Recorded:
        """Put the bottle on record."""
        code = self.value("code")
        if not code:
            raise Refused(Problem("is missing", field="code", mend="call it by a short name"))
        mixed_on = parse_edtf(self.value("mixed"), field="mixed").text
        until = self.value("keeps_until")
        lot, weighing = self.value("lot"), self._weighed(self.value("volume"))

        def work(act: Act) -> Recorded:
            mix_stock(
                act,
                weighing,
                code=code,
                mixed_on=mixed_on,
                lot=lot,
                keeps_until=parse_edtf(until).text if until else None,
            )
            return Recorded(act.number, (f"stock {code}",), 1, tuple(act.warnings))

        return await self.host.act(work)
