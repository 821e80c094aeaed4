"""What lies beside the register is spoiled: pictures, certificates, persons, settings, drafts."""

import shutil
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path

from provenance.errors import ProvenanceError
from provenance.model.custody import CustodyEvent
from provenance.records.audit import audit
from provenance.records.private import Contacts, Drafts
from provenance.records.register import Register
from provenance.records.terms import Terms, TermsBook
from provenance.studio.folder import StudioFolder
from provenance.studio.half_filled import kept
from provenance.studio.settings import read_settings
from tests import studios
from tests.faults.ground import Ground
from tests.faults.outcome import Came, Outcome
from tests.faults.registry import HARMLESS, HARMLESS_OR_REFUSED, TOLD, fault


def _spoilt(path: Path, ground: Ground) -> str:
    """Spoil one file in one of the ways in which files are spoiled; which it was."""
    data, chance = bytearray(path.read_bytes()), ground.chance
    way = chance.choice(("deleted", "cut", "a byte", "noise", "longer", "a folder"))
    if way in ("deleted", "a folder"):
        path.unlink()
    if way == "a folder":
        path.mkdir()
    elif way == "cut":
        path.write_bytes(data[: chance.randrange(len(data))])
    elif way == "a byte":
        data[chance.randrange(len(data))] ^= 1 << chance.randrange(8)
        path.write_bytes(data)
    elif way == "noise":
        path.write_bytes(chance.randbytes(len(data)))
    elif way == "longer":
        path.write_bytes(bytes(data) + b"\n")
    return f"{path.name}: {way}"


def _audited(
    ground: Ground, times: int, pattern: str, before: Callable[[Path], object] = Path.exists
) -> Iterator[Outcome]:
    """Spoil files one by one; the audit has to name each, or the record that it belongs to."""
    for _ in range(times):
        folder = ground.fresh()
        before(folder)
        files = sorted(path for path in folder.glob(pattern) if _spoken_of(folder, path))
        file = ground.chance.choice(files)
        was = _said(folder, file)
        about = _spoilt(file, ground)
        name = about.partition(".")[0]
        if was is not None and _said(folder, file) == was:
            # white space, or a letter of its salt in capitals, changes nothing of what it says
            yield Outcome(Came.WHOLE, about)
            continue
        try:
            found = audit(folder).findings
        except Exception as error:
            yield Outcome(Came.FAULT, f"{about}: {error!r}")
            continue
        # an erased page is known by the record that speaks of it
        named = [one for one in found if name in one.what or name[:12] in one.what]
        named += [one for one in found if "erased, or is missing" in one.what]
        told = bool(named) and all(one.mend for one in named)
        yield Outcome(Came.TOLD_BY_AUDIT if told else Came.SILENT, f"{about} {found}")
        shutil.rmtree(folder)


def _said(folder: Path, file: Path) -> object:
    """What a page of a person or of terms says; None for another file, or a spoiled page."""
    try:
        if file.parent.name == "contacts":
            return Contacts(folder).get(file.stem)
        return TermsBook(folder).get(file.stem) if file.parent.name == "terms" else None
    except ProvenanceError:
        return None


def _spoken_of(folder: Path, path: Path) -> bool:
    """Whether a record speaks of a file; what nobody speaks of is nobody's loss."""
    with closing(sqlite3.connect(folder / "register.db")) as register:
        entries = b"".join(row[0] for row in register.execute(_LIVE))
    return path.stem.encode() in entries


_LIVE = "SELECT entry FROM journal JOIN record ON seq = record.version WHERE live"


@fault("a thumbnail is spoiled", long=100, short=8, allowed=TOLD)
def thumbnail(ground: Ground, times: int) -> Iterator[Outcome]:
    """Its name is its digest."""
    return _audited(ground, times, "images/*.jpg")


@fault("a certificate or its record is spoiled", long=100, short=8, allowed=TOLD)
def certificate(ground: Ground, times: int) -> Iterator[Outcome]:
    """The register holds the digest of both."""
    return _audited(ground, times, "certificates/*")


@fault("a page of the contact book is spoiled", long=100, short=8, allowed=TOLD | HARMLESS)
def contact(ground: Ground, times: int) -> Iterator[Outcome]:
    """Its name is a commitment to what it says; the register holds that name."""
    return _audited(ground, times, "contacts/*.json")


@fault("a page of terms is spoiled", long=100, short=8, allowed=TOLD | HARMLESS)
def terms(ground: Ground, times: int) -> Iterator[Outcome]:
    """The price, the place and the conditions stand nowhere else."""
    return _audited(ground, times, "private/terms/*.json", _sold_on_terms)


def _sold_on_terms(folder: Path) -> None:
    """What left the studio is found to have been sold: price and place are written down."""
    with Register.open(folder, clock=studios.clock()) as register:
        events = register.read.all(CustodyEvent)
        left = next(one.body.print for one in events if one.body.event == "released")
        key, keep = TermsBook(folder).prepare(Terms(price="900 guineas", place="the north wall"))
        keep()
        sale = studios.release(left, event="sold", on="2031-04-02", terms=key)
        studios.enter(register, sale)


@fault("a half-filled form is spoiled", long=60, short=8, allowed=HARMLESS)
def draft(ground: Ground, times: int) -> Iterator[Outcome]:
    """It must not keep anybody from a fresh form."""
    for turn in range(times):
        folder = ground.fresh()
        Drafts(folder).put("paper", '{"at":"2031-03-14 21:40","values":{"code":"FB-1"}}')
        about = _spoilt(folder / "private" / "paper.json", ground)
        try:
            kept(StudioFolder(folder), "paper")
            again = turn % 2 == 0 or (folder / "private" / "paper.json").is_dir()
            if not again:
                Drafts(folder).put("paper", "{}")
        except Exception as error:
            yield Outcome(Came.FAULT, f"{about}: {error!r}")
            continue
        yield Outcome(Came.WHOLE, about)
        shutil.rmtree(folder)


@fault("the settings are spoiled", long=100, short=8, allowed=HARMLESS_OR_REFUSED)
def settings(ground: Ground, times: int) -> Iterator[Outcome]:
    """Read, or refused with the line; a studio without the file works with the defaults."""
    text = 'units = "inch"\npage = "letter"\nwho = "MV"\n[keys]\nfind = "f3"\n'
    for _ in range(times):
        folder = ground.fresh()
        (folder / "settings.toml").write_text(text, encoding="utf-8")
        about = _spoilt(folder / "settings.toml", ground)
        try:
            read_settings(StudioFolder(folder))
            yield Outcome(Came.WHOLE, about)
        except ProvenanceError as error:
            yield Outcome(Came.REFUSED, f"{about}: {error}")
        except Exception as error:
            yield Outcome(Came.FAULT, f"{about}: {error!r}")
        shutil.rmtree(folder)
