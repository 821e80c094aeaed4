"""A run at the trays begins: same as last time, but for what is typed."""

from collections.abc import Iterable, Sequence

from textual.suggester import SuggestFromList

from provenance.craft.units import parse_temperature_tenth_c
from provenance.errors import NotFound, Refused
from provenance.records.act import Act
from provenance.screens.dialogs.run import at_field
from provenance.screens.widgets.fields import Field, LinesField, Row, TextField, names_in
from provenance.screens.widgets.form import Form
from provenance.studio.calling import names_of
from provenance.studio.daysheet.record import Recorded
from provenance.studio.daysheet.short import read_baths, say_baths
from provenance.studio.processes import load_process, process_codes
from provenance.studio.run_start import (
    process_last_used,
    propose_trays,
    sheets_at_work,
    start_run,
    temperature_last,
)
from provenance.studio.sequences import plan_findings


class NewRun(Form):
    """Which sheets follow which plan through which trays."""

    KIND = "new-run"
    TITLE = "New run"

    def __init__(self, sheets: Sequence[int] = ()) -> None:
        super().__init__()
        self._sheets = tuple(sheets)
        self.run_id: int | None = None
        """The run that was begun."""

    def rows(self) -> Iterable[Row]:
        """The plan, the sheets, the trays."""
        sheets = self._sheets or sheets_at_work(self.read)
        codes = process_codes(self.studio_folder)
        code = process_last_used(self.read)
        yield Row(
            TextField(
                "process",
                "Process sheet",
                value=code,
                hint="right completes it: " + ", ".join(codes),
                width=3,
                suggester=SuggestFromList(codes, case_sensitive=False),
            ),
            TextField(
                "temperature",
                "Baths, °C",
                value=temperature_last(self.read),
                check=parse_temperature_tenth_c,
                unit="C",
            ),
        )
        yield Row(
            TextField(
                "sheets",
                "Sheets, by edition and pencil mark; at most nine",
                value=", ".join(names_of(self.read, sheets)),
                hint="QUAY Q8, QUAY Q9",
            )
        )
        yield Row(
            LinesField(
                "trays",
                "Which tray stands for which step",
                value=say_baths(self._trays(code)),
                hint="fix one fixA-2603; fix two fixB-2603",
                rows=4,
            )
        )

    def _trays(self, code: str) -> dict[str, str]:
        try:
            return propose_trays(self.read, load_process(self.studio_folder, code)) if code else {}
        except (NotFound, Refused):
            return {}

    def opened(self) -> None:
        """Say what the rules find in the plan that is proposed."""
        self._judge()

    def left(self, field: Field) -> None:
        """Another plan has other steps, and other trays."""
        if field.key == "process":
            self.fields["trays"].propose(say_baths(self._trays(field.value.strip())))
            self._judge()

    def _judge(self) -> None:
        """The gravest that the rules find in the plan, before a sheet is wet."""
        try:
            plan = load_process(self.studio_folder, self.value("process"))
        except (NotFound, Refused):
            return
        found = plan_findings(self.studio_folder, plan)
        if found:
            worst = found[0]
            self.say(f"in this plan: {worst.rule} {worst.what}; {worst.do}")
        else:
            self.say("")

    async def enter(self) -> Recorded:
        """Begin the run, on the writer."""
        trays = at_field("trays", lambda: read_baths(self.value("trays")))
        words = {key: self.value(key) for key in ("process", "temperature")}
        names, folder = names_in(self.value("sheets")), self.studio_folder

        def work(act: Act) -> tuple[int, Recorded]:
            run = start_run(act, folder, sheets=names, trays=trays, **words)
            return run, Recorded(act.number, (f"run #{run}",), 1, tuple(act.warnings))

        self.run_id, recorded = await self.host.act(work)
        return recorded
