"""The fixed words of rolls, in the language of a studio."""

import re
import tomllib
import unicodedata
from collections.abc import Mapping
from functools import cache

from provenance.errors import Problem, Refused
from provenance.resources import resource
from provenance.studio.folder import StudioFolder
from provenance.toml import read_toml

FILE = "roll.toml"
_BRACES = re.compile(r"\{(\w+)\}")


class Words:
    """Words by their names, with what comes from the record put into their braces."""

    def __init__(self, said: Mapping[str, str]) -> None:
        self._said = said

    def __call__(self, name: str, /, **given: object) -> str:
        """The words called `name`.  What is given is never searched for braces."""
        return _BRACES.sub(lambda found: str(given[found[1]]), self._said[name])

    def as_labels(self) -> dict[str, str]:
        """What the page itself needs."""
        return {name: self._said[name] for name in ("continued", "page_of")}


def load_words(folder: StudioFolder, language: str) -> Words:
    """The words of `language`: the studio's own where it has them.

    Raises Refused for a file that lacks words, or has others in braces than the
    one that comes with the program.
    """
    return read_words(folder.template(FILE).read_text(encoding="utf-8"), language)


def read_words(text: str, language: str) -> Words:
    """The words of `language` in the TOML `text`.  Raises Refused."""
    try:
        data = read_toml(unicodedata.normalize("NFC", text))
    except tomllib.TOMLDecodeError as error:
        raise _refused(f"not TOML: {error}") from error
    spoken = data.get("words")
    if data.get("form") != 1 or not isinstance(spoken, dict):
        raise _refused("form must be 1, with a table [words]")
    if language not in spoken:
        raise _refused(f"there are no words in {language!r}, only in {', '.join(spoken)}")
    said, shipped = _flat(spoken[language]), _shipped()
    for name in shipped.keys() | said.keys():
        if name not in said or name not in shipped:
            raise _refused(f"{name} is {'missing' if name in shipped else 'not known'}", name)
        if set(_BRACES.findall(said[name])) - set(_BRACES.findall(shipped[name])):
            raise _refused(f"{name} has words in braces that the record does not give", name)
    return Words(said)


@cache
def _shipped() -> dict[str, str]:
    text = resource("templates", FILE).read_text(encoding="utf-8")
    return _flat(read_toml(text)["words"]["en"])


def _flat(table: object, before: str = "") -> dict[str, str]:
    """Words within words are called ``topic.print``."""
    if not isinstance(table, dict):
        raise _refused("[words] holds tables of words, one for each language")
    found: dict[str, str] = {}
    for name, value in table.items():
        if isinstance(value, dict):
            found |= _flat(value, f"{before}{name}.")
        elif isinstance(value, str) and value.strip():
            found[f"{before}{name}"] = value
        else:
            raise _refused(f"{before}{name} needs words", f"{before}{name}")
    return found


def _refused(what: str, field: str = "") -> Refused:
    return Refused(
        Problem(what, FILE, field, "compare it with the roll.toml that comes with the program")
    )
