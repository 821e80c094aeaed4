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

WHERE = (
    Column("PRINT", 16, "print"),
    Column("WHERE", 13),
    Column("SINCE", 10),
    Column("UNTIL", 10),
    Column("WITH WHOM", quiet=True),
)
"""For `provenance.studio.desk_rows.WhereRows`."""

CERTIFICATES = (
    Column("CERTIFICATE", 18, "number"),
    Column("REV", 3, right=True),
    Column("PRINT", 16),
    Column("ISSUED", 10, "date"),
    Column("STATE"),
)
"""For `provenance.studio.desk_rows.CertificateRows`."""

DISCLOSURE = (
    Column("EDITION", 10, "code"),
    Column("IMAGE"),
    Column("OPEN", 4, right=True),
    Column("ANSWERED", 8, right=True),
    Column("ON RECORD", 12, right=True),
)
"""For `provenance.studio.desk_rows.DisclosureRows`."""
