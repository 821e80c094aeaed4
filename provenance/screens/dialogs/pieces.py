"""Fields that several forms share."""

from collections.abc import Mapping, Sequence
from functools import partial
from typing import Literal, cast

from provenance.craft.dilution import parse_dilution
from provenance.craft.units import parse_size
from provenance.model.dates import parse_edtf
from provenance.model.evidence import Source
from provenance.model.quantities import Size
from provenance.model.quantity_text import format_size
from provenance.screens.widgets.fields import Check, ChoiceField, TextField, names_in
from provenance.screens.widgets.form import Form
from provenance.studio.calling import names_of
from provenance.studio.daysheet.filled import Filled
from provenance.studio.settings import Settings

DATES = "as 2026-03-14, 1998, 1998~"
_LENGTHS = {"metric": "cm", "inch": "in"}


def date_field(form: Form, label: str = "Date") -> TextField:
    """The day that the form is about: today, unless another is typed."""
    return TextField("date", label, value=form.today, check=parse_edtf)


def source_field() -> ChoiceField:
    """Whether a written note stands behind what is entered."""
    return ChoiceField("from", "Entered from", ("notes", "memory"), value="notes")


def begin(form: Form) -> Filled:
    """A sheet of the day that the form gives, or of today."""
    fields = form.fields
    day = fields["date"].value.strip() if "date" in fields else form.today
    source = fields["from"].value if "from" in fields else "notes"
    return Filled(day, source=cast("Source", source))


def length_unit(settings: Settings) -> str:
    """The unit that a bare length is given in."""
    return _LENGTHS[settings.units]


def size_field(
    settings: Settings, key: str, label: str, *, value: Size | None = None, hint: str = ""
) -> TextField:
    """Height by width; a bare pair of figures takes the studio's unit."""
    unit = length_unit(settings)
    return TextField(
        key,
        f"{label}, height x width, {unit}",
        value=format_size(value, settings.units) if value else "",
        hint=hint,
        check=parse_size,
        unit=unit,
    )


def count_of(prints: Sequence[int]) -> str:
    """``1 print``, ``3 prints``."""
    return "1 print" if len(prints) == 1 else f"{len(prints)} prints"


def prints_field(form: Form, prints: tuple[int, ...]) -> TextField:
    """The prints that the form is about, by name."""
    return TextField(
        "prints", "Prints", value=", ".join(names_of(form.read, prints)), hint="between commas"
    )


def print_names(form: Form) -> list[str]:
    """What stands in the field of `prints_field`."""
    return names_in(form.value("prints"))


def dilution_check(settings: Settings) -> Check:
    """Reads a dilution as the studio reads a colon."""
    means: Literal["parts", "total"] | None = settings.colon_dilution
    return partial(parse_dilution, colon_means=means)


def put_all(form: Form, filled: Filled, places: Mapping[str, str], *table: str | int) -> None:
    """Write fields into one table of the sheet: `places` gives each key's name there."""
    for key, name in places.items():
        filled.put(key, form.value(key), *table, name)
