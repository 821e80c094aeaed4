"""The answer about one print: the usual questions, from its record, in the words of a language."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime

from provenance.craft.answers import Asked, SizeToday, answers
from provenance.craft.counting import count, within
from provenance.craft.history import PrintHistory
from provenance.craft.issuing import print_name
from provenance.craft.wording import Wording
from provenance.craft.wording_rules import FORBIDDEN
from provenance.errors import Problem, Refused
from provenance.model.edition import Edition
from provenance.model.evidence import Claim, Standing
from provenance.model.prints import Print
from provenance.model.quantity_text import Units
from provenance.records.clock import Moment
from provenance.records.dossier import print_history
from provenance.records.reader import Reader
from provenance.studio.certifying.particulars import edition_today, particulars
from provenance.studio.folder import StudioFolder
from provenance.studio.settings import read_settings
from provenance.studio.wordings import load_wording


@dataclass(frozen=True)
class Sentence:
    """One sentence of an answer: how it is known, and the records behind it."""

    claim: str
    text: str
    known: str
    """Its standing in the words of the language; for advice, that it is advice."""
    standing: Standing | None
    """None for advice."""
    evidence: tuple[int, ...] = ()


@dataclass(frozen=True)
class Answered:
    """A question with its sentences."""

    name: str
    question: str
    sentences: tuple[Sentence, ...]


@dataclass(frozen=True)
class Answer:
    """What can be said about one print; names nobody but the artist."""

    print: int
    name: str
    title: str
    designation: str
    """Its number; empty where it has none."""
    artist: str
    studio: str
    day: str
    language: str
    particulars: tuple[tuple[str, str], ...]
    """Which sheet is meant: names as in the layout of a certificate, and values."""
    answered: tuple[Answered, ...]
    note: str
    meanings: tuple[tuple[str, str], ...]
    """The standings that stand in it, and what each means."""
    at_utc: datetime
    entry: int
    """The last entry of the journal when it was answered."""
    thumbnail_sha256: str = ""
    thumbnail_px: tuple[int, int] = (0, 0)
    caption: str = ""


_PARTICULARS = ("process", "paper", "marked", "signed", "remarks")


def answer(
    reader: Reader,
    folder: StudioFolder,
    print_id: int,
    moment: Moment,
    *,
    language: str | None = None,
) -> Answer:
    """Answer the usual questions about a print as its record stands at `moment`.

    `language` is that of the settings where none is given.  Raises NotFound, and
    Refused where a sentence would say more than a record can show.
    """
    settings = read_settings(folder)
    wording = load_wording(folder, language or settings.language)
    history = print_history(reader, print_id)
    body, units = history.print.body, settings.units
    day = str(moment.local_date())
    sizes = tuple(_sizes(reader, history, wording, units))
    said = answers(history, sizes, moment.local_date())
    answered = tuple(_answered(history, wording, said))
    _refuse_boasts(answered, print_name(history))
    values = particulars(history, edition_today(reader, history), wording, units, day)
    scan = history.scans[-1].body if history.scans else None
    return Answer(
        print=print_id,
        name=print_name(history),
        title=history.negative.body.title,
        designation=body.designation or "",
        artist=history.studio.body.artist,
        studio=", ".join(filter(None, (history.studio.body.name, history.studio.body.place))),
        day=wording.date(day),
        language=wording.language,
        particulars=tuple((name, values[name]) for name in _PARTICULARS if values[name]),
        answered=answered,
        note=wording.phrase(
            "answer_note",
            day=wording.date(day),
            entry=reader.head()[0],
            studio=history.studio.body.name,
        ),
        meanings=_meanings(answered, wording),
        at_utc=moment.utc(),
        entry=reader.head()[0],
        thumbnail_sha256=scan.thumbnail_sha256 if scan else "",
        thumbnail_px=(scan.thumbnail_width_px, scan.thumbnail_height_px) if scan else (0, 0),
        caption=wording.phrase(
            "caption", image=wording.size(body.image, units), sheet=wording.size(body.sheet, units)
        ),
    )


def _answered(
    history: PrintHistory, wording: Wording, said: dict[Asked, tuple[Claim, ...]]
) -> Iterator[Answered]:
    for name, claims in said.items():
        if claims:
            told = tuple(_sentence(claim, wording) for claim in claims)
            yield Answered(name, wording.questions[name], told)
    advice = tuple(
        Sentence("kept.advice", one, wording.phrase("advice"), None)
        for one in wording.advice(history.paper.body.base if history.paper else None)
    )
    if advice:
        yield Answered("kept", wording.questions["kept"], advice)


def _sentence(claim: Claim, wording: Wording) -> Sentence:
    return Sentence(
        claim.id,
        wording.sentence(claim),
        wording.standing(claim.standing),
        claim.standing,
        claim.evidence,
    )


def _sizes(
    reader: Reader, history: PrintHistory, wording: Wording, units: Units
) -> Iterator[SizeToday]:
    """Every edition of the negative, as the register has it now."""
    for edition in reader.linked(history.negative.id, Edition, "negative"):
        prints = [(held.id, held.body) for held in reader.linked(edition.id, Print, "edition")]
        replaced = {body.replaces for _record, body in prints}
        gone = sum(
            within(body) and body.existence != "exists" and record not in replaced
            for record, body in prints
        )
        yield SizeToday(
            edition=edition.id,
            said=wording.phrase(
                "size_gone" if gone else "size_today",
                name=edition.body.name,
                image=wording.size(edition.body.image, units),
                given=count(edition.body, prints).given,
                declared=edition.body.declared,
                **({"gone": gone} if gone else {}),
            ),
            beside=sum(body.existence == "exists" and not within(body) for _record, body in prints),
        )


def _meanings(answered: tuple[Answered, ...], wording: Wording) -> tuple[tuple[str, str], ...]:
    """The standings that stand in the answer, strongest first."""
    found = {one.standing for held in answered for one in held.sentences}
    return tuple(
        (wording.standing(standing), wording.meanings[standing])
        for standing in Standing
        if standing in found
    )


def _refuse_boasts(answered: tuple[Answered, ...], name: str) -> None:
    """The wording was checked when it was read; what a record says in its own words was not.

    A promise stands between quotation marks, as the artist's words, and may say what it did.
    """
    problems = [
        Problem(
            f"a sentence would say {found[0]!r}, which no record can show",
            name,
            one.claim,
            "correct the words of " + ", ".join(f"#{record}" for record in one.evidence),
        )
        for held in answered
        for one in held.sentences
        if one.claim != "edition.promise" and (found := FORBIDDEN.search(one.text))
    ]
    if problems:
        raise Refused(*problems)
