"""The rows that exist by now."""

import hashlib
import itertools
import os
import sqlite3
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

from tests.benchmarks.harness import Row, benchmark, compare, once_ms
from tests.benchmarks.studios import enter_prints, new_register, plain_rows

PRINTS = int(os.environ.get("BENCHMARK_PRINTS", "100000"))


def _run(*command: str) -> None:
    subprocess.run(command, check=True, capture_output=True)


def _told(*command: str) -> str:
    return subprocess.run(command, check=True, capture_output=True, text=True).stdout


@benchmark
def command_line(folder: Path) -> Iterator[Row]:
    """Start-up of the command line, and lists."""
    studio = folder / "lists"
    with new_register(studio) as register:
        enter_prints(register, PRINTS)
    ours = (str(Path(sys.executable).with_name("provenance")), "--studio", str(studio))

    def bare() -> None:
        _run(sys.executable, "-c", "pass")

    yield compare("--version", lambda: _run(ours[0], "--version"), "python -c pass", bare,
                  budget=1.5, times=15)  # fmt: skip
    yield compare(f"list 50 of {PRINTS:,}", lambda: _run(*ours, "list", "prints", "--limit", "50"),
                  "python -c pass", bare, budget=5, times=15)  # fmt: skip
    yield compare(f"list all {PRINTS:,}", lambda: _run(*ours, "list", "prints"),
                  "python -c pass", bare, budget=25, times=5)  # fmt: skip


@benchmark
def one_write(folder: Path) -> Iterator[Row]:
    """One durable record, with view and search."""
    from provenance.model.negative import Negative

    register = new_register(folder / "write")
    count = itertools.count()

    def ours() -> None:
        with register.act("printer") as act:
            act.enter(Negative(code=f"N-{next(count)}", title="Slipway, first frost"))

    ours()
    (data,) = register.read.connection.execute(
        "SELECT entry FROM journal ORDER BY seq DESC LIMIT 1"
    ).fetchone()
    raw = sqlite3.connect(folder / "raw.db", isolation_level=None)
    raw.execute("PRAGMA journal_mode = WAL")
    raw.execute("PRAGMA synchronous = FULL")
    raw.execute("CREATE TABLE raw (id INTEGER PRIMARY KEY, entry BLOB)")

    def plain() -> None:
        raw.execute("BEGIN IMMEDIATE")
        raw.execute("INSERT INTO raw (entry) VALUES (?)", (data,))
        raw.execute("COMMIT")

    yield compare("one durable write", ours, "sqlite3 insert and commit, FULL", plain,
                  budget=2.5, times=200)  # fmt: skip
    register.close()
    raw.close()


SAME_INDEX = """
CREATE VIRTUAL TABLE found USING fts5(
  words, prefix = '1 2 3', tokenize = "unicode61 remove_diacritics 2",
  content = 'prints', content_rowid = 'id'
)
"""
"""The words of the baseline, indexed as the register indexes them."""


@benchmark
def bulk(folder: Path) -> Iterator[Row]:
    """Entering many prints in one act, making the view again, auditing the chain."""
    import sqlite_utils

    from provenance.records.projection import rebuild
    from provenance.records.register import Register

    rows = plain_rows(PRINTS)

    def plain() -> None:
        (folder / "bulk.db").unlink(missing_ok=True)
        database = sqlite_utils.Database(folder / "bulk.db")
        database.table("prints").insert_all(rows, pk="id")
        database.execute(SAME_INDEX)
        database.execute("INSERT INTO found (rowid, words) SELECT id, words FROM prints")
        database.conn.commit()
        database.close()

    plain_ms: list[float] = []
    ours_ms: list[float] = []
    for turn in range(3):
        plain_ms.append(once_ms(plain))
        register = new_register(folder / f"bulk-{turn}")
        ours_ms.append(once_ms(lambda register=register: enter_prints(register, PRINTS)))  # type: ignore[misc]
        register.close()
    baseline = "insert_all with FTS in bulk"
    yield Row(f"enter {PRINTS:,} prints", min(ours_ms), baseline, min(plain_ms), 2.5)
    with Register.open(folder / "bulk-0") as register:
        rebuilt_ms = min(once_ms(lambda: rebuild(register.read.connection)) for _ in range(3))
    yield Row("rebuild of the view", rebuilt_ms, baseline, min(plain_ms), 2)
    yield from _audit_rows(folder / "bulk-0")


