"""Mix a bath: from bottles or by a formula, worked out as it is typed."""

from collections.abc import Iterable, Sequence
from datetime import date
from functools import partial
from typing import cast, get_args

from textual.suggester import SuggestFromList

from provenance.craft.fixing import LIMITS
from provenance.craft.units import parse_volume_hundredth_ml
from provenance.errors import NotFound, Problem, Refused
from provenance.model.chemistry import Bath, Finish, Role, Stock
from provenance.model.dates import parse_edtf
from provenance.model.formula import Formula
from provenance.model.process import ProcessSheet
from provenance.records.act import Act
from provenance.records.reader import Stored
from provenance.screens.dialogs.mixed import plan_shown
from provenance.screens.dialogs.mixing import MixingForm, with_unit
from provenance.screens.dialogs.run import at_field
from provenance.screens.widgets.fields import (
    YES_OR_NO,
    ChoiceField,
    Field,
    Row,
    TextField,
    names_in,
)
from provenance.screens.widgets.working import Shown
from provenance.studio.daysheet.record import Recorded
from provenance.studio.processes import load_process, process_codes
from provenance.studio.references import resolve_as
from provenance.studio.run_start import process_last_used
from provenance.studio.shelf.bottles import bottle
from provenance.studio.shelf.mixing import MixPlan, Wish, mix_bath, plan_mix
from provenance.studio.shelf.trays import fixers_in_use
from provenance.studio.shelf.wishing import bottle_codes, find_sources, known_formulas, read_taken


