"""After drying: why the printer went on in spite of what the rules found."""

from collections.abc import Iterable

from provenance.craft.overriding import MISSED
from provenance.model.prints import Print
from provenance.model.run import DONE_UNCLOCKED, Override, Run
from provenance.records.act import Act
from provenance.screens.widgets.fields import YES_OR_NO, ChoiceField, Row, TextField
from provenance.screens.widgets.form import Form
from provenance.studio.daysheet.record import Recorded
from provenance.studio.running import explain


class Explain(Form):
    """A field for each finding that was overridden; the reason chosen then stays beside it."""

    KIND = "explain"
    TITLE = "Overridden at the trays"

    def __init__(self, run: int) -> None:
        super().__init__(about="explained after drying", concerns=(run,))
        self._run = run

    def rows(self) -> Iterable[Row]:
        """One for each, as it was told at the trays."""
        for place, one in enumerate(self.read.get(Run, self._run).body.overrides):
            marks = ", ".join(self.read.get(Print, sheet).body.mark for sheet in one.sheets)
            yield Row(
                TextField(
                    f"explained_{place}",
                    f"{one.finding}  {marks} into {one.step}",
                    value=one.explained,
                    hint=one.why,
                )
            )
            if _asked(one):
                yield Row(
                    ChoiceField(
                        f"done_{place}",
                        "Washed all the same",
                        YES_OR_NO,
                        value="yes" if one.done else "no",
                        hint="y or n: without a yes, a wash entered afterwards is not counted",
                    )
                )

    async def enter(self) -> Recorded:
        """Put the explanations on record; the choice made with wet hands stays."""
        overrides = self.read.get(Run, self._run).body.overrides
        said = {place: self.value(f"explained_{place}") for place in range(len(overrides))}
        done = {
            place: self.value(f"done_{place}") == "yes"
            for place, one in enumerate(overrides)
            if _asked(one)
        }

        def work(act: Act) -> Recorded:
            explain(act, self._run, said, done)
            return Recorded(act.number, (f"run #{self._run}",), 1, tuple(act.warnings))

        return await self.host.act(work)


def _asked(one: Override) -> bool:
    """Whether it is to be asked if what the rule missed was done after all."""
    return one.finding in MISSED and one.why != DONE_UNCLOCKED
