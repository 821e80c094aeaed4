"""What a wording must and must not hold, whatever the language.

A wording is data that a studio may rewrite.  It is checked whole before it is
used: no sentence may be missing or invented, use a word that its claim does not
have, depend on one that may be missing, or claim more than a record can show.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, get_args

from provenance.craft.answers import ANSWERS, ASKED
from provenance.craft.statement import CLAIMS
from provenance.craft.wording_dates import DATES, LISTS, PLACES
from provenance.errors import Problem
from provenance.model.evidence import Standing
from provenance.model.paper import Base

WORD = re.compile(r"\{(\w+)\}")
OPTIONAL = re.compile(r"\[([^][]*)\]")
_LOOSE = re.compile(r"[][{}]")

_FORBIDDEN = {
    "any": (r"(?-i:LE)[- ]?\d+", r"le-\d+", r"ISO ?18929", r"authenti\w*"),
    "en": (
        r"archival",
        r"archivally",
        r"permanent(?:ly)?",
        r"museum[- ]quality",
        r"tamper[- ]?proof",
        r"life expectancy",
        r"proved",
        r"completely fixed",
        r"fully toned",
        r"lasts? for",
    ),
    "fr": (
        r"(?:qualité|valeur|niveau|grade) (?:d['’])?archiv\w*",
        r"archivistique\w*",
        r"permanente?s?",
        r"inaltérables?",
        r"infalsifiables?",
        r"(?:qualité|valeur) (?:de )?mus\w+",
        r"espérance de vie",
        r"(?:est|sont|été) prouvée?s?",
        r"(?:complètement|entièrement|totalement|parfaitement) (?:fix|vir|lav)ée?s?",
        r"(?:dure|durera|tient|tiendra|se conserve(?:ra)?) (?:pendant )?(?:\d+|cent|des) ans",
        r"garantie?s?",
    ),
}
FORBIDDEN = re.compile(
    rf"\b(?:{'|'.join(word for words in _FORBIDDEN.values() for word in words)})\b", re.IGNORECASE
)
"""Words that claim more than any record can show (handbook of the trade).

