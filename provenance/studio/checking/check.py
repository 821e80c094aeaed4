"""Check the file of a certificate, with the studio's register where there is one."""

from dataclasses import dataclass, replace
from pathlib import Path

from provenance.errors import Problem, Refused
from provenance.studio.certifying.attached import RECORD_NAME
from provenance.studio.checking.attached_record import Replaces
from provenance.studio.checking.inspect import Inspected, inspect
from provenance.studio.checking.on_record import (
    NO_REGISTER,
    changed_since,
    on_record,
)
from provenance.studio.checking.summary import compare, in_short
from provenance.studio.checking.verdict import Verdict
from provenance.studio.folder import StudioFolder
from provenance.studio.keys.public import PublicKey
from provenance.studio.keys.ring import known_keys

_NOT_GIVEN = "it is not the key that was given: that is not the studio's, or this file is not"


@dataclass(frozen=True)
class Checked:
    """The three answers, and what has changed since the certificate was issued."""

    number: str
    revision: int
    intact: Verdict
    sealed: Verdict
    on_record: Verdict
    since: tuple[str, ...]
    """What the certificate would say otherwise today, and what became of the print."""
    about: str
    """The print that it speaks of; empty where no record can be read."""
    replaces: Replaces | None
    in_short: str
    """What the answers come to, and what to do next."""
    compare: str
    """What no file can show; empty where the file is of no use."""

    @property
    def altered(self) -> bool:
        """Whether the file is not what was issued."""
        return "no" in (self.intact.answer, self.sealed.answer)

    @property
    def stands(self) -> bool:
        """Whether nothing that was asked speaks against it."""
        return not self.altered and self.on_record.answer in ("yes", "not asked")


def check(path: Path, folder: StudioFolder, trusted: PublicKey | None = None) -> Checked:
    """Check a file.  The register of `folder` is asked where there is one.

    `trusted` is a key that the studio gave.  Raises Refused when the file cannot
    be read or is no PDF.
    """
    try:
        pdf = path.read_bytes()
    except OSError as error:
        raise Refused(Problem(f"cannot be read: {error.strerror}", str(path))) from error
    given = () if trusted is None else (trusted,)
    found = inspect(pdf, path.name, given, stranger=_NOT_GIVEN)
    if not (folder.path / "register.db").exists():
        return _checked(found, NO_REGISTER, key_is_known=trusted is not None)
    with folder.open() as register:
        answer, certificate = on_record(register.read, found)
        if answer.answer == "not asked":
            return _checked(found, answer, key_is_known=trusted is not None)
        # It is this studio's own, so its own keys are known.
        if not given:
            found = inspect(pdf, path.name, known_keys(folder))
        since = list[str]()
        if certificate is not None:
            record = found.opened.attachments[RECORD_NAME]
            since += changed_since(register.read, folder, certificate, record)
        return _checked(found, answer, tuple(since), key_is_known=True)


def _checked(
    found: Inspected, answer: Verdict, since: tuple[str, ...] = (), *, key_is_known: bool
) -> Checked:
    record = found.record
    certificate = record.certificate if record else None
    made = Checked(
        number=certificate.number if certificate else "",
        revision=certificate.revision if certificate else 0,
        intact=found.intact,
        sealed=found.sealed,
        on_record=answer,
        since=since,
        about=record.about if record else "",
        replaces=certificate.replaces if certificate else None,
        in_short=in_short(
            record,
            intact=found.intact,
            sealed=found.sealed,
            on_record=answer,
            key_is_known=key_is_known,
            bare=found.bare,
        ),
        compare="",
    )
    return replace(made, compare=compare(record)) if record and made.stands else made
