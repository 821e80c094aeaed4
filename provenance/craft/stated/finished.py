"""What was done after the wash, and how the print looked."""

from collections.abc import Iterator

from provenance.craft.history import Fact, PrintHistory
from provenance.craft.standing import standing_of
from provenance.craft.stated.entered import entered_words
from provenance.model.evidence import Claim, Term, When, Word
from provenance.model.finish import Finish

_NOT_DONE = {
    "mount": "unmounted",
    "adhesive": "unglued",
    "coating": "uncoated",
    "enclosure": "bare",
}
"""What an empty text says, by the word that says it."""


def finished(history: PrintHistory) -> Iterator[Claim]:
    """A claim for each finish on record, for the words on the print, for its last condition."""
    for finish in history.finishes:
        if done := _done(finish.body):
            yield _claim("made.finished", finish, done)
        if finish.body.inscriptions:
            yield _claim("made.inscribed", finish, {"inscriptions": _inscriptions(finish.body)})
    looked = [finish for finish in history.finishes if finish.body.condition is not None]
    if looked and (last := looked[-1].body.condition) is not None:
        said: dict[str, Word] = {
            "occasion": Term("occasion", last.occasion),
            "text": last.text.strip(" .\n"),
        }
        yield _claim("made.condition", looked[-1], said)


def _claim(name: str, finish: Fact[Finish], words: dict[str, Word]) -> Claim:
    standing = standing_of(finish.body.source, finish.body.done_on, finish.entered_on)
    return Claim(
        id=name,
        section="made",
        standing=standing,
        evidence=(finish.id,),
        words={"when": When(finish.body.done_on)}
        | words
        | entered_words(standing, finish.entered_on),
    )


def _done(body: Finish) -> dict[str, Word]:
    """What was done, and what was looked at and not done; silence is left out."""
    words: dict[str, Word] = {}
    for name in ("drying", "flattening", "spotting"):
        if value := getattr(body, name):
            words[name] = Term(name, value)
    if body.trimmed is not None:
        words["trimmed"] = Term("trimmed", "yes" if body.trimmed else "no")
    for name, not_done in _NOT_DONE.items():
        value = getattr(body, name)
        if value:
            words[name] = value
        elif value is not None:
            words[not_done] = Term("finish", not_done)
    return words


def _inscriptions(body: Finish) -> tuple[str, ...]:
    found: list[str] = []
    for one in body.inscriptions or ():
        how = ", ".join(filter(None, (one.medium, one.where)))
        found.append(f"{one.text} ({how})" if how else one.text)
    return tuple(found)
