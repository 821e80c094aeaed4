"""Read the layout of the certificate: margins, order and labels, never claims."""

import re
import tomllib
from dataclasses import dataclass, fields
from typing import Any, NoReturn

from provenance.errors import Problem, Refused
from provenance.resources import resource
from provenance.toml import read_toml

FORM = 1
BLOCKS = ("title", "print", "sections", "care", "signature", "marks")
PARTICULARS = (
    "process",
    "paper",
    "negative",
    "printed",
    "edition_promised",
    "edition_today",
    "signed",
    "marked",
    "other_editions",
    "remarks",
)
LABELS = (
    "certificate",
    "answer",
    "how_made",
    "tested",
    "not_known",
    "continued",
    "care",
    "artist_signature",
    "date",
    "owner_name",
    "number",
    "revision",
    "issued",
    "record",
    "journal",
    "journal_entry",
    "page_of",
    "code",
    "attached",
    "attached_signature",
    "attached_key",
    "key",
    "replaces",
    "duplicate",
    "changed",
    "changed_nothing",
    "studio_mark",
)
CHANGED = (
    "title",
    "designation",
    "artist",
    "studio",
    "image",
    "sheet",
    "features",
    "picture",
    "statement",
)
"""What a revision may change beside the particulars."""
_FILE = re.compile(r"\w[\w .-]{0,99}")


@dataclass(frozen=True)
class PageMeasures:
    """Margins and the heights of the picture, in millimetres."""

    margin_top_mm: float
    margin_bottom_mm: float
    margin_left_mm: float
    margin_right_mm: float
    picture_most_mm: float
    picture_least_mm: float


@dataclass(frozen=True)
class MarkPlace:
    """Where the studio's own mark comes from, and how high it stands."""

    file: str
    """An image beside the layout."""
    height_mm: float
    line: int | None
    """Where the layout names the file, for messages."""


@dataclass(frozen=True)
class CertificateLayout:
    """A layout that was read and found whole."""

    measures: PageMeasures
    blocks: tuple[str, ...]
    """All of `BLOCKS`, from the top of the page."""
    particulars: tuple[str, ...]
    """All of `PARTICULARS`, in the order of reading."""
    labels: dict[str, str]
    """A label for each of `LABELS`."""
    particular_labels: dict[str, str]
    """A label for each of `PARTICULARS`."""
    changed_labels: dict[str, str]
    """A label for each of `CHANGED`."""
    mark: MarkPlace | None = None


def read_layout(text: str, name: str, language: str = "en") -> CertificateLayout:
    """The layout in `text`, labelled in `language`; `name` is the file, for messages.

    Raises Refused, naming the line, for what is unknown, missing, doubled or
    not of its kind.
    """
    return _Reader(text, name).layout(language)


def shipped_layout(language: str = "en") -> CertificateLayout:
    """The layout that comes with the program."""
    path = resource("templates", "certificate.toml")
    return read_layout(path.read_text("utf-8"), path.name, language)


