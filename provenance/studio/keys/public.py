"""The public half of a key: who sealed a file, and whether the seal holds."""

import base64
import binascii
import hashlib
import re
from dataclasses import dataclass

from provenance.errors import Problem, Refused

_PEM = re.compile(rb"\A-----BEGIN PUBLIC KEY-----\n([A-Za-z0-9+/=\n]+)-----END PUBLIC KEY-----\n\Z")
# The same for every Ed25519 key (RFC 8410); the key itself follows.
_HEAD = bytes.fromhex("302a300506032b6570032100")


@dataclass(frozen=True)
class PublicKey:
    """An Ed25519 key as its PEM file, of which there is one form only."""

    pem: bytes

    @property
    def fingerprint(self) -> str:
        """SHA-256, in hex, of the key in DER: what the studio publishes."""
        return hashlib.sha256(_HEAD + self._raw()).hexdigest()

    def holds(self, signature: bytes, data: bytes) -> bool:
        """Whether `signature` is this key's, over `data`."""
        from cryptography.exceptions import InvalidSignature
        from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PublicKey

        try:
            Ed25519PublicKey.from_public_bytes(self._raw()).verify(signature, data)
        except InvalidSignature:
            return False
        return True

    def _raw(self) -> bytes:
        return _unpacked(self.pem)


def read_public_key(pem: bytes, name: str) -> PublicKey:
    """The key in a PEM file.  Raises Refused, naming the file, for anything but Ed25519."""
    try:
        _unpacked(pem)
    except ValueError as error:
        raise Refused(
            Problem("it is not a public Ed25519 key in PEM", name, mend="give a studio.pub.pem")
        ) from error
    return PublicKey(pem)


def grouped(fingerprint: str) -> str:
    """In groups of four, to be compared by eye."""
    return " ".join(fingerprint[at : at + 4] for at in range(0, len(fingerprint), 4))


def _unpacked(pem: bytes) -> bytes:
    found = _PEM.match(pem)
    if found is None:
        raise ValueError("not a public key in PEM")
    try:
        der = base64.b64decode(found[1].replace(b"\n", b""), validate=True)
    except binascii.Error as error:
        raise ValueError("not base64") from error
    if not der.startswith(_HEAD) or len(der) != len(_HEAD) + 32:
        raise ValueError("not an Ed25519 key")
    return der[len(_HEAD) :]
