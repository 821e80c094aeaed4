"""How claims are put into words, and which wordings are refused."""

import re
import tomllib
from copy import deepcopy
from typing import Any, get_args

import pytest
from hypothesis import given

from provenance.craft.answers import ANSWERS
from provenance.craft.conversion import Saying
from provenance.craft.history import PrintHistory
from provenance.craft.proof import Why
from provenance.craft.statement import CLAIMS, statement
from provenance.craft.wording import Wording, read_wording
from provenance.craft.wording_rules import FORBIDDEN, PHRASES, WORD
from provenance.errors import Problem, Refused
from provenance.model.chemistry import TONERS, Role
from provenance.model.evidence import Amount, Claim, Standing, Term, Treatment
from provenance.model.finish import Drying, Flattening, Occasion, Spotting
from provenance.model.negative import NegativeState
from provenance.model.paper import Base
from provenance.model.prints import Existence
from provenance.model.proof import Method, Specimen, ThiosulfateAs
from provenance.model.quantities import Dilution
from provenance.resources import resource
from tests.craft.test_statement import HISTORIES

EN = tomllib.loads(resource("templates", "wording", "en.toml").read_text("utf-8"))
TREATMENT = "{agent}[ {dilution}] for {time}"
PLAIN: dict[str, Any] = {
    "language": "xx",
    "sentence": dict.fromkeys(CLAIMS, "Said."),
    "phrase": dict.fromkeys(PHRASES, "said")
    | {
        "treatment": TREATMENT,
        "treatment.untimed": "{agent}[ {dilution}], time unknown",
        "treatment.then": "{earlier}; {later}",
    },
    "standing": {str(standing): f"by {place}" for place, standing in enumerate(Standing)},
    "answer": dict.fromkeys(ANSWERS, "Said."),
    **{part: EN[part] for part in ("question", "meaning", "date", "list", "number")},
}


def wording(part: str = "", **changed: Any) -> Wording:
    """A small wording, with some keys of one part changed."""
    data = deepcopy(PLAIN)
    if part:
        data.setdefault(part, {}).update(changed)
    return read_wording(data, name="xx.toml", text="")


def refused(text: str) -> list[Problem]:
    """What is wrong with the small wording once the TOML `text` is added to it."""
    data, more = deepcopy(PLAIN), tomllib.loads(text)
    for part, values in more.items():
        if isinstance(values, dict):
            data.setdefault(part, {}).update(values)
        else:
            data[part] = values
    with pytest.raises(Refused) as caught:
        read_wording(data, name="xx.toml", text=text)
    return list(caught.value.problems)


def claim(name: str, **words: Any) -> Claim:
    return Claim(id=name, section="made", standing=Standing.LOGGED, evidence=(1,), words=words)


def test_a_part_whose_word_is_missing_or_empty_is_left_out() -> None:
    said = wording("sentence", **{"made.paper": "On {base}[: {qualities}]."})
    assert said.sentence(claim("made.paper", base="fibre", qualities=("a", "b"))) == (
        "On fibre: a, b."
    )
    assert said.sentence(claim("made.paper", base="fibre", qualities=())) == "On fibre."
    assert said.sentence(claim("made.paper", base="fibre")) == "On fibre."


def test_what_a_record_holds_is_never_read_as_a_pattern() -> None:
    said = wording("sentence", **{"made.paper": "On {base}[: {qualities}]."})
    typed = claim("made.paper", base="{qualities} [x]", qualities=("{base}",))
    assert said.sentence(typed) == "On {qualities} [x]: {base}."


@pytest.mark.parametrize(
    ("ng", "said"), [(900, "0.9"), (12_345, "12.345"), (2_000, "2"), (10**9, "1000000"), (0, "0")]
)
def test_an_amount_is_given_in_full(ng: int, said: str) -> None:
    held = wording("sentence", **{"tested.silver.measured": "{amount}"})
    assert held.sentence(claim("tested.silver.measured", amount=Amount(ng))) == f"{said} µg/cm²"


def test_treatments_are_joined_and_fall_back_on_their_role() -> None:
    said = wording("sentence", **{"made.fixed": "{baths}."}).sentence
    thin = Dilution(typed="1+4", parts_hundredths=(100, 400))
    baths = (Treatment("fix", "rapid\n fixer ", thin, 60_000), Treatment("fix", " ", None, None))
    assert said(claim("made.fixed", baths=baths)) == (
        "rapid fixer 1+4 for 1 min; fix, time unknown."
    )


def test_an_unknown_term_is_said_as_it_is_named() -> None:
    held = wording("term", method={"sulfide spot": "a drop"})
    assert (held.term("method", "sulfide spot"), held.term("method", "other")) == (
        "a drop",
        "other",
    )


