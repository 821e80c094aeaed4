"""Where the studio's key lies, and how it is made, used and retired.

The private half lies in private/ under a passphrase, readable by its owner
only.  It enters neither the register nor any file that leaves the studio.
"""

import os
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from provenance.errors import Problem, Refused
from provenance.records.files import flush_folder, write_whole
from provenance.studio.folder import StudioFolder
from provenance.studio.keys.public import PublicKey, read_public_key

VARIABLE = "PROVENANCE_PASSPHRASE"
PUBLIC_NAME = "studio.pub.pem"
_PRIVATE_NAME = "studio.key.pem"
_LEAST_LETTERS = 8

Ask = Callable[[], str]
"""Asks a person for the passphrase."""


@dataclass(frozen=True)
class Signer:
    """The key, unlocked."""

    public: PublicKey
    sign: Callable[[bytes], bytes]
    """The signature, 64 bytes, over what it is given."""


def current_key(folder: StudioFolder) -> PublicKey | None:
    """The key that seals certificates; None where the studio has none."""
    return _read(_place(folder) / PUBLIC_NAME)


def known_keys(folder: StudioFolder) -> tuple[PublicKey, ...]:
    """The key in use, first, and those retired."""
    found = [current_key(folder)]
    found += [_read(path) for path in sorted(_retired(folder).glob("*.pem"))]
    return tuple(key for key in found if key is not None)


def needs_passphrase(folder: StudioFolder) -> bool:
    """Whether a person has to be asked before anything is sealed."""
    return VARIABLE not in os.environ and current_key(folder) is not None


def make_key(folder: StudioFolder, ask: Ask | None = None) -> PublicKey:
    """Make the studio's key.  Raises Refused where there is one, or for a short passphrase."""
    from cryptography.hazmat.primitives import serialization
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey

    if (held := current_key(folder)) is not None:
        raise Refused(
            Problem(
                f"the studio has a key: {held.fingerprint[:16]}…", "key", mend="retire it first"
            )
        )
    passphrase = _passphrase(ask)
    if len(passphrase) < _LEAST_LETTERS:
        raise Refused(Problem(f"the passphrase is shorter than {_LEAST_LETTERS} letters", "key"))
    private = Ed25519PrivateKey.generate()
    place = _place(folder)
    _make(place)
    locked = private.private_bytes(
        serialization.Encoding.PEM,
        serialization.PrivateFormat.PKCS8,
        serialization.BestAvailableEncryption(passphrase.encode()),
    )
    public = private.public_key().public_bytes(
        serialization.Encoding.PEM, serialization.PublicFormat.SubjectPublicKeyInfo
    )
    # The public half comes last: while it is missing, there is no key.
    write_whole(place / _PRIVATE_NAME, locked, mode=0o600)
    write_whole(place / PUBLIC_NAME, public)
    return PublicKey(public)


def unlock(folder: StudioFolder, ask: Ask | None = None) -> Signer | None:
    """The studio's key, ready to sign; None where it has none.  Raises Refused."""
    public = current_key(folder)
    if public is None:
        return None
    from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PrivateKey
    from cryptography.hazmat.primitives.serialization import load_pem_private_key

    try:
        locked = (_place(folder) / _PRIVATE_NAME).read_bytes()
        private = load_pem_private_key(locked, _passphrase(ask).encode())
    except OSError as error:
        raise Refused(
            Problem(
                f"the private half cannot be read: {error.strerror}",
                "key",
                mend="bring it back from a backup, or retire the key",
            )
        ) from error
    except (ValueError, TypeError) as error:
        raise Refused(
            Problem("the passphrase is not the right one", "key", mend="try again")
        ) from error
    if not isinstance(private, Ed25519PrivateKey):
        raise Refused(Problem("the private half is no Ed25519 key", "key", mend="retire the key"))
    signer = Signer(public, private.sign)
    if not public.holds(signer.sign(b""), b""):
        raise Refused(
            Problem("its two halves do not belong together", "key", mend="retire the key")
        )
    return signer


def retire_key(folder: StudioFolder) -> PublicKey:
    """Erase the private half; the public half stays, for what was sealed.  Raises Refused."""
    held = current_key(folder)
    if held is None:
        raise Refused(Problem("the studio has no key", "key"))
    _make(_retired(folder))
    write_whole(_retired(folder) / f"{held.fingerprint[:16]}.pub.pem", held.pem)
    place = _place(folder)
    try:
        for name in (PUBLIC_NAME, _PRIVATE_NAME):
            (place / name).unlink(missing_ok=True)
        flush_folder(place)
    except OSError as error:
        raise Refused(Problem(f"it cannot be erased: {error.strerror}", "key")) from error
    return held


def _passphrase(ask: Ask | None) -> str:
    given = os.environ.get(VARIABLE)
    if given is None and ask is not None:
        given = ask()
    if given is None:
        raise Refused(
            Problem("its passphrase is needed", "key", mend=f"set {VARIABLE}, or use a terminal")
        )
    return given


def _place(folder: StudioFolder) -> Path:
    return folder.path / "private" / "key"


def _retired(folder: StudioFolder) -> Path:
    return _place(folder) / "retired"


def _make(place: Path) -> None:
    try:
        place.mkdir(mode=0o700, parents=True, exist_ok=True)
    except OSError as error:
        raise Refused(Problem(f"{place} cannot be made: {error.strerror}", "key")) from error


def _read(path: Path) -> PublicKey | None:
    try:
        return read_public_key(path.read_bytes(), path.name)
    except FileNotFoundError:
        return None
    except OSError as error:
        raise Refused(Problem(f"it cannot be read: {error.strerror}", path.name)) from error
