"""Reads a bag, and trusts no byte of it before its digests agree.

Every manifest that it has is looked at, of the payload and of the tag files,
whatever digest it holds; at least one must hold a digest that can be trusted.
"""

import hashlib
import re
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO
from zipfile import BadZipFile

from provenance.errors import Damaged, Problem, Refused
from provenance.records.exchange.bag import DIGESTS, PAYLOAD
from provenance.records.exchange.sources import Source, opened
from provenance.records.progress import Progress

_KNOWN = ("md5", "sha1", "sha224", "sha256", "sha384", "sha512")
_ROW = re.compile(r"([0-9a-fA-F]{32,128})[ \t]+\*?(.+)")
_OXUM = re.compile(r"([0-9]{1,18})\.([0-9]{1,9})")
_ESCAPE = re.compile("%(0A|0D|25)", re.IGNORECASE)
_VERSIONS = ("1.0", "0.97")
_LONGEST_TAG = 300_000_000
_PIECE = 1 << 20


class OpenedBag:
    """A bag whose manifests were read; its payload is checked as it is copied."""

    def __init__(self, source: Source, path: Path) -> None:
        self._source = source
        self._path = path
        self.info = self._declared()
        self._marks = self._manifests()
        self._check_own()

    @property
    def sizes(self) -> dict[str, int]:
        """How long each file of the payload is, by its path below ``data/``."""
        return {name: self._source.sizes[f"{PAYLOAD}/{name}"] for name in self._marks}

    def copy(self, name: str, target: IO[bytes] | None = None) -> None:
        """Copy one file of the payload, or only look at it.  Raises Damaged if it is altered."""
        wanted = self._marks[name]
        marks = {kind: hashlib.new(kind) for kind in wanted}
        for piece in self._pieces(f"{PAYLOAD}/{name}"):
            for mark in marks.values():
                mark.update(piece)
            if target is not None:
                target.write(piece)
        for kind, mark in marks.items():
            if mark.hexdigest() != wanted[kind]:
                raise self._damaged(f"{name} is not the file that its {kind} was taken of")

    def check(self, progress: Progress | None = None) -> None:
        """Compare every file with its digests.  Raises Damaged."""
        for done, name in enumerate(self._marks, start=1):
            self.copy(name)
            if progress:
                progress("files checked", done, len(self._marks))

    def _declared(self) -> dict[str, str]:
        said = _labels(self._text("bagit.txt", 1_000))
        if said.get("BagIt-Version") not in _VERSIONS:
            raise self._refused("is not a bag of BagIt 1.0")
        if said.get("Tag-File-Character-Encoding", "").upper() != "UTF-8":
            raise self._refused("is not written in UTF-8")
        if "fetch.txt" in self._source.sizes:
            raise self._refused("leaves files to be fetched from elsewhere, which is never done")
        there = "bag-info.txt" in self._source.sizes
        return _labels(self._text("bag-info.txt", 1_000_000)) if there else {}

    def _manifests(self) -> dict[str, dict[str, str]]:
        """The digests of every file of the payload, by its name and kind."""
        payload = {name for name in self._source.sizes if name.startswith(f"{PAYLOAD}/")}
        found: dict[str, dict[str, str]] = {name: {} for name in payload}
        kinds = [kind for kind in _KNOWN if f"manifest-{kind}.txt" in self._source.sizes]
        if not set(kinds) & set(DIGESTS):
            raise self._refused("has no manifest with digests that can be trusted")
        for kind in _KNOWN:
            self._check_tags(kind)
        for kind in kinds:
            rows = self._rows(f"manifest-{kind}.txt", kind)
            if rows.keys() != payload:
                odd = min(rows.keys() ^ payload)
                missing = odd in rows
                raise self._damaged(f"{odd!a} is {'missing' if missing else 'in no manifest'}")
            for name, mark in rows.items():
                found[name][kind] = mark
        return {name.removeprefix(f"{PAYLOAD}/"): marks for name, marks in sorted(found.items())}

    def _check_tags(self, kind: str) -> None:
        name = f"tagmanifest-{kind}.txt"
        if name not in self._source.sizes:
            return
        for tag, mark in self._rows(name, kind).items():
            if tag not in self._source.sizes:
                raise self._damaged(f"{tag!a} is missing")
            found = hashlib.new(kind)
            for piece in self._pieces(tag):
                found.update(piece)
            if found.hexdigest() != mark:
                raise self._damaged(f"{tag} is not the file that its {kind} was taken of")

    def _check_own(self) -> None:
        """Compare what the bag says of itself with what is there."""
        said = _OXUM.fullmatch(self.info.get("Payload-Oxum", ""))
        sizes = self.sizes
        if said and (int(said[1]), int(said[2])) != (sum(sizes.values()), len(sizes)):
            raise self._damaged("its payload is not as long as bag-info.txt says (Payload-Oxum)")
        if not self.info.get("Bag-Software-Agent", "").startswith("provenance "):
            return
        for name in (f"{tag}manifest-{kind}.txt" for tag in ("", "tag") for kind in DIGESTS):
            if name not in self._source.sizes:
                raise self._damaged(f"{name} is missing, which this program writes into every bag")
        beside = {
            name
            for name in self._source.sizes
            if not name.startswith((f"{PAYLOAD}/", "tagmanifest-"))
        }
        for kind in DIGESTS:
            strange = beside - self._rows(f"tagmanifest-{kind}.txt", kind).keys()
            if strange:
                raise self._damaged(f"{min(strange)!a} is in no tagmanifest-{kind}.txt")

    def _rows(self, name: str, kind: str) -> dict[str, str]:
        rows: dict[str, str] = {}
        for line in self._text(name, _LONGEST_TAG).splitlines():
            match = _ROW.fullmatch(line)
            if not match or len(match[1]) != hashlib.new(kind).digest_size * 2:
                raise self._damaged(f"a line of {name} holds no digest")
            path = _ESCAPE.sub(lambda found: chr(int(found[1], 16)), match[2])
            if path in rows:
                raise self._damaged(f"{name} names a file twice")
            rows[path] = match[1].lower()
        return rows

    def _text(self, name: str, longest: int) -> str:
        size = self._source.sizes.get(name)
        if size is None:
            raise self._refused(f"is not a bag: it has no {name}")
        if size > longest:
            raise self._refused(f"has a {name} that is longer than any")
        try:
            return b"".join(self._pieces(name)).decode("utf-8")
        except UnicodeDecodeError as error:
            raise self._refused(f"{name} is not UTF-8 text") from error

    def _pieces(self, name: str) -> Iterator[bytes]:
        try:
            with self._source.open(name) as file:
                yield from iter(lambda: file.read(_PIECE), b"")
        except (BadZipFile, zlib.error, EOFError, RuntimeError, OSError) as error:
            raise self._damaged(f"{name} cannot be unpacked ({error})") from error

    def _refused(self, what: str) -> Refused:
        return Refused(
            Problem(what, str(self._path), mend="name a backup or a bag of this program")
        )

    def _damaged(self, what: str) -> Damaged:
        return Damaged(Problem(what, str(self._path), mend="use another copy"))


@contextmanager
def open_bag(path: Path) -> Iterator[OpenedBag]:
    """The bag at `path`, a folder or a zip file.

    Raises Refused for what is no bag, or one made to do harm; Damaged where its
    digests do not agree.
    """
    with opened(path) as source:
        yield OpenedBag(source, path)


def _labels(text: str) -> dict[str, str]:
    """What a tag file says, label by label; a line that begins with a space goes on."""
    found: dict[str, str] = {}
    label = ""
    for line in text.splitlines():
        if line[:1] in (" ", "\t") and label:
            found[label] += f" {line.strip()}"
            continue
        label, _, said = (part.strip() for part in line.partition(":"))
        found[label] = said
    return found