@pytest.mark.parametrize(
    ("text", "line", "what"),
    [
        ('\n[sentence]\n"made.glorious" = "x."', 3, "not a claim"),
        ('[phrase]\n"motto" = "x"', 2, "not a claim or phrase"),
        ('[sentence]\n\n"made.paper" = "{surface}."', 3, "{surface} is not known"),
        ('[sentence]\n"unknown.fixed" = "{when}."', 2, "{when} is not known"),
        ('[sentence]\n"made.paper" = "{base}, {qualities}."', 2, "not on every record"),
        ('[phrase]\n"signed" = "{day}, {medium}"', 2, "not on every record"),
        ('[sentence]\n"made.paper" = "{base."', 2, "'{' stands alone"),
        ('[sentence]\n"made.paper" = "[[{qualities}]]"', 2, "stands alone"),
        ('[sentence]\n"made.paper" = 3', 2, "is not text"),
        ('[sentence]\n"made.paper" = "An archival paper."', 2, "'archival'"),
        ('[phrase]\n"process" = "Museum-quality print"', 2, "'Museum-quality'"),
        ('[term.method]\n"sulfide spot" = "which proved"', 2, "'proved'"),
        ('care = ["It lasts for ever"]', 1, "'lasts for'"),
        ("care = 3", 1, "is not text"),
        ('care = [{ text = "Dry.", base = "glass" }]', 1, "has a text and a base"),
        ('care = [{ text = "Archival.", base = "fibre" }]', 1, "'Archival'"),
        ('[answer]\n"time.same" = "{years}"', 2, "{years} is not known"),
        ('[answer]\n"time.later" = "{least_years}"', 2, "not on every record"),
        ('[question]\nkept = "For {years}?"', 2, "{years} is not known"),
        ('[meaning]\nlogged = "proved"', 2, "'proved'"),
        ("[standing]\nlogged = 'authentic'", 2, "'authentic'"),
        ("[standing]\nguessed = 'guessed'", 2, "is not a standing"),
        ("term = 3", 1, "is not a table"),
        ("[term]\nmethod = 3", 2, "is not a table"),
        ("[date]\nyear = 3", 2, "is not text"),
        ("[date]\nyear = '[{year}]'", 2, "no part of a date is left out"),
        ("[date]\nyear = '{month} {year}'", 2, "{month} is not known"),
        ("[date]\nyear = '{year'", 2, "'{' stands alone"),
        ("[date]\nyear = '{year}, archival'", 2, "'archival'"),
        ("[date]\neaster = '{year}'", 2, "no shape that a date has"),
        ("[date]\nmonths = ['January']", 2, "not a list of 12 names"),
        ("[date.when]\nseasons = 'spring'", 2, "not a list of 4 names"),
        ("[date]\nwhen = 3", 2, "is not a table"),
        ("[list]\nfirst = 'x'", 2, "is not known here"),
        ("[list]\nlast = ''", 2, "has no 'last'"),
        ("[number]\ndecimal = 3", 2, "has no 'decimal'"),
        ("date = 3", 1, "is not a table"),
        ("[motto]\nx = 'y'", 1, "'motto' is not a part"),
    ],
)
def test_a_wording_is_refused_at_its_line(text: str, line: int, what: str) -> None:
    (problem,) = refused(text)
    assert what in problem.what
    assert problem.line == line
    assert problem.mend
    assert problem.record == "xx.toml"


@pytest.mark.parametrize("word", ["measured", " Measured", "tested by eye", "by 2"])
def test_no_template_can_raise_a_standing(word: str) -> None:
    (problem,) = refused(f"[standing]\n'entered later, from memory' = '{word}'")
    assert "says that it is" in problem.what


@pytest.mark.parametrize("part", ["sentence", "answer", "question", "meaning", "phrase"])
def test_nothing_may_be_left_unsaid(part: str) -> None:
    data = deepcopy(PLAIN)
    missing = sorted(data[part])[0]
    del data[part][missing]
    with pytest.raises(Refused, match=re.escape(f"has no {part} for {missing}")):
        read_wording(data, name="xx.toml", text="")
    del data[part]
    with pytest.raises(Refused, match=f"has no '{part}'"):
        read_wording(data, name="xx.toml", text="")


@pytest.mark.parametrize("part", ["date", "list", "number"])
def test_what_a_language_is_made_of_may_not_be_missing(part: str) -> None:
    data = deepcopy(PLAIN)
    missing = sorted(data[part])[0]
    del data[part][missing]
    with pytest.raises(Refused, match=f"has no (date for )?'{missing}'"):
        read_wording(data, name="xx.toml", text="")
    del data[part]
    with pytest.raises(Refused, match=f"has no '{part}'"):
        read_wording(data, name="xx.toml", text="")


