"""The columns of the tables that more than one page shows."""

from provenance.screens.widgets.columns import Column

PRINTS = (
    Column("EDITION", 10, "edition"),
    Column("NUMBER", 11, "number"),
    Column("BACK", 8, "mark"),
    Column("STATE", 11, "state"),
    Column("PRINTED", 10, "date"),
    Column("CERTIFICATE", 0, "certificate", quiet=True),
)
"""For `provenance.studio.print_rows.PrintRows`."""

EDITIONS = (
    Column("CODE", 8, "code"),
    Column("IMAGE"),
    Column("PROMISE", 12),
    Column("MADE", 4, right=True),
    Column("OUT", 3, right=True),
    Column("LEFT", 4, right=True),
    Column("LAST PRINTED", 12, "date"),
)
"""For `provenance.studio.edition_rows.EditionRows`."""

FOUND = (
    Column("KIND", 11, quiet=True),
    Column("NAME", 24),
    Column("ABOUT"),
)
"""For `provenance.studio.finding.FoundRows`."""