class _Reader:
    def __init__(self, text: str, name: str) -> None:
        self._lines = text.splitlines()
        self._name = name
        try:
            self._table = read_toml(text)
        except tomllib.TOMLDecodeError as error:
            found = re.search(r"at line (\d+)", str(error))
            self._refuse(f"not TOML: {error}", line=int(found[1]) if found else None)

    def layout(self, language: str) -> CertificateLayout:
        table = self._table
        self._only(table, {"form", "page", "mark", "order", "labels"}, "")
        if table.get("form") != FORM:
            self._refuse(f"form must be {FORM}", "form")
        order = self._part(table, "order")
        self._only(order, {"blocks", "particulars"}, "order")
        spoken = self._part(table, "labels")
        labels = {tongue: self._labels(spoken, tongue) for tongue in spoken}
        if language not in labels:
            self._refuse(
                f"there are no labels in {language!r}, only in {', '.join(labels)}", "labels"
            )
        return CertificateLayout(
            self._measures(self._part(table, "page")),
            self._order(order, "blocks", BLOCKS),
            self._order(order, "particulars", PARTICULARS),
            *labels[language],
            mark=self._mark(self._part(table, "mark")) if "mark" in table else None,
        )

    def _measures(self, page: dict[str, Any]) -> PageMeasures:
        names = {field.name for field in fields(PageMeasures)}
        self._only(page, names, "page")
        for name in sorted(names):
            value = page.get(name)
            if isinstance(value, bool) or not isinstance(value, int | float):
                self._refuse(f"{name} must be a number of millimetres", name)
            low, high = (10, 150) if name.startswith("picture") else (5, 60)
            if not low <= value <= high:
                self._refuse(f"{name} must lie between {low} and {high}", name)
        measures = PageMeasures(**page)
        if measures.picture_least_mm > measures.picture_most_mm:
            self._refuse("picture_least_mm is more than picture_most_mm", "picture_least_mm")
        return measures

    def _mark(self, mark: dict[str, Any]) -> MarkPlace:
        self._only(mark, {"file", "height_mm"}, "mark")
        file, height_mm = mark.get("file"), mark.get("height_mm", 8)
        if not isinstance(file, str) or not _FILE.fullmatch(file):
            self._refuse("file must name an image in the same folder", "file", after="mark")
        if isinstance(height_mm, bool) or not isinstance(height_mm, int | float):
            self._refuse("height_mm must be a number of millimetres", "height_mm", after="mark")
        if not 3 <= height_mm <= 20:
            self._refuse("height_mm must lie between 3 and 20", "height_mm", after="mark")
        return MarkPlace(file, float(height_mm), self._line("file", "mark"))

    def _order(self, order: dict[str, Any], name: str, known: tuple[str, ...]) -> tuple[str, ...]:
        given = order.get(name)
        if not isinstance(given, list):
            self._refuse(f"{name} must be a list", name)
        for at, item in enumerate(given):
            if item not in known:
                self._refuse(f"{item!r} is not one of the {name}", str(item))
            if item in given[:at]:
                self._refuse(f"{item!r} stands twice among the {name}", str(item))
        missing = [item for item in known if item not in given]
        if missing:
            self._refuse(f"{name} must name {', '.join(missing)} too: nothing is left out", name)
        return tuple(given)

    def _labels(
        self, spoken: dict[str, Any], tongue: str
    ) -> tuple[dict[str, str], dict[str, str], dict[str, str]]:
        table = self._part(spoken, tongue)
        where = f"labels.{tongue}"
        self._only(table, {*LABELS, "particulars", "changed_things"}, where)
        inner = {"particulars": PARTICULARS, "changed_things": CHANGED}
        for part, names in inner.items():
            self._only(self._part(table, part), set(names), f"{where}.{part}")
        particulars, changed = (
            {name: self._label(table[part], name, f"{where}.{part}") for name in names}
            for part, names in inner.items()
        )
        return {name: self._label(table, name, where) for name in LABELS}, particulars, changed

    def _label(self, table: dict[str, Any], name: str, where: str) -> str:
        value = table.get(name)
        if not isinstance(value, str) or not value.strip():
            self._refuse(f"[{where}] needs words for {name}", name if name in table else where)
        return value

    def _part(self, table: dict[str, Any], name: str) -> dict[str, Any]:
        part = table.get(name)
        if not isinstance(part, dict):
            self._refuse(f"the table [{name}] is missing", name)
        return part

    def _only(self, table: dict[str, Any], known: set[str], where: str) -> None:
        for name in table:
            if name not in known:
                place = f" in [{where}]" if where else ""
                self._refuse(f"{name} is not known{place}", name, after=where)

    def _refuse(
        self, what: str, word: str = "", *, after: str = "", line: int | None = None
    ) -> NoReturn:
        raise Refused(
            Problem(
                what=what,
                record=self._name,
                line=line or self._line(word, after),
                mend="compare it with the certificate.toml that comes with the program",
            )
        )

    def _line(self, word: str, after: str) -> int | None:
        """The first line that speaks of `word`, below the head of the table `after`."""
        if not word:
            return None
        start = 0
        for at, line in enumerate(self._lines):
            if after and line.strip() == f"[{after}]":
                start = at
        spoken = re.compile(rf"(?<![\w-]){re.escape(word)}(?![\w-])")
        for at, line in enumerate(self._lines[start:], start + 1):
            if spoken.search(line.split("#")[0]):
                return at
        return None
