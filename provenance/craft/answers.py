"""What a collector or a conservator usually asks of a print, and which claims answer it.

Most of an answer is the statement, put under the question that each sentence
answers; what a statement leaves to the particulars of a certificate (which
number, how many there are, how long after the negative) is added here.  Every
sentence keeps its standing, and what is unknown is said.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Literal

from provenance.craft.counting import within
from provenance.craft.history import PrintHistory
from provenance.craft.standing import printing_standing, standing_of
from provenance.craft.statement import statement
from provenance.model.dates import earliest, is_bounded, latest
from provenance.model.evidence import Claim, Standing, Term, When, Word, weakest

Asked = Literal["toned", "treated", "untested", "finished", "edition", "time"]
ASKED: tuple[str, ...] = ("toned", "treated", "untested", "finished", "edition", "time", "kept")
"""The questions in the order of a letter; how to keep a print is answered by advice."""

ANSWERS: dict[str, frozenset[str]] = {
    name: frozenset(words.split())
    for names, words in {
        "toned.none untested.none untested.failed time.unknown": "",
        "treated.kept": "things when",
        "edition.member edition.outside": "designation edition",
        "edition.unnumbered": "edition",
        "edition.replaces": "designation",
        "edition.gone": "existence since",
        "edition.promise": "promise declared",
        "edition.today": "when sizes",
        "edition.beside": "when count",
        "edition.negative": "negative state since",
        "time.same time.about": "negative_when when",
        "time.later": "negative_when when years least_years",
    }.items()
    for name in names.split()
}
"""Every sentence that only an answer has, and the words that it may use."""

_OF_THE_STATEMENT: dict[str, Asked] = {
    "made.printed": "time",
    "made.paper": "time",
    "made.matched": "time",
    "made.bleached": "toned",
    "made.toned": "toned",
    "tested.conversion": "toned",
    "tested.coverage": "toned",
    "made.finished": "finished",
    "made.inscribed": "finished",
    "made.condition": "finished",
    "unknown.finished": "finished",
    "made": "treated",
    "tested": "treated",
    "unknown": "untested",
}
"""Where a claim of the statement belongs: the longest beginning of its id decides."""


@dataclass(frozen=True)
class SizeToday:
    """How many prints of one edition the register lists."""

    edition: int
    said: str
    """In the words of the language: name, size and figures."""
    beside: int
    """Existing sheets that bear none of its numbers: proofs and unnumbered sheets."""


def answers(
    history: PrintHistory, sizes: tuple[SizeToday, ...], today: date
) -> dict[Asked, tuple[Claim, ...]]:
    """The claims that answer each question, in the order in which they are read."""
    found: dict[Asked, list[Claim]] = {
        "toned": [],
        "treated": [],
        "untested": [],
        "finished": [],
        "edition": list(_edition(history, sizes, today)),
        "time": [],
    }
    for claim in statement(history):
        found[asked_of(claim.id)].append(claim)
    if not any(claim.id == "made.toned" for claim in found["toned"]):
        found["toned"].append(_gap("toned.none"))
    if any(claim.id.endswith(".failed") for claim in found["treated"]):
        found["untested"].append(_gap("untested.failed"))
    if not found["untested"]:
        found["untested"].append(_gap("untested.none"))
    found["treated"] += _kept(history)
    found["time"].append(_time(history))
    return {name: tuple(claims) for name, claims in found.items()}


def asked_of(claim: str) -> Asked:
    """The question that a claim of the statement answers."""
    beginning = claim
    while beginning not in _OF_THE_STATEMENT:
        beginning = beginning.rpartition(".")[0]
    return _OF_THE_STATEMENT[beginning]


def _kept(history: PrintHistory) -> Iterator[Claim]:
    """What the studio keeps of the tests: strips, photographs, reports."""
    for test in history.tests:
        things = [Term("kept", "strip")] if test.body.kept_at else []
        things += [Term("kept", one.what) for one in test.body.attached]
        if things:
            yield Claim(
                id="treated.kept",
                section="tested",
                standing=standing_of(test.body.source, test.body.done_on, test.entered_on),
                evidence=(test.id,),
                words={"when": When(test.body.done_on), "things": tuple(things)},
            )


def _edition(history: PrintHistory, sizes: tuple[SizeToday, ...], today: date) -> Iterator[Claim]:
    body, edition = history.print.body, history.edition
    numbered = _numbered(history)
    member: dict[str, Word] = {"edition": edition.body.name}
    name = "edition.unnumbered"
    if body.designation is not None:
        name = "edition.member" if within(body) else "edition.outside"
        member["designation"] = body.designation
    yield _claim(name, numbered, (history.print.id, edition.id), member)
    if body.replaces is not None:
        yield _claim(
            "edition.replaces",
            numbered,
            (history.print.id, body.replaces),
            {"designation": body.designation or body.mark},
        )
    if body.existence != "exists":
        yield _claim(
            "edition.gone",
            numbered,
            (history.print.id,),
            {"existence": Term("existence", body.existence)} | _since(body.gone_on),
        )
    yield _claim(
        "edition.promise",
        _noted(edition.body.opened, edition.entered_on),
        (edition.id,),
        {"promise": edition.body.promise, "declared": edition.body.declared},
    )
    yield _claim(
        "edition.today",
        Standing.CALCULATED,
        tuple(one.edition for one in sizes),
        {"when": When(str(today)), "sizes": tuple(one.said for one in sizes)},
    )
    if beside := sum(one.beside for one in sizes):
        yield _claim(
            "edition.beside",
            Standing.CALCULATED,
            tuple(one.edition for one in sizes),
            {"when": When(str(today)), "count": beside},
        )
    negative = history.negative
    words: dict[str, Word] = {
        "negative": negative.body.code,
        "state": Term("negative_state", negative.body.state),
    }
    words |= _since(negative.body.state_since)
    since = negative.body.state_since or negative.body.made
    yield _claim("edition.negative", _noted(since, negative.entered_on), (negative.id,), words)


def _numbered(history: PrintHistory) -> Standing:
    """How the number came to be known: with the signature, or else with the sheet."""
    signature, on = history.print.body.signature, history.signature_entered_on
    if signature is not None and on is not None:
        return standing_of(signature.source, signature.on, on)
    return weakest(
        (
            printing_standing(history.printing),
            standing_of(
                history.print.body.source, history.printing.body.done_on, history.print.entered_on
            ),
        )
    )


def _noted(on: str | None, entered_on: date) -> Standing:
    return standing_of("notes", on, entered_on) if on else Standing.FROM_NOTES


def _since(on: str | None) -> dict[str, Word]:
    return {"since": When(on)} if on else {}


def _time(history: PrintHistory) -> Claim:
    """How long after the negative the print was made; what is vintage is for others to say."""
    printing, negative = history.printing, history.negative
    when = When(printing.body.done_on)
    made = negative.body.made
    if made is None:
        return _gap("time.unknown")
    evidence = (negative.id, printing.id)
    standing = weakest(
        (
            Standing.CALCULATED,
            printing_standing(printing),
            standing_of("notes", made, negative.entered_on),
        )
    )
    words: dict[str, Word] = {"negative_when": When(made), "when": when}
    if not (is_bounded(made) and is_bounded(printing.body.done_on)):
        # “about 1998” and 2026 are no number of years apart
        return Claim("time.about", "made", standing, evidence, words)
    most = (latest(printing.body.done_on) - earliest(made)).days
    least = (earliest(printing.body.done_on) - latest(made)).days
    if least < _YEAR and most < 2 * _YEAR:
        return Claim("time.same", "made", standing, evidence, words)
    words["years"] = int(most / _YEAR) + 1
    if least >= _YEAR:
        words["least_years"] = int(least / _YEAR)
    return Claim("time.later", "made", standing, evidence, words)


_YEAR = 365.2425
"""Days in a year, on the average of the calendar."""


def _claim(
    name: str, standing: Standing, evidence: tuple[int, ...], words: dict[str, Word]
) -> Claim:
    return Claim(id=name, section="made", standing=standing, evidence=evidence, words=words)


def _gap(name: str) -> Claim:
    return Claim(id=name, section="unknown", standing=Standing.NOT_ON_RECORD, evidence=())
