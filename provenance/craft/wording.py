"""Puts claims into words: the wording of a language is data, checked before use.

A sentence names its words in braces; a part in square brackets is left out when
a word in it is missing: ``left {reading}[ after {time}]``.  A wording can
neither invent a claim nor change its standing, and some words it may not use.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import reduce
from typing import Any

from provenance.craft.wording_dates import Dates, read_dates
from provenance.craft.wording_rules import OPTIONAL, WORD, problems_of
from provenance.errors import Refused
from provenance.model.evidence import (
    Amount,
    Claim,
    Lasting,
    Portion,
    Standing,
    Term,
    Treatment,
    When,
    Word,
)
from provenance.model.paper import Base
from provenance.model.quantities import Size
from provenance.model.quantity_text import Units, format_dilution, format_duration, format_size


@dataclass(frozen=True)
class Advice:
    """A line of advice on keeping, and the base of paper that it is for; None for any."""

    text: str
    base: Base | None = None


@dataclass(frozen=True)
class Wording:
    """The words of one language."""

    language: str
    phrases: Mapping[str, str]
    sentences: Mapping[str, str]
    terms: Mapping[str, Mapping[str, str]]
    standings: Mapping[Standing, str]
    questions: Mapping[str, str]
    meanings: Mapping[Standing, str]
    """What each standing means, for who reads it for the first time."""
    care: tuple[Advice, ...]
    dates: Dates
    between: str
    """What stands between the members of a list."""
    last: str
    """What stands before the last of them."""
    decimal: str
    """The mark before decimals."""

    def sentence(self, claim: Claim) -> str:
        """`claim` in words."""
        return self._fill(self.sentences[claim.id], claim.words)

    def phrase(self, name: str, /, **words: Word) -> str:
        """One of `PHRASES` in words; parts whose words are empty are left out."""
        return self._fill(self.phrases[name], words)

    def _fill(self, pattern: str, given: Mapping[str, Word]) -> str:
        words = {name: self._say(word) for name, word in given.items()}

        def part(match: re.Match[str]) -> str:
            wanted = WORD.findall(match[1])
            return match[1] if all(words.get(name) for name in wanted) else ""

        text = OPTIONAL.sub(part, pattern)
        return WORD.sub(lambda match: words.get(match[1], ""), text)

    def standing(self, standing: Standing) -> str:
        """`standing` in words."""
        return self.standings[standing]

    def advice(self, base: Base | None) -> tuple[str, ...]:
        """The advice for a print on paper of that base; all of it where that is not known."""
        return tuple(
            one.text for one in self.care if one.base is None or base is None or one.base == base
        )

    def term(self, kind: str, name: str) -> str:
        """A word of the trade; the name itself where the wording has no other."""
        return self.terms.get(kind, {}).get(name, name)

    def date(self, edtf: str) -> str:
        """A date (EDTF) as it stands alone."""
        return self.dates.say(edtf)

    def size(self, size: Size, units: Units) -> str:
        """A size with the decimals of the language."""
        return self._figures(format_size(size, units))

    def listed(self, names: Sequence[str]) -> str:
        """Names in a row, the last one joined by its own word."""
        return self.last.join(filter(None, (self.between.join(names[:-1]), *names[-1:])))

    def _figures(self, text: str) -> str:
        """Figures that the program formed, with the decimal mark of the language."""
        return text.replace(".", self.decimal)

    def _say(self, word: Word) -> str:
        match word:
            case When(edtf):
                return self.dates.say(edtf, "when")
            case Lasting(duration_ms):
                return self._figures(format_duration(duration_ms))
            case Term(kind, name):
                return self.term(kind, name)
            case Amount(ng_per_cm2):
                return f"{self._figures(_thousandths(ng_per_cm2))} µg/cm²"
            case (Treatment(), *_):
                said = (self._treatment(one) for one in word if isinstance(one, Treatment))
                return reduce(
                    lambda earlier, later: self.phrase(
                        "treatment.then", earlier=earlier, later=later
                    ),
                    said,
                )
            case (Portion(), *_):
                return self.listed([self._portion(one) for one in word if isinstance(one, Portion)])
            case (Term(), *_):
                return self.listed([self._say(one) for one in word if isinstance(one, Term)])
            case tuple():
                return self.between.join(_one_line(str(one)) for one in word)
            case _:
                return _one_line(str(word))

    def _portion(self, portion: Portion) -> str:
        return self.phrase(
            "portion",
            percent=str(round(portion.permille / 10)),
            density=self._figures(f"{portion.density_md / 1000:.2f}"),
        )

    def _treatment(self, treatment: Treatment) -> str:
        agent = treatment.agent.strip() or self.term("role", treatment.role)
        dilution = self._figures(format_dilution(treatment.dilution)) if treatment.dilution else ""
        if treatment.duration_ms is None:
            return self.phrase("treatment.untimed", agent=agent, dilution=dilution)
        time = self._figures(format_duration(treatment.duration_ms))
        return self.phrase("treatment", agent=agent, dilution=dilution, time=time)


def _one_line(text: str) -> str:
    """What a person wrote in a field, as it stands in a sentence."""
    return " ".join(text.split())


def _thousandths(amount: int) -> str:
    """`amount` thousandths, in full and without zeros that say nothing."""
    whole, rest = divmod(amount, 1000)
    return f"{whole}.{rest:03d}".rstrip("0").rstrip(".")


def _advice(line: str | Mapping[str, Any]) -> Advice:
    return Advice(line) if isinstance(line, str) else Advice(line["text"], line["base"])


def read_wording(data: Mapping[str, Any], *, name: str, text: str) -> Wording:
    """The wording in `data`, parsed from the TOML `text` of the file `name`.

    Raises Refused with every claim that is unknown or missing, every word that
    a sentence may not use, and the line of each.
    """
    problems = list(problems_of(data, name, text))
    if problems:
        raise Refused(*problems)
    return Wording(
        language=data["language"],
        sentences={**data["sentence"], **data["answer"]},
        questions=data["question"],
        meanings={Standing(key): value for key, value in data["meaning"].items()},
        phrases=data["phrase"],
        terms=data.get("term", {}),
        standings={Standing(key): value for key, value in data["standing"].items()},
        care=tuple(_advice(line) for line in data.get("care", ())),
        dates=read_dates(data["date"]),
        between=data["list"]["between"],
        last=data["list"]["last"],
        decimal=data["number"]["decimal"],
    )
