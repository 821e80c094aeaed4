"""The English wording: everyday words, and words of the trade that it explains in place.

The list is our own choice of words that a reader without a darkroom knows; a
word that is missing from it is to be replaced, explained, or added with a reason.
"""

import re
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from provenance.craft.wording_rules import WORD
from provenance.resources import resource

EN = tomllib.loads(resource("templates/wording/en.toml").read_text("utf-8"))
EVERYDAY = set(Path(__file__).with_name("everyday.txt").read_text("utf-8").split())
EXPLAINED = {
    "developed developer": "which brings out the picture",
    "fixed fixer fixing": "takes out the silver that light did not reach",
    "bleach bleached bleaching": "which lightens the picture",
    "toned toner toning": "which changes the silver of the picture",
    "stabilised stabiliser": "a last bath that stays in the paper",
    "thiosulfate": "the salt of the fixing bath",
    "silver-sulfide methylene-blue iodine-amylose": "a chemical measurement",
    "nitrate": "which stains where salt of the fixing bath is left",
    "sulfide selenium": "which stains where silver is left",
    "density densities": "density is how dark a patch is",
    "fibre-based": "without a layer of plastic",
    "resin-coated": "between layers of plastic",
    "facsimile": "A copied signature",
    "proofs": "for the artist (artist’s proofs)",
    "hors commerce": "not for sale",
    "digests": "are worked out from the record and the journal",
}
"""Words of the trade, and what stands beside them where they come first."""
NAMED = {
    "adhesive", "ammonium", "bath", "baths", "blotters", "dye", "edition", "enclosure", "gelatin",
    "gold", "h", "journal", "negative",
    "oxidising", "pigment", "posthumous", "sodium", "thiourea", "w",
}  # fmt: skip
"""Names of substances and things; to replace them would say less."""


def texts(part: Any) -> Iterator[str]:
    """Every text in a part of the wording, without the words that a record puts in."""
    if isinstance(part, str):
        yield WORD.sub("", part)
    elif isinstance(part, dict):
        for held in part.values():
            yield from texts(held)


def words(text: str) -> set[str]:
    """The words of a text."""
    return {one.lower() for one in re.findall(r"[A-Za-z’-]+", text)} - {"-"}


SAID = [
    text
    for part in ("sentence", "answer", "question", "phrase", "meaning", "standing", "term")
    for text in texts(EN[part])
]


def test_every_word_is_everyday_or_explained() -> None:
    explained = {one for names in EXPLAINED for one in names.split()}
    strange = {word for text in SAID for word in words(text)} - EVERYDAY - explained - NAMED
    assert not strange


@pytest.mark.parametrize("names", EXPLAINED)
def test_a_word_of_the_trade_is_explained_beside_it(names: str) -> None:
    meant = EXPLAINED[names]
    held = [text for text in SAID if meant in text]
    assert held, f"nothing says {meant!r}"
    assert any(words(text) & set(names.split()) for text in held)


def test_no_word_of_the_lists_is_unused() -> None:
    used = {word for text in SAID for word in words(text)}
    explained = {one for names in EXPLAINED for one in names.split()}
    assert (EVERYDAY | explained | NAMED) <= used
