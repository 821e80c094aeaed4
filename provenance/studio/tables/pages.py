"""The pages beside the register that moves on record lead to, each opened once for a table."""

from typing import Literal

from provenance.errors import Damaged, NotFound
from provenance.records.private import Contacts, tidy
from provenance.records.terms import Terms, TermsBook
from provenance.studio.folder import StudioFolder

Agrees = Literal["same", "silent", "other", "cannot be told"]
"""How the person of a row stands to the one on record."""


class KnownPages:
    """Names and terms by their keys, those among them whose pages are not on disk yet."""

    def __init__(self, folder: StudioFolder) -> None:
        self._contacts, self._book = Contacts(folder.path), TermsBook(folder.path)
        self._names: dict[str, str | None] = {}
        self._terms: dict[str, Terms | None] = {}

    def note(self, key: str, name: str) -> None:
        """Note a person whose page may still have to be written."""
        self._names[key] = tidy(name)

    def note_terms(self, key: str, terms: Terms) -> None:
        """Note terms whose page is still to be written."""
        self._terms[key] = Terms(
            **{one: tidy(getattr(terms, one)) for one in Terms.__struct_fields__}
        )

    def agrees(self, key: str | None, text: str) -> Agrees:
        """Whether `text`, a name or the key of a page, is who the page with `key` is of."""
        if not text:
            return "silent" if key else "same"
        if key is None:
            return "other"
        if key == text:
            return "same"
        name = self._name(key)
        if name is None:
            return "cannot be told"
        return "same" if name.casefold() == tidy(text).casefold() else "other"

    def name(self, key: str | None) -> str:
        """The name on a page; empty for nobody, the beginning of the key where it has no page."""
        if key is None:
            return ""
        return self._name(key) or f"{key[:12]}…"

    def terms(self, key: str | None) -> Terms | None:
        """What a page of terms says; None where it was erased, is missing or was altered."""
        if key is None:
            return Terms()
        if key not in self._terms:
            try:
                self._terms[key] = self._book.get(key)
            except (NotFound, Damaged):
                self._terms[key] = None
        return self._terms[key]

    def _name(self, key: str) -> str | None:
        if key not in self._names:
            try:
                self._names[key] = self._contacts.get(key).name
            except (NotFound, Damaged):
                self._names[key] = None
        return self._names[key]
