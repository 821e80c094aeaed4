"""The list of one edition: its promise, every impression, and what is still to be printed."""

from collections.abc import Iterator, Sequence

from provenance.craft.roll import Chapter, Facts, Part, Says, Table, TableColumn
from provenance.model.edition import Edition
from provenance.model.negative import Negative
from provenance.model.quantity_text import Units
from provenance.records.reader import Stored
from provenance.studio.drawer import promise_in_short
from provenance.studio.rolls.held import HeldEdition, Impression
from provenance.studio.rolls.telling import Telling
from provenance.studio.rolls.words import Words


def edition_parts(held: HeldEdition, telling: Telling, units: Units) -> Iterator[Part]:
    """The parts of a list; in full they name marks, certificates and persons."""
    words = telling.words
    yield promise_part(held, telling, units)
    yield Part(words("negative"), (Facts(tuple(_negative(held.negative.body, telling))),))
    if held.others:
        lines = tuple((_other(one, telling, units), one.body.opened or "") for one in held.others)
        said = [Says(lines)]
        if held.edition.body.disclosed:
            said.append(Says(((words("quoted", words=held.edition.body.disclosed), ""),)))
        yield Part(words("others"), tuple(said))
    if held.changes:
        yield Part(
            words("changes"),
            (
                Says(
                    tuple(
                        (
                            words(
                                "said_changed",
                                field=words(f"field.{one.field}"),
                                before=one.before or "–",
                                after=one.after or "–",
                                reason=one.reason,
                            ).strip(),
                            one.day,
                        )
                        for one in held.changes
                    )
                ),
            ),
        )
    shown = [one for one in held.impressions if telling.full or one.print.body.designation]
    body: list[Says | Table] = [impressions(shown, telling)] if shown else []
    if bare := [one for one in held.impressions if one not in shown]:
        gone = sum(one.print.body.existence != "exists" for one in bare)
        body.append(Says(((words("bare", count=len(bare), gone=gone), ""),)))
    if body:
        yield Part(words("impressions"), tuple(body))


def edition_chapter(held: HeldEdition, telling: Telling, units: Units) -> Chapter:
    """The list as one chapter."""
    parts = tuple(edition_parts(held, telling, units))
    return Chapter(held.negative.body.title, held.edition.body.code, parts)


def promise_part(held: HeldEdition, telling: Telling, units: Units) -> Part:
    """The promise verbatim, what was declared, and what is left of it to print."""
    words, body = telling.words, held.edition.body
    wording, short = telling.wording, _in_short(body, words)
    facts = [
        (words("declared"), words("declared_is", short=short, total=body.declared)),
        (
            words("size"),
            words(
                "size_is",
                image=wording.size(body.image, units),
                sheet=wording.size(body.sheet, units),
            ),
        ),
        (words("opened"), wording.date(body.opened) if body.opened else ""),
        (words("closed"), _closed(held, telling)),
        (words("rights"), words(f"rights_{body.rights}") if body.rights else ""),
        (words("to_print"), to_print(held, telling)),
    ]
    told = tuple(pair for pair in facts if pair[1])
    promise = words("quoted", words=body.promise)
    return Part(words("promise"), (Says(((promise, ""),)), Facts(told)))


def to_print(held: HeldEdition, telling: Telling) -> str:
    """Which impressions are still to be printed, or why none is."""
    words = telling.words
    if not held.left:
        return words("nothing_to_print")
    if held.edition.body.closed is not None:
        return words("closed_to_print")
    if not held.may_print:
        state = telling.wording.term("negative_state", held.negative.body.state)
        return words("negative_to_print", state=state)
    return missing(held, telling)


def missing(held: HeldEdition, telling: Telling) -> str:
    """What is declared and not on record: ``12–25, AP II, 3 unnumbered``."""
    loose = [telling.words("unnumbered", count=held.spare)] if held.spare else []
    return ", ".join([*held.to_print, *loose])


def _in_short(body: Edition, words: Words) -> str:
    return promise_in_short(body, words("unnumbered", count=body.unnumbered))


def impressions(held: Sequence[Impression], telling: Telling) -> Table:
    """Every impression on record, by number."""
    words = telling.words
    columns = [
        TableColumn(words("number")),
        TableColumn(words("back"), 13),
        TableColumn(words("printed"), 22),
        TableColumn(words("where")),
        TableColumn(words("certificate"), 30 if telling.full else 22, quiet=True),
    ]
    rows = [
        (
            one.name,
            one.print.body.mark,
            words("printed_posthumous", day=one.printed_on) if one.posthumous else one.printed_on,
            telling.state(one),
            one.certificate if telling.full else words("certified") if one.certificate else "",
        )
        for one in held
    ]
    if not telling.full:
        # the mark on the back is what a sheet is known by: only who has it should know it
        del columns[1]
        rows = [(name, *others) for name, _mark, *others in rows]  # type: ignore[misc]
    return Table(tuple(columns), tuple(rows), tuple(one.print.id for one in held))


def _negative(body: Negative, telling: Telling) -> Iterator[tuple[str, str]]:
    words, wording = telling.words, telling.wording
    made = words("made", code=body.code, day=wording.date(body.made)) if body.made else body.code
    yield words("negative"), made
    yield words("state"), fate(body, telling)


def fate(body: Negative, telling: Telling) -> str:
    """The state of a negative, since when, and how it came to it."""
    words, wording = telling.words, telling.wording
    state, since = wording.term("negative_state", body.state), body.state_since
    said = words("state_since", state=state, day=wording.date(since)) if since else state
    return f"{said}. {body.state_why}" if body.state_why else said


def _closed(held: HeldEdition, telling: Telling) -> str:
    body = held.edition.body
    if body.closed is None:
        return ""
    day = telling.wording.date(body.closed)
    return f"{day}. {body.closed_why}" if body.closed_why else day


def _other(one: Stored[Edition], telling: Telling, units: Units) -> str:
    body = one.body
    return telling.words(
        "other_edition",
        code=body.code,
        name=body.name,
        short=_in_short(body, telling.words),
        image=telling.wording.size(body.image, units),
    )
