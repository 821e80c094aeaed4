"""A table of papers: a batch a row."""

from provenance.model.evidence import Source
from provenance.model.paper import Base, Paper
from provenance.records.act import Act
from provenance.studio.tables.mapping import Fields
from provenance.studio.tables.row import Row, differing, on_record_otherwise

_TEXTS = ("weight", "surface", "tone", "contrast", "maker", "batch")
FIELDS = Fields(
    alike={
        "code": "name paper",
        "base": "",
        **dict.fromkeys(_TEXTS, ""),
        "sheet": "size format",
        "sheet_height_tenth_mm": "",
        "sheet_width_tenth_mm": "",
        "bought": "bought_on",
        "source": "",
    },
    needed=("code", "base"),
)


class Papers:
    """Enters papers; one that is on record already, and the same, is passed over."""

    def __init__(self, act: Act, source: Source) -> None:
        self._act = act
        self._source = source

    def take(self, row: Row) -> bool:
        """Enter one row; whether it was new.  Raises Refused."""
        given: dict[str, object] = {
            "code": row.needed("code"),
            "base": row.choice("base", Base),
            **{name: row.get(name) for name in _TEXTS if row.get(name)},
        }
        if sheet := row.size("sheet"):
            given["sheet"] = sheet
        if row.get("bought"):
            given["bought"] = row.date("bought")
        source = row.choice("source", Source) if row.get("source") else self._source
        held = self._act.by_code(Paper, str(given["code"]))
        if held is None:
            self._act.enter(Paper(**given, source=source))  # type: ignore[arg-type]
            return True
        if other := differing(given, held.body):
            raise on_record_otherwise(held.body.code, other)
        return False
