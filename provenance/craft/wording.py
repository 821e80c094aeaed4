"""Puts claims into words: the wording of a language is data, checked before use.

A sentence names its words in braces; a part in square brackets is left out when
a word in it is missing: ``left {reading}[ after {time}]``.  A wording can
neither invent a claim nor change its standing, and some words it may not use.
"""

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import reduce
from typing import Any

from provenance.craft.statement import CLAIMS
from provenance.errors import Problem, Refused
from provenance.model.dates import Moment, format_edtf, parse_edtf
from provenance.model.evidence import (
    Amount,
    Claim,
    Lasting,
    Standing,
    Term,
    Treatment,
    When,
    Word,
)
from provenance.model.quantity_text import format_dilution, format_duration

_WORD = re.compile(r"\{(\w+)\}")
_OPTIONAL = re.compile(r"\[([^][]*)\]")

FORBIDDEN = re.compile(
    r"\b(?:archival|archivally|permanent(?:ly)?|museum[- ]quality|tamper[- ]?proof|authentic\w*"
    r"|life expectancy|LE[- ]?\d+|ISO ?18929|proved|completely fixed|fully toned|lasts? for)\b",
    re.IGNORECASE,
)
"""Words that claim more than any record can show (handbook of the trade)."""


PHRASES: dict[str, frozenset[str]] = {
    name: frozenset(words.split())
    for names, words in {
        "caption": "image sheet",
        "process": "toners",
        "treatment": "agent dilution time",
        "treatment.untimed": "agent dilution",
        "treatment.then": "earlier later",
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
    }.items()
    for name in names.split()
}
"""Short texts beside the statement, and the words that each may use."""


@dataclass(frozen=True)
class Wording:
    """The words of one language."""

    language: str
    phrases: Mapping[str, str]
    sentences: Mapping[str, str]
    terms: Mapping[str, Mapping[str, str]]
    standings: Mapping[Standing, str]
    care: tuple[str, ...]

    def sentence(self, claim: Claim) -> str:
        """`claim` in words."""
        return self._fill(self.sentences[claim.id], claim.words)

    def phrase(self, name: str, /, **words: Word) -> str:
        """One of `PHRASES` in words; parts whose words are empty are left out."""
        return self._fill(self.phrases[name], words)

    def _fill(self, pattern: str, given: Mapping[str, Word]) -> str:
        words = {name: self._say(word) for name, word in given.items()}

        def part(match: re.Match[str]) -> str:
            wanted = _WORD.findall(match[1])
            return match[1] if all(words.get(name) for name in wanted) else ""

        text = _OPTIONAL.sub(part, pattern)
        return _WORD.sub(lambda match: words.get(match[1], ""), text)

    def standing(self, standing: Standing) -> str:
        """`standing` in words."""
        return self.standings[standing]

    def term(self, kind: str, name: str) -> str:
        """A word of the trade; the name itself where the wording has no other."""
        return self.terms.get(kind, {}).get(name, name)

    def _say(self, word: Word) -> str:
        match word:
            case When(edtf):
                return _when(edtf)
            case Lasting(duration_ms):
                return format_duration(duration_ms)
            case Term(kind, name):
                return self.term(kind, name)
            case Amount(ng_per_cm2):
                return f"{ng_per_cm2 / 1000:g} µg/cm²"
            case (Treatment(), *_):
                said = (self._treatment(one) for one in word if isinstance(one, Treatment))
                return reduce(
                    lambda earlier, later: self.phrase(
                        "treatment.then", earlier=earlier, later=later
                    ),
                    said,
                )
            case tuple():
                return ", ".join(str(one) for one in word)
            case _:
                return str(word)

    def _treatment(self, treatment: Treatment) -> str:
        agent = treatment.agent or self.term("role", treatment.role)
        dilution = format_dilution(treatment.dilution) if treatment.dilution else ""
        if treatment.duration_ms is None:
            return self.phrase("treatment.untimed", agent=agent, dilution=dilution)
        time = format_duration(treatment.duration_ms)
        return self.phrase("treatment", agent=agent, dilution=dilution, time=time)


def _when(edtf: str) -> str:
    """A date with its preposition: on a day, in a month or year, as written otherwise."""
    read = parse_edtf(edtf)
    text = format_edtf(read)
    start = read.start
    if read.is_interval or not isinstance(start, Moment) or start.qualifier:
        return text
    return f"on {text}" if start.day.isdecimal() else f"in {text}"


def read_wording(data: Mapping[str, Any], *, name: str, text: str) -> Wording:
    """The wording in `data`, parsed from the TOML `text` of the file `name`.

    Raises Refused with every claim that is unknown or missing, every word that
    a sentence may not use, and the line of each.
    """
    problems = list(_problems(data, name, text))
    if problems:
        raise Refused(*problems)
    return Wording(
        language=data["language"],
        sentences=data["sentence"],
        phrases=data["phrase"],
        terms=data.get("term", {}),
        standings={Standing(key): value for key, value in data["standing"].items()},
        care=tuple(data.get("care", ())),
    )


def _problems(data: Mapping[str, Any], name: str, text: str) -> Iterator[Problem]:
    def problem(what: str, mend: str, key: str = "") -> Problem:
        return Problem(what, name, key, mend, _line(text, key) if key else None)

    known = {"language", "sentence", "phrase", "standing", "term", "care"}
    for key in data.keys() - known:
        yield problem(f"{key!r} is not a part of a wording", "take it out", key)
    for part in ("language", "sentence", "phrase", "standing"):
        if part not in data:
            yield problem(f"has no {part!r}", "copy it from the wording that came with the program")
    for part, catalogue in (("sentence", CLAIMS), ("phrase", PHRASES)):
        texts = data.get(part, {})
        for missing in sorted(catalogue.keys() - texts.keys()):
            yield problem(
                f"has no {part} for {missing}", "copy it from the wording that came along"
            )
        for key, text_of_key in texts.items():
            yield from _text_problems(catalogue, key, text_of_key, problem)
    standings = data.get("standing", {})
    for key in standings.keys() ^ {str(standing) for standing in Standing}:
        yield problem(
            "is not a standing" if key in standings else f"has no word for {key!r}",
            "give each standing its word",
            key if key in standings else "",
        )


def _text_problems(
    catalogue: Mapping[str, frozenset[str]],
    key: str,
    text: str,
    problem: Callable[[str, str, str], Problem],
) -> Iterator[Problem]:
    if key not in catalogue:
        yield problem("is not a claim or phrase of this program", "take it out", key)
        return
    for word in sorted(set(_WORD.findall(text)) - catalogue[key]):
        allowed = ", ".join(sorted(catalogue[key])) or "no words"
        yield problem(f"{{{word}}} is not known here", f"it knows {allowed}", key)
    if found := FORBIDDEN.search(text):
        yield problem(f"{found[0]!r} says more than a record can show", "reword it", key)


def _line(text: str, key: str) -> int | None:
    pattern = re.compile(rf'^\s*(?:\[\s*)?"?{re.escape(key)}"?\s*[=\]]', re.MULTILINE)
    found = pattern.search(text)
    return text.count("\n", 0, found.end()) + 1 if found else None