class MixBath(MixingForm):
    """Of what, how much of each, and to what volume."""

    KIND = "mix-bath"
    TITLE = "Mix a bath"
    AUTO_FOCUS = "#field-stocks Input"
    WORKED_FROM = ("stocks", "dilution", "volume")

    def __init__(self, stocks: Sequence[str] = ()) -> None:
        super().__init__()
        self._stocks = tuple(stocks)
        self._plan: MixPlan | None = None
        self._of_fixers: Row | None = None

    def rows(self) -> Iterable[Row]:
        """Of what, how it is taken, what it becomes."""
        bottles = bottle_codes(self.read)
        known = [*bottles, *known_formulas(self.read, self.studio_folder)]
        codes = process_codes(self.studio_folder)
        yield Row(
            TextField(
                "stocks",
                "Of: bottles between commas, or a formula",
                value=", ".join(self._stocks),
                hint="on the shelf: " + (", ".join(bottles) or "none"),
                width=2,
                suggester=SuggestFromList(known, case_sensitive=False),
            ),
            TextField(
                "dilution",
                "Parts, or volumes",
                hint="1+9, or 20 ml + 80 ml",
                check=partial(read_taken, colon_means=self.host.settings.colon_dilution),
            ),
        )
        yield Row(
            ChoiceField("finish", "The volume is", get_args(Finish), value="made up to"),
            TextField("volume", "Volume, L", hint="1", check=parse_volume_hundredth_ml, unit="L"),
            ChoiceField("role", "What it is for", get_args(Role), hint="left, right or letter"),
        )
        yield Row(
            TextField("code", "Code of the tray", hint="as fixA-2603"),
            TextField("made", "Made", value=self.today, check=parse_edtf),
            ChoiceField("one_shot", "Used once", YES_OR_NO, value="no"),
            TextField(
                "process",
                "In the plan",
                value=process_last_used(self.read),
                hint="for its neighbours",
                suggester=SuggestFromList(codes, case_sensitive=False),
            ),
        )
        fixers = fixers_in_use(self.read)
        studios = self.host.settings.limit
        self._of_fixers = Row(
            ChoiceField(
                "limit",
                "Its silver limit",
                [one.name for one in LIMITS],
                hint=f"else the studio's: {studios.name}, {studios.mg_per_l / 1000:g} g/L",
            ),
            TextField(
                "second_of",
                "Second bath, after",
                hint=", ".join(fixers) or "no fixer stands ready",
                suggester=SuggestFromList(fixers, case_sensitive=False),
            ),
        )
        self._of_fixers.display = False
        yield self._of_fixers

    def typed(self, field: Field) -> None:
        """Bottles say what the bath is for, and whether it is for one use."""
        if field.key == "stocks":
            self._propose()
        self._ask_of_fixers()
        super().typed(field)

    def opened(self) -> None:
        """Propose at once what the bottles say."""
        self._propose()
        self._ask_of_fixers()
        super().opened()

    def _ask_of_fixers(self) -> None:
        """A limit for silver, and a place in a pair, are asked for a fixing bath alone."""
        if self._of_fixers is not None:
            self._of_fixers.display = self.value("role") == "fix"

    def _pair(self) -> tuple[str, int | None]:
        """The limit and the first bath that were chosen for a fixer.  Raises NotFound."""
        if self.value("role") != "fix":
            return "", None
        first = self.value("second_of")
        found = at_field("second_of", lambda: resolve_as(self.read, Bath, first)) if first else None
        return self.value("limit"), found.id if found is not None else None

    def _propose(self) -> None:
        try:
            found = self._sources()
        except (Refused, NotFound):
            return
        formulas = (
            [found]
            if isinstance(found, Formula)
            else [bottle(self.read, one, date.fromisoformat(self.today)).formula for one in found]
        )
        role = next((one.role for one in formulas if one is not None and one.role), None)
        if role is not None:
            self.fields["role"].propose(role)
        # hydroxide spends thiourea by itself: common practice is to mix it for one evening
        if role == "thiourea" or any(one is not None and one.one_shot for one in formulas):
            self.fields["one_shot"].propose("yes")

    def _sources(self) -> tuple[Stored[Stock], ...] | Formula:
        names = names_in(self.value("stocks"))
        return find_sources(self.read, self.studio_folder, names, self.chemicals.substances)

    def _wish(self) -> Wish:
        """What the fields ask for.  Raises Refused, naming fields."""
        found = self._sources()
        volume = with_unit(self.value("volume"), "L")
        if not volume:
            raise Refused(Problem("how much is not said", field="volume", mend="as 1 L, or 500 ml"))
        taken = self.value("dilution")
        read = read_taken(taken, colon_means=self.host.settings.colon_dilution) if taken else None
        weighed = isinstance(found, Formula)
        if weighed and read is not None:
            raise Refused(
                Problem(
                    "a formula is weighed out for its volume, not diluted",
                    field="dilution",
                    mend="leave it empty; or mix the bottle first, then the bath from it",
                )
            )
        return Wish(
            # until it is chosen, as plain water: no neighbour of that meets anything
            role=cast("Role", self.value("role") or "wash"),
            volume_hundredth_ml=parse_volume_hundredth_ml(volume, field="volume"),
            finish=cast("Finish", self.value("finish")),
            stocks=() if isinstance(found, Formula) else tuple(one.id for one in found),
            dilution=None if isinstance(read, tuple) else read,
            draws=read if isinstance(read, tuple) else (),
            formula=found if isinstance(found, Formula) else None,
        )

    def _process(self) -> ProcessSheet | None:
        try:
            code = self.value("process")
            return load_process(self.studio_folder, code) if code else None
        except (NotFound, Refused):
            return None

    def work_out(self) -> Iterable[Shown]:
        """Amounts, what is left, both readings, what to heed."""
        self._plan = None
        self._plan = plan_mix(
            self.read,
            self.chemicals,
            self._wish(),
            today=date.fromisoformat(self.today),
            process=self._process(),
        )
        return plan_shown(self._plan, self.chemicals)

    def too_much(self) -> Iterable[Problem]:
        """More than is in a bottle, or a bottle that was retired."""
        return self._plan.problems if self._plan is not None else ()

    async def enter(self) -> Recorded:
        """Put the tray on record, and draw its bottles down."""
        missing = [
            Problem(what="is missing", field=key, mend=mend)
            for key, mend in (("code", "call it by a short name"), ("role", "choose one"))
            if not self.value(key)
        ]
        if missing:
            raise Refused(*missing)
        code, made_on = self.value("code"), parse_edtf(self.value("made"), field="made").text
        one_shot = self.value("one_shot") == "yes"
        limit, second_of = self._pair()

        wish, chemicals, today = self._wish(), self.chemicals, date.fromisoformat(self.today)

        def work(act: Act) -> Recorded:
            # once more, as the bottles stand now
            plan = plan_mix(act, chemicals, wish, today=today)
            if plan.problems:
                raise Refused(*plan.problems)
            mix_bath(
                act,
                plan,
                code=code,
                made_on=made_on,
                one_shot=one_shot,
                limit=limit,
                second_of=second_of,
            )
            return Recorded(act.number, (f"bath {code}",), 1, tuple(act.warnings))

        return await self.host.act(work)