def test_a_standing_without_a_word_is_refused() -> None:
    data = deepcopy(PLAIN)
    del data["standing"]["logged"]
    with pytest.raises(Refused, match="has no word for 'logged'"):
        read_wording(data, name="xx.toml", text="")


PATHS = sorted(resource("templates", "wording").glob("*.toml"))
SHIPPED = [
    read_wording(
        tomllib.loads(path.read_text("utf-8")), name=path.name, text=path.read_text("utf-8")
    )
    for path in PATHS
]
every_shipped = pytest.mark.parametrize("shipped", SHIPPED, ids=lambda held: held.language)


@every_shipped
def test_the_shipped_wording_has_a_term_for_every_word_that_the_code_uses(shipped: Wording) -> None:
    for kind, names in {
        "method": get_args(Method),
        "specimen": get_args(Specimen),
        "base": get_args(Base),
        "base_explained": get_args(Base),
        "toner": TONERS,
        "negative_state": get_args(NegativeState),
        "discounted": get_args(Why),
        "coverage": get_args(Saying),
        "species": get_args(ThiosulfateAs),
        "drying": get_args(Drying),
        "flattening": get_args(Flattening),
        "spotting": get_args(Spotting),
        "occasion": get_args(Occasion),
        "existence": {*get_args(Existence)} - {"exists"},
    }.items():
        assert set(names) <= shipped.terms[kind].keys(), kind
    assert shipped.terms["role"].keys() <= set(get_args(Role)), "a role that does not exist"


@pytest.mark.parametrize("shipped", [one for one in SHIPPED if one.language != "en"])
def test_no_english_word_is_left_in_another_language(shipped: Wording) -> None:
    for kind, names in EN["term"].items():
        assert names.keys() <= shipped.terms[kind].keys(), kind
    unsaid = {"presoak", "rinse"}
    assert shipped.terms["role"].keys() == set(get_args(Role)) - unsaid
    english = EN["sentence"] | EN["answer"]
    assert not {*shipped.sentences.values()} & {*english.values()}
    assert not {*shipped.questions.values()} & {*EN["question"].values()}
    assert not {*shipped.meanings.values()} & {*EN["meaning"].values()}
    for texts, others in ((shipped.sentences, english), (shipped.phrases, EN["phrase"])):
        for name, text in texts.items():
            assert set(WORD.findall(text)) == set(WORD.findall(others[name])), name


@given(held=HISTORIES)
def test_the_shipped_wording_says_every_claim_in_a_whole_sentence(held: PrintHistory) -> None:
    for shipped in SHIPPED:
        for one in statement(held):
            said = shipped.sentence(one)
            assert said[0].isupper()
            assert said.endswith(".")
            assert not re.search(r"[][{}]|  |\.\.| [,.;]|\( *\)", said), said
            assert not FORBIDDEN.search(said)
            for word in one.words.values():
                if isinstance(word, Term):
                    assert shipped.term(word.kind, word.name) in said


@every_shipped
def test_a_sentence_that_came_later_says_when_it_was_entered(shipped: Wording) -> None:
    for name, words in CLAIMS.items():
        if "entered" in words:
            assert "{entered}" in shipped.sentences[name], name


BOASTS = [
    "qualité d’archives",
    "tirage permanent",
    "infalsifiable",
    "authentifié",
    "authentique",
    "espérance de vie",
    "de qualité muséale",
    "il est prouvé",
    "entièrement fixé",
    "parfaitement lavée",
    "se conserve cent ans",
    "garanti",
    "archival",
    "museum quality",
    "tamper-proof",
    "LE-500",
    "LE 100",
    "le-100",
    "meets ISO 18929",
]


@pytest.mark.parametrize("boast", BOASTS)
def test_a_boast_is_refused_in_any_language(boast: str) -> None:
    (problem,) = refused(f'[sentence]\n"unknown.fixed" = "Ce tirage est {boast}."')
    assert "more than a record can show" in problem.what


@pytest.mark.parametrize(
    "plain",
    ["Archives de la ville", "papier baryté", "virée au sélénium", "le 2 mars", "Le 12 mai"],
)
def test_plain_words_are_no_boast(plain: str) -> None:
    assert not FORBIDDEN.search(plain)


@every_shipped
def test_two_baths_are_claimed_by_one_sentence_only(shipped: Wording) -> None:
    said = {name: shipped.sentences[name] for name in CLAIMS if name.startswith("made.fixed")}
    assert len(set(said.values())) == len(said)
