"""A bath: a working solution in a tray."""

from collections.abc import Iterable
from typing import get_args

from provenance.craft.units import parse_volume_hundredth_ml
from provenance.model.chemistry import Role
from provenance.model.dates import parse_edtf
from provenance.screens.dialogs.pieces import begin, dilution_check, put_all
from provenance.screens.widgets.fields import YES_OR_NO, ChoiceField, Row, TextField
from provenance.screens.widgets.form import Form
from provenance.studio.daysheet.filled import Filled

_BATH = ("code", "role", "made_from", "dilution", "volume", "made")
_SAID = (*YES_OR_NO, "not known")


class NewBath(Form):
    """What stands in the tray, and since when."""

    KIND = "new-bath"
    TITLE = "New bath"

    def rows(self) -> Iterable[Row]:
        """What it is for, what it was made from, and what its care depends on."""
        yield Row(
            TextField("code", "Code", hint="short, as fixA-2603"),
            ChoiceField("role", "What it is for", get_args(Role), hint="left, right or letter"),
            TextField("made", "Made", value=self.today, check=parse_edtf),
        )
        yield Row(
            TextField("made_from", "Made from", width=2),
            TextField("dilution", "Dilution", hint="1+9", check=dilution_check(self.host.settings)),
            TextField("volume", "Volume, L", hint="2", check=parse_volume_hundredth_ml, unit="L"),
        )
        yield Row(
            ChoiceField("one_shot", "Used once", YES_OR_NO, value="no"),
            ChoiceField("film_used", "Film was in it", _SAID, value="not known"),
            ChoiceField("hardening", "Hardening", _SAID, value="not known"),
        )

    def fill(self) -> Filled:
        """One bath; what is not known is not said."""
        filled = begin(self)
        put_all(self, filled, {key: key for key in _BATH}, "bath", 0)
        for key in ("one_shot", "film_used", "hardening"):
            answer = self.value(key)
            said = None if answer == "not known" else answer == "yes"
            filled.put(key, said, "bath", 0, key)
        return filled
