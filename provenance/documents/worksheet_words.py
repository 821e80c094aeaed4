"""The words of the worksheet, by language; read from TOML text."""

import tomllib
import unicodedata
from string import Formatter
from typing import Literal

import msgspec

from provenance.errors import Problem, Refused
from provenance.resources import resource
from provenance.toml import read_toml

FILE = "worksheet.toml"
_NAMES = {
    "title": "print image",
    "about": "negative paper sheets",
    "base": "seconds",
    "band": "low high",
    "part": "seconds grade",
    "grade": "grade",
    "magnification": "times",
    "first_tone": "seconds",
    "burn": "seconds",
    "dodge": "seconds",
    "at_grade": "deed grade",
    "then_now": "then now",
    "of": "amount what",
    "water": "amount",
    "no_bottle": "what",
    "no_strength": "what",
    "target": "density tolerance",
    "predicted": "density error",
    "runner_up": "grade rms spot worst",
    "washing": "study",
}
"""What each pattern may name; the others are plain words."""
_QUESTIONS = {"paper", "why", "seconds", "mask", "spot", "density"}


class MatchWords(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Words of the report of a match."""

    title: str
    matches: str
    differs: str
    spot: str
    then: str
    off: str
    allowed: str
    verdict: str
    yes: str
    no: str
    unread: str
    held_to: str
    accepted: str
    rejected: str
    undecided: str
    sketch: str
    picture: str


_MATCH_NAMES = {
    "title": "print reference",
    "differs": "where",
    "held_to": "light light_from dark dark_to colour source",
    "accepted": "on by why",
    "rejected": "on by why",
}


class WorksheetWords(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Words of one language; what stands in braces is filled in."""

    title: str
    about: str
    base: str
    band: str
    part: str
    grade: str
    magnification: str
    first_tone: str
    diffuse: str
    condenser: str
    areas: str
    burn: str
    dodge: str
    at_grade: str
    trays: str
    then_now: str
    not_then: str
    left_out: str
    to_mix: str
    of: str
    water: str
    no_bottle: str
    no_strength: str
    targets: str
    target: str
    predicted: str
    questions: str
    missing: str
    cautions: str
    next_best: str
    runner_up: str
    exposure: str
    density: str
    target_axis: str
    predicted_axis: str
    curves: str
    tones: str
    minutes: str
    left: str
    washing: str
    crop: str
    match: MatchWords
    say_missing: dict[str, str] = {}
    say_question: dict[str, str] = {}
    say_caution: dict[str, str] = {}


class _File(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """The whole file."""

    form: Literal[1]
    words: dict[str, WorksheetWords]


def read_worksheet_words(text: str, language: str, name: str = FILE) -> WorksheetWords:
    """The words of `language` in the TOML `text` of the file `name`.

    Raises Refused for what is unknown, missing or not of its kind, for a pattern
    that names what nothing fills in, and for a language that is not there.
    """
    try:
        found = msgspec.convert(read_toml(unicodedata.normalize("NFC", text)), _File)
    except (tomllib.TOMLDecodeError, msgspec.ValidationError) as error:
        raise _refused(f"cannot be read: {error}", name) from error
    if language not in found.words:
        known = ", ".join(found.words)
        raise _refused(f"there are no words in {language!r}, only in {known}", name)
    words = found.words[language]
    for field in words.__struct_fields__:
        pattern = getattr(words, field)
        if isinstance(pattern, str):
            _check(pattern, set(_NAMES.get(field, "").split()), field, name)
    for field in words.match.__struct_fields__:
        known_here = set(_MATCH_NAMES.get(field, "").split())
        _check(getattr(words.match, field), known_here, f"match.{field}", name)
    for key, pattern in words.say_question.items():
        _check(pattern, _QUESTIONS, f"say_question.{key}", name)
    return words


def shipped_worksheet_words(language: str = "en") -> WorksheetWords:
    """The words that come with the program."""
    return read_worksheet_words(resource("templates", FILE).read_text("utf-8"), language)


def _check(pattern: str, known: set[str], field: str, name: str) -> None:
    try:
        named = {one for _text, one, _format, _as in Formatter().parse(pattern) if one is not None}
    except ValueError as error:
        raise _refused(f"a brace in {pattern!r} is not closed", name, field) from error
    if named - known:
        raise _refused(f"nothing fills in {', '.join(sorted(named - known)) or '{}'}", name, field)


def _refused(what: str, name: str, field: str = "") -> Refused:
    mend = f"compare it with the {FILE} that comes with the program"
    return Refused(Problem(what=what, record=name, field=field, mend=mend))
