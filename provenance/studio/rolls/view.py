"""Edition lists and heir's pages as rolls, read from a studio."""

from collections.abc import Sequence

from provenance.craft.roll import Chapter, Roll
from provenance.errors import NotFound, Problem
from provenance.model.edition import Edition
from provenance.model.studio import Studio
from provenance.records.clock import Moment
from provenance.records.private import Contacts
from provenance.records.reader import Reader, Stored
from provenance.records.terms import TermsBook
from provenance.studio.folder import StudioFolder
from provenance.studio.rolls.edition import edition_chapter
from provenance.studio.rolls.heir import (
    away_part,
    forbidden_part,
    keys_part,
    negatives_part,
    open_part,
    wishes_part,
)
from provenance.studio.rolls.held import HeldEdition, held_edition
from provenance.studio.rolls.telling import UNREAD, Telling, people
from provenance.studio.rolls.words import load_words
from provenance.studio.settings import read_settings
from provenance.studio.wordings import load_wording


def edition_list(
    reader: Reader, folder: StudioFolder, edition: Stored[Edition], now: Moment, *, full: bool
) -> Roll:
    """The list of one edition: for anybody, or in `full` for the studio and its heirs."""
    desk = _Desk(reader, folder, now, full=full)
    held = desk.held(edition)
    chapter = edition_chapter(held, desk.telling, desk.units)
    return desk.roll("edition_list", chapter.title, chapter.designation, [chapter])


def heirs_page(
    reader: Reader, folder: StudioFolder, edition: Stored[Edition] | None, now: Moment
) -> Roll:
    """What an heir has to know of one edition, or of everything; always in full.

    Raises NotFound for a studio without an edition.
    """
    desk = _Desk(reader, folder, now, full=True)
    editions = [edition] if edition is not None else reader.all(Edition)
    if not editions:
        raise NotFound(Problem("there is no edition on record", mend="enter one first"))
    held = [desk.held(one) for one in editions]
    chapters = [_first(desk, held, whole=edition is None)]
    chapters += [edition_chapter(one, desk.telling, desk.units) for one in held]
    if edition is None:
        return desk.roll("heirs_page", desk.studio.name, "", chapters)
    title = held[0].negative.body.title
    (whole,) = [Chapter(title, edition.body.code, (*chapters[0].parts, *chapters[1].parts))]
    return desk.roll("heirs_page", title, edition.body.code, [whole])


def _first(desk: "_Desk", held: Sequence[HeldEdition], *, whole: bool) -> Chapter:
    """What cannot wait, before the lists: what is open and away, what may be done."""
    contacts = Contacts(desk.folder.path)
    return Chapter(
        "",
        "",
        (
            open_part(held, desk.telling),
            away_part(held, desk.telling, contacts, desk.terms),
            wishes_part(desk.reader, held, desk.telling),
            forbidden_part(desk.reader, held, desk.telling),
            keys_part(desk.folder, desk.telling),
            *([negatives_part(desk.reader, desk.telling)] if whole else []),
        ),
    )


class _Desk:
    """What every roll of a studio is made with."""

    def __init__(self, reader: Reader, folder: StudioFolder, now: Moment, *, full: bool) -> None:
        self.reader, self.folder, self._now, self._full = reader, folder, now, full
        self._settings = read_settings(folder)
        self.units = self._settings.units
        words = load_words(folder, self._settings.language)
        wording = load_wording(folder, self._settings.language)
        named = people(Contacts(folder.path), words) if full else None
        self.telling = Telling(words, wording, named)
        self.studio = reader.get(Studio, 1).body

    def held(self, edition: Stored[Edition]) -> HeldEdition:
        """Everything on record about an edition."""
        return held_edition(self.reader, edition, self.units)

    def terms(self, key: str | None) -> str:
        """What was agreed, from the page of terms with that key."""
        if key is None:
            return ""
        book = TermsBook(self.folder.path)
        standing = book.standing(key)
        if standing != "whole":
            return self.telling.words(f"{UNREAD[standing]}_terms")
        return book.get(key).said

    def roll(self, kind: str, title: str, code: str, chapters: Sequence[Chapter]) -> Roll:
        """The roll around its chapters."""
        words, studio = self.telling.words, self.studio
        day = self.telling.wording.date(str(self._now.local_date()))
        seq, head = self.reader.head()
        note = words("note", day=day, entry=seq, digest=_grouped(head))
        return Roll(
            name=code or studio.name,
            kind=words(kind),
            title=title,
            designation=code,
            artist=studio.artist,
            place=", ".join(filter(None, (studio.name, studio.place))),
            day=day,
            seal=words("full") if self._full else "",
            chapters=tuple(chapters),
            note=note if self._full else f"{note} {words('note_public')}",
            labels=words.as_labels(),
            drawn_at_utc=self._now.utc(),
            page=self._settings.page,
            language=self._settings.language,
        )


def _grouped(digest: str) -> str:
    return " ".join(digest[at : at + 4] for at in range(0, len(digest), 4))