@benchmark
def imported(folder: Path) -> Iterator[Row]:
    """A spreadsheet of prints, from the file to the register."""
    import csv

    import sqlite_utils

    from tests.studio.tables.many import furnish_editions, import_prints, write_prints
    from tests.studios import new_register as new_studio

    table = folder / "prints.csv"
    write_prints(table, PRINTS)

    def plain() -> None:
        (folder / "plain.db").unlink(missing_ok=True)
        database = sqlite_utils.Database(folder / "plain.db")
        with table.open(newline="", encoding="utf-8") as file:
            database.table("prints").insert_all(
                (
                    {"id": place, **row, "words": " ".join(list(row.values())[:4])}
                    for place, row in enumerate(csv.DictReader(file))
                ),
                pk="id",
            )
        database.execute(SAME_INDEX)
        database.execute("INSERT INTO found (rowid, words) SELECT id, words FROM prints")
        database.conn.commit()
        database.close()

    plain_ms: list[float] = []
    ours_ms: list[float] = []
    for turn in range(3):
        plain_ms.append(once_ms(plain))
        with new_studio(folder / f"studio-{turn}") as register:
            furnish_editions(register, PRINTS)
            ours_ms.append(once_ms(lambda register=register: import_prints(register, table)))  # type: ignore[misc]
    baseline = "the same file by csv and insert_all, FTS in bulk"
    yield Row(f"import {PRINTS:,} prints", min(ours_ms), baseline, min(plain_ms), 2.5)


def _audit_rows(studio: Path) -> Iterator[Row]:
    from provenance.records.checks.chain import HELD, check_chain

    connection = sqlite3.connect(":memory:")
    connection.execute("ATTACH ? AS register", (str(studio / "register.db"),))
    entries = [row[0] for row in connection.execute("SELECT entry FROM journal")]

    def chain() -> None:
        connection.execute("DROP TABLE IF EXISTS held")
        connection.execute(HELD)
        assert list(check_chain(connection)) == []

    def hashed() -> None:
        for entry in entries:
            hashlib.sha256(entry).hexdigest()

    yield compare("audit, chain", chain, "hashing the same bytes", hashed, budget=10, times=3)
    connection.close()


@benchmark
def audit_files(folder: Path) -> Iterator[Row]:
    """Files against their digests."""
    from provenance.records.checks.chain import HELD, check_chain
    from provenance.records.checks.files import check_files
    from tests.studios import furnish, new_register, scan, sheet

    studio = folder / "files"
    pictures = [os.urandom(300_000) for _ in range(300)]
    with new_register(studio) as register, register.act("printer") as act:
        held = act.enter(sheet(furnish(act), "Q1"))
        for picture in pictures:
            act.enter(scan(held, picture))
    paths: list[Path] = []
    (studio / "images").mkdir()
    for picture in pictures:
        paths.append(studio / "images" / f"{hashlib.sha256(picture).hexdigest()}.jpg")
        paths[-1].write_bytes(picture)

    def ours() -> None:
        connection = sqlite3.connect(":memory:")
        connection.execute("ATTACH ? AS register", (str(studio / "register.db"),))
        connection.execute(HELD)
        assert list(check_chain(connection)) == []
        assert list(check_files(connection, studio)) == []
        connection.close()

    def hashed() -> None:
        for path in paths:
            with path.open("rb") as file:
                hashlib.file_digest(file, "sha256")

    yield compare("audit, files (90 MB)", ours, "hashing the same files", hashed,
                  budget=1.2, times=5)  # fmt: skip


@benchmark
def certificate(_folder: Path) -> Iterator[Row]:
    """The certificate against the same page drawn by plain reportlab."""
    from provenance.documents.certificate import draw_certificate
    from tests.benchmarks.plain_page import draw_plain
    from tests.documents.pages import ORDINARY

    yield compare("certificate", lambda: draw_certificate(ORDINARY), "the same by plain reportlab",
                  lambda: draw_plain(ORDINARY), budget=1.5, times=25)  # fmt: skip


@benchmark
def thumbnail(folder: Path) -> Iterator[Row]:
    """A 160 MB scan of 16 bits against a plain decode."""
    import numpy
    from PIL import Image

    from provenance.records.images import make_thumbnail

    Image.MAX_IMAGE_PIXELS = None
    edge = 8944
    # With grain, as a scan has: a smooth ramp would be unpacked in no time.
    grain = numpy.random.default_rng(1).normal(0, 300, (edge, edge))
    ramp = numpy.linspace(3000, 62000, edge)[:, None]
    grey = Image.fromarray(numpy.clip(ramp + grain, 0, 65535).astype("<u2"))
    forms = (
        ("raw", None, 2.2),
        ("tiff_lzw", "tiff_lzw", 1.3),
        ("deflate", "tiff_adobe_deflate", 1.3),
    )
    for name, form, budget in forms:
        path = folder / f"{name}.tif"
        grey.save(path, compression=form)

        def plain(path: Path = path) -> None:
            with path.open("rb") as file, Image.open(file) as image:
                image.load()

        yield compare(f"160 MB scan, {name}", lambda path=path: make_thumbnail(path),  # type: ignore[misc]
                      "Pillow decode", plain, budget=budget, times=5)  # fmt: skip
        peak_mb = float(
            _told(sys.executable, "-m", "tests.benchmarks.memory", "thumbnail", str(path))
        )
        yield Row(f"memory of it, {name}", peak_mb, "ceiling", 350, 1, "MB")
