"""The texts of the rules, read from TOML text and checked to be whole."""

import tomllib
import unicodedata

import msgspec

from provenance.craft.sequence.finding import CASES, Fault, Finding
from provenance.errors import Problem, Refused
from provenance.model.sources import Grade, Sourced
from provenance.toml import read_toml

TRAITS = frozenset({"plain hypo", "not acid", "strong acid", "eliminator"})
"""What words on a bottle can tell of a bath."""


class RuleText(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """What one case says: the rule, its reason, what to do, and whose word it is."""

    rule: str
    why: str
    do: str
    grade: Grade
    source: str = ""


class Rules(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """The texts of all cases, and the words by which a bath is known."""

    case: dict[str, RuleText]
    words: dict[str, tuple[str, ...]]

    def tell(self, fault: Fault) -> Finding:
        """`fault` with its reason, what to do, and the source."""
        text = self.case[fault.case]
        ids = [deed.record for deed in fault.deeds] + [asked.record for asked in fault.asked]
        ids += [deed.bath_id for deed in fault.deeds if deed.bath_id is not None]
        return Finding(
            rule=fault.case.partition(".")[0],
            case=fault.case,
            level=fault.level,
            what=fault.what,
            why=text.why,
            do=text.do,
            source=Sourced(text.grade, text.source),
            steps=(
                *(deed.name for deed in fault.deeds),
                *(asked.name for asked in fault.asked),
            ),
            evidence=tuple(dict.fromkeys(one for one in ids if one)),
            basis=fault.basis,
            answered_by=fault.answered_by,
            blocks=fault.blocks,
        )

    def says(self, trait: str, words: str) -> bool:
        """Whether `words`, in lower case, tell that a bath has `trait`."""
        return any(word in words for word in self.words[trait])


def read_rules(text: str, *, name: str = "rules.toml") -> Rules:
    """The texts in the TOML `text` of the file `name`.

    Raises Refused for text that does not fit, and for every case or trait that
    is missing, invented or without words.
    """
    try:
        rules = msgspec.convert(read_toml(unicodedata.normalize("NFC", text)), Rules)
    except (tomllib.TOMLDecodeError, msgspec.ValidationError) as error:
        raise Refused(
            Problem(what=f"cannot be read: {error}", record=name, mend="mend it there")
        ) from error
    problems = [
        Problem(what=f"{kind} {key} {wrong}", record=name, mend=mend)
        for kind, there, wanted in (
            ("case", rules.case.keys(), CASES.keys()),
            ("words for", rules.words.keys(), TRAITS),
        )
        for keys, wrong, mend in (
            (wanted - there, "is missing", "copy it from the rules that came with the program"),
            (there - wanted, "is not of this program", "take it out"),
        )
        for key in sorted(keys)
    ]
    problems += [
        Problem(what=f"case {key} has no {part}", record=name, field=part, mend="write it")
        for key, case in rules.case.items()
        for part in ("rule", "why", "do")
        if not getattr(case, part).strip()
    ]
    if problems:
        raise Refused(*problems)
    return rules
