"""Says what the tables hold, as CSV on the Web has it (W3C Recommendation, 17 December 2015)."""

from typing import Any

from provenance.studio.handover.tables import Table

FILE = "csv-metadata.json"
_APOSTROPHE = (
    "A text that a spreadsheet would take for a formula, or that begins or ends with a blank, has"
    " an apostrophe in front; take it off (and no more than one) to have the text as it was. A"
    " cell with nothing but an apostrophe is an empty text; an empty cell says nothing."
)


def table_schema(tables: tuple[Table, ...]) -> dict[str, Any]:
    """The description of `tables`, which lie beside it as NAME.csv."""
    return {
        "@context": "http://www.w3.org/ns/csvw",
        "dc:description": _APOSTROPHE,
        "dialect": {"encoding": "utf-8", "header": True, "delimiter": ","},
        "tables": [
            {
                "url": f"{table.name}.csv",
                "dc:title": f"{table.name}: a row for each {table.kind.KIND} as it stands",
                "tableSchema": {
                    "columns": [
                        {
                            "name": column.name,
                            "titles": column.name,
                            "datatype": column.datatype,
                            "dc:description": column.about,
                        }
                        for column in table.columns
                    ],
                    "primaryKey": "id",
                },
            }
            for table in tables
        ],
    }
