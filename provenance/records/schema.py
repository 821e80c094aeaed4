"""The tables of the register.

`journal` is the truth and is only ever migrated, after a backup.  Every other
table is a view of it that can be thrown away and made again (`VIEW`).
"""

import hashlib
import sqlite3
from functools import cache
from pathlib import Path

APPLICATION_ID = 0x50524F56
"""Marks the file as a register of this program (SQLite's application_id)."""

JOURNAL = """
CREATE TABLE journal (
  seq INTEGER PRIMARY KEY CHECK (seq > 0),
  entry BLOB NOT NULL,
  digest TEXT NOT NULL CHECK (length(digest) = 64)
) STRICT;

CREATE TRIGGER journal_is_never_changed BEFORE UPDATE ON journal
BEGIN SELECT raise(ABORT, 'the journal is never changed'); END;

CREATE TRIGGER journal_is_never_cut BEFORE DELETE ON journal
BEGIN SELECT raise(ABORT, 'the journal is never cut'); END;

CREATE TRIGGER journal_grows_by_one BEFORE INSERT ON journal
WHEN NEW.seq IS NOT (SELECT coalesce(max(seq), 0) + 1 FROM journal)
BEGIN SELECT raise(ABORT, 'the journal grows one entry at a time'); END;
"""
# The third trigger also stops INSERT OR REPLACE, which passes the first two.

VIEW_TABLES: dict[str, str] = {
    "record": """
CREATE TABLE record (
  id INTEGER PRIMARY KEY,
  kind TEXT NOT NULL,
  version INTEGER NOT NULL,
  live INTEGER NOT NULL,
  code TEXT COLLATE NOCASE
) STRICT;
CREATE INDEX record_by_kind ON record (kind, live);
CREATE UNIQUE INDEX record_by_code ON record (kind, code) WHERE live AND code IS NOT NULL;
""",
    "version": """
CREATE TABLE version (
  record INTEGER NOT NULL,
  seq INTEGER NOT NULL,
  PRIMARY KEY (record, seq)
) STRICT, WITHOUT ROWID;
""",
    "link": """
CREATE TABLE link (
  source INTEGER NOT NULL,
  field TEXT NOT NULL,
  target INTEGER NOT NULL,
  kind TEXT NOT NULL,
  PRIMARY KEY (source, field, target)
) STRICT, WITHOUT ROWID;
CREATE INDEX link_by_target ON link (target, kind, field);
""",
    "print_key": """
CREATE TABLE print_key (
  id INTEGER PRIMARY KEY,
  edition INTEGER NOT NULL,
  mark TEXT NOT NULL COLLATE NOCASE,
  designation TEXT
) STRICT;
CREATE INDEX print_by_mark ON print_key (edition, mark);
CREATE INDEX print_by_designation ON print_key (edition, designation);
""",
    "at_hand": """
CREATE TABLE at_hand (
  use TEXT NOT NULL,
  id INTEGER NOT NULL,
  PRIMARY KEY (use, id)
) STRICT, WITHOUT ROWID;
""",
    "impression": """
CREATE TABLE impression (
  id INTEGER PRIMARY KEY,
  edition INTEGER NOT NULL,
  edition_code TEXT NOT NULL,
  mark TEXT NOT NULL,
  designation TEXT,
  series TEXT,
  number INTEGER,
  position INTEGER NOT NULL,
  state TEXT NOT NULL,
  printed_on TEXT NOT NULL,
  certificate TEXT,
  owes TEXT NOT NULL,
  why_silver TEXT,
  why_thiosulfate TEXT
) STRICT;
CREATE INDEX impression_by_edition ON impression (edition, position, id);
CREATE INDEX impression_in_order ON impression (edition_code, position, id);
""",
    "search": """
CREATE VIRTUAL TABLE search USING fts5(
  words, kind UNINDEXED, prefix = '1 2 3', tokenize = "unicode61 remove_diacritics 2"
);
""",
}

META = "CREATE TABLE IF NOT EXISTS view_made_by (fingerprint TEXT NOT NULL) STRICT;"

VIEW = "".join(VIEW_TABLES.values())

_PROVENANCE = Path(__file__).parent.parent
_DECIDES_THE_VIEW = (
    *(_PROVENANCE / "records" / f"{name}.py" for name in ("schema", "projection", "impressions")),
    *(
        _PROVENANCE / "records" / f"{name}.py"
        for name in ("at_hand", "dossier", "forms", "overridden")
    ),
    *(_PROVENANCE / "craft" / f"{name}.py" for name in ("custody", "history", "overriding")),
    *(_PROVENANCE / "craft" / f"{name}.py" for name in ("owing", "proof")),
    *sorted((_PROVENANCE / "model").glob("*.py")),
)


@cache
def fingerprint() -> str:
    """Names the program's way of making the view: a digest of the files that decide it.

    No one has to remember to raise a number; an edit that changes nothing costs
    one rebuild.
    """
    mark = hashlib.sha256()
    for path in _DECIDES_THE_VIEW:
        mark.update(path.read_bytes())
    return mark.hexdigest()


def statements(script: str) -> list[str]:
    """The statements of `script`, each with its semicolon; a trigger is one."""
    found: list[str] = []
    held = ""
    for line in script.splitlines(keepends=True):
        held += line
        if sqlite3.complete_statement(held):
            found.append(held)
            held = ""
    return found