They are looked for whatever the language, since what a person wrote into a
record comes into the sentence as it stands.
"""

PHRASES: dict[str, frozenset[str]] = {
    name: frozenset(words.split())
    for names, words in {
        "caption": "image sheet",
        "process": "toners",
        "treatment": "agent dilution time",
        "treatment.untimed": "agent dilution",
        "treatment.then": "earlier later",
        "portion": "percent density",
        "negative": "code made format state",
        "paper": "base qualities maker batch",
        "printed": "day printer",
        "promised": "promise numbered artist_proofs printers_proofs hors_commerce unnumbered",
        "today": "given declared day",
        "signed": "medium where day",
        "signed.stamp signed.facsimile signed.other": "medium where day",
        "marked": "mark inscriptions",
        "other_editions": "editions",
        "other_edition": "name image",
        "journal_note": "",
        "remark.destroyed remark.spoiled remark.approved": "day",
        "remark.passed": "day role",
        "remark.posthumous remark.lifetime": "",
        "remark.inside remark.outside remark.stay remark.pass": "",
        "remark.said": "words",
        "size_today": "name image given declared",
        "size_gone": "name image given declared gone",
        "advice": "",
        "answer_note": "day entry studio",
    }.items()
    for name in names.split()
}
"""Short texts beside the statement, and the words that each may use."""

MAY_LACK: dict[str, frozenset[str]] = {
    part: frozenset(words.split())
    for part, words in {
        "sentence": "negative_when qualities entered time criterion species drying flattening"
        " spotting trimmed coating uncoated mount unmounted adhesive unglued enclosure bare",
        "answer": "since least_years",
        "question": "",
        "meaning": "",
        "phrase": "toners dilution made format qualities maker batch printer artist_proofs"
        " printers_proofs hors_commerce unnumbered medium where inscriptions role",
    }.items()
}
"""Words that not every record gives; they stand in a part that can be left out."""

_TABLES = (
    "sentence",
    "answer",
    "question",
    "phrase",
    "standing",
    "meaning",
    "date",
    "list",
    "number",
)
_PARTS = {"language", "term", "care", *_TABLES}
_WANTED = ("language", *_TABLES)
_BASES = get_args(Base)
_COPY = "copy it from the wording that came with the program"


def problems_of(data: Mapping[str, Any], name: str, text: str) -> Iterator[Problem]:
    """Everything that is wrong with the wording in `data`, read from `text` of the file `name`."""
    check = _Check(name, text)
    for key in sorted(data.keys() - _PARTS):
        yield check.problem(f"{key!r} is not a part of a wording", "take it out", key)
    for part in _WANTED:
        if part not in data:
            yield check.problem(f"has no {part!r}", _COPY)
    for part in (*_TABLES, "term"):
        if not isinstance(data.get(part, {}), Mapping):
            yield check.problem("is not a table", f"write it as [{part}]", part)
    if not isinstance(data.get("language", ""), str):
        yield check.problem("is not text", "name the language: en", "language")
    for part, catalogue in (
        ("sentence", CLAIMS),
        ("answer", ANSWERS),
        ("question", dict.fromkeys(ASKED, frozenset[str]())),
        ("meaning", dict.fromkeys(map(str, Standing), frozenset[str]())),
        ("phrase", PHRASES),
    ):
        yield from check.catalogue(part, _table(data.get(part)), catalogue)
    yield from check.standings(_table(data.get("standing")))
    if isinstance(data.get("date"), Mapping):
        yield from check.dates(data["date"])
    for part, keys in (("list", ("between", "last")), ("number", ("decimal",))):
        if isinstance(data.get(part), Mapping):
            yield from check.joints(data[part], keys)
    for kind, terms in _table(data.get("term")).items():
        if not isinstance(terms, Mapping):
            yield check.problem("is not a table", f"write it as [term.{kind}]", kind)
        for key, term in _table(terms).items():
            yield from check.plain(f"{kind}.{key}", key, term)
    care = data.get("care", [])
    for line in care if isinstance(care, list) else [None]:
        said: object = line
        if isinstance(line, Mapping):
            said = line.get("text")
            if line.keys() != {"text", "base"} or line["base"] not in _BASES:
                yield check.problem(
                    "advice for one kind of paper has a text and a base",
                    f'write it as {{ text = "...", base = "{_BASES[0]}" }}',
                    "care",
                )
        yield from check.plain("care", "care", said)


def _table(value: object) -> Mapping[str, Any]:
    """`value` when it is a table, else an empty one."""
    return value if isinstance(value, Mapping) else {}


@dataclass(frozen=True)
class _Check:
    """Finds problems in the wording of one file, each with its line."""

    name: str
    text: str

    def problem(self, what: str, mend: str, key: str = "") -> Problem:
        return Problem(what, self.name, key, mend, self._line(key) if key else None)

    def catalogue(
        self, part: str, texts: Mapping[str, Any], catalogue: Mapping[str, frozenset[str]]
    ) -> Iterator[Problem]:
        """Problems of the sentences or phrases, held against what there must be."""
        for missing in sorted(catalogue.keys() - texts.keys()):
            yield self.problem(f"has no {part} for {missing}", _COPY)
        for key, pattern in texts.items():
            if key not in catalogue:
                yield self.problem("is not a claim or phrase of this program", "take it out", key)
            elif not isinstance(pattern, str):
                yield self.problem("is not text", "put it into quotes", key)
            else:
                yield from self._pattern(key, pattern, catalogue[key], MAY_LACK[part])

    def _pattern(
        self, key: str, pattern: str, known: frozenset[str], may_lack: frozenset[str]
    ) -> Iterator[Problem]:
        for word in sorted(set(WORD.findall(pattern)) - known):
            allowed = ", ".join(sorted(known)) or "no words"
            yield self.problem(f"{{{word}}} is not known here", f"it knows {allowed}", key)
        for word in sorted(set(WORD.findall(OPTIONAL.sub("", pattern))) & may_lack & known):
            yield self.problem(
                f"{{{word}}} is not on every record",
                "put square brackets around the part that needs it",
                key,
            )
        if loose := _LOOSE.search(WORD.sub("", OPTIONAL.sub(r"\1", pattern))):
            yield self.problem(
                f"{loose[0]!r} stands alone",
                "words stand in {braces}, parts that may be left out in [brackets]",
                key,
            )
        yield from self._modest(key, pattern)

    def standings(self, words: Mapping[str, Any]) -> Iterator[Problem]:
        """Problems of the words for standings: one each, and none that belongs to another."""
        names = {str(standing) for standing in Standing}
        for key in sorted(names - words.keys()):
            yield self.problem(f"has no word for {key!r}", "give each standing its word")
        taken: dict[str, str] = {name: name for name in names}
        for key, word in words.items():
            if key not in names:
                yield self.problem("is not a standing", "take it out", key)
                continue
            yield from self.plain(key, key, word)
            owner = taken.setdefault(str(word).strip().casefold(), key)
            if owner != key:
                yield self.problem(
                    f"{word!r} says that it is {owner!r}",
                    "give each standing a word of its own",
                    key,
                )

    def dates(self, table: Mapping[str, Any]) -> Iterator[Problem]:
        """Problems of the words for dates: each shape once, and again where it differs."""
        for missing in sorted((DATES.keys() | LISTS.keys()) - table.keys()):
            yield self.problem(f"has no date for {missing!r}", _COPY)
        for key, value in table.items():
            if key not in PLACES[1:]:
                yield from self._date(key, value)
            elif not isinstance(value, Mapping):
                yield self.problem("is not a table", f"write it as [date.{key}]", key)
            else:
                for name, words in value.items():
                    yield from self._date(name, words)

    def _date(self, key: str, value: object) -> Iterator[Problem]:
        if key in LISTS:
            named = isinstance(value, list) and all(isinstance(one, str) and one for one in value)
            if not (isinstance(value, list) and named and len(value) == LISTS[key]):
                yield self.problem(f"is not a list of {LISTS[key]} names", "give them all", key)
            return
        if key not in DATES:
            yield self.problem("is no shape that a date has", "take it out", key)
        elif not isinstance(value, str):
            yield self.problem("is not text", "put it into quotes", key)
        elif "[" in value:
            yield self.problem("no part of a date is left out", "take the brackets out", key)
        else:
            yield from self._pattern(key, value, DATES[key], frozenset())

    def joints(self, table: Mapping[str, Any], keys: tuple[str, ...]) -> Iterator[Problem]:
        """Problems of what stands between words and within figures."""
        for key in sorted(table.keys() - set(keys)):
            yield self.problem("is not known here", "take it out", key)
        for key in keys:
            if not (isinstance(table.get(key), str) and table[key]):
                yield self.problem(f"has no {key!r}", _COPY, key if key in table else "")

    def plain(self, what: str, key: str, text: object) -> Iterator[Problem]:
        """Problems of a text without words of the record in it."""
        if not isinstance(text, str) or not text.strip():
            yield self.problem(f"{what} is not text", "put it into quotes", key)
        else:
            yield from self._modest(key, text)

    def _modest(self, key: str, text: str) -> Iterator[Problem]:
        if found := FORBIDDEN.search(text):
            yield self.problem(f"{found[0]!r} says more than a record can show", "reword it", key)

    def _line(self, key: str) -> int | None:
        pattern = re.compile(rf'^\s*(?:\[\s*)?"?{re.escape(key)}"?\s*[=\]]', re.MULTILINE)
        found = pattern.search(self.text)
        return self.text.count("\n", 0, found.end()) + 1 if found else None
