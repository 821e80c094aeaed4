"""The studio's key: how it is kept, and that anybody can check what it signed."""

import re
import subprocess
from pathlib import Path

import pytest

from provenance.errors import Refused
from provenance.records.audit import audit
from provenance.studio.certifying.certify import certify
from provenance.studio.keys import ring
from provenance.studio.keys.public import PublicKey, grouped, read_public_key
from provenance.studio.keys.ring import current_key, known_keys, make_key, retire_key, unlock
from tests.studio.finished import Desk, desk
from tests.tools import need

PASSPHRASE = "nine black cats"  # noqa: S105 - of a key that is made here
PAGE = (Path(__file__).parents[2] / "docs" / "certificates.md").read_text("utf-8")


@pytest.fixture
def studio(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Desk:
    monkeypatch.setenv(ring.VARIABLE, PASSPHRASE)
    return desk(tmp_path / "studio")


def private_half(studio: Desk) -> Path:
    return studio.folder.path / "private" / "key" / "studio.key.pem"


def test_the_private_half_is_locked_and_its_owners_only(studio: Desk) -> None:
    made = make_key(studio.folder)
    assert current_key(studio.folder) == made
    assert private_half(studio).stat().st_mode & 0o777 == 0o600
    assert private_half(studio).parent.stat().st_mode & 0o777 == 0o700
    assert b"ENCRYPTED PRIVATE KEY" in private_half(studio).read_bytes()


def test_it_leaves_no_trace_in_register_or_certificate(studio: Desk) -> None:
    make_key(studio.folder)
    issued = certify(studio.register, studio.folder, studio.print)
    studio.register.close()
    secret = b"".join(private_half(studio).read_bytes().split(b"\n")[1:3])
    for path in studio.folder.path.rglob("*"):
        if path.is_file() and "key" not in path.parts:
            data = path.read_bytes()
            assert b"PRIVATE KEY" not in data
            assert secret[:40] not in data
    assert b"PRIVATE KEY" not in issued.pdf
    assert not audit(studio.folder.path).damaged


def test_what_it_signs_holds_and_nothing_else_does(studio: Desk) -> None:
    make_key(studio.folder)
    signer = unlock(studio.folder)
    assert signer is not None
    signature = signer.sign(b"record")
    assert signer.public.holds(signature, b"record")
    assert not signer.public.holds(signature, b"recorD")
    assert not signer.public.holds(signature[:-1], b"record")
    assert not signer.public.holds(b"", b"record")


def test_a_studio_without_a_key_has_nothing_to_unlock(studio: Desk) -> None:
    assert unlock(studio.folder) is None
    assert known_keys(studio.folder) == ()
    with pytest.raises(Refused, match="has no key"):
        retire_key(studio.folder)


def test_a_second_key_is_refused(studio: Desk) -> None:
    made = make_key(studio.folder)
    with pytest.raises(Refused, match="retire it first"):
        make_key(studio.folder)
    assert current_key(studio.folder) == made


def test_a_retired_key_is_known_and_its_private_half_gone(studio: Desk) -> None:
    first = make_key(studio.folder)
    assert retire_key(studio.folder) == first
    assert not private_half(studio).exists()
    assert unlock(studio.folder) is None
    second = make_key(studio.folder)
    assert known_keys(studio.folder) == (second, first)


def test_a_wrong_passphrase_is_refused_and_nothing_issued(
    studio: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    make_key(studio.folder)
    monkeypatch.setenv(ring.VARIABLE, "nine black dogs")
    head = studio.register.read.head()
    with pytest.raises(Refused, match="not the right one"):
        certify(studio.register, studio.folder, studio.print)
    assert studio.register.read.head() == head


def test_a_short_passphrase_is_refused(studio: Desk, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(ring.VARIABLE, "short")
    with pytest.raises(Refused, match="shorter than 8"):
        make_key(studio.folder)
    assert current_key(studio.folder) is None


def test_a_person_is_asked_where_the_environment_says_nothing(
    studio: Desk, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv(ring.VARIABLE)
    with pytest.raises(Refused, match=ring.VARIABLE):
        make_key(studio.folder)
    make_key(studio.folder, lambda: PASSPHRASE)
    with pytest.raises(Refused, match=ring.VARIABLE):
        certify(studio.register, studio.folder, studio.print)
    issued = certify(studio.register, studio.folder, studio.print, ask=lambda: PASSPHRASE)
    assert b"\n%ed25519 " in issued.pdf


def test_halves_that_do_not_belong_together_are_refused(studio: Desk) -> None:
    make_key(studio.folder)
    kept = private_half(studio).read_bytes()
    retire_key(studio.folder)
    make_key(studio.folder)
    private_half(studio).write_bytes(kept)
    with pytest.raises(Refused, match="do not belong together"):
        unlock(studio.folder)


@pytest.mark.parametrize(
    "pem",
    [
        b"",
        b"-----BEGIN PUBLIC KEY-----\n!!!!\n-----END PUBLIC KEY-----\n",
        b"-----BEGIN PUBLIC KEY-----\nAAAA\n-----END PUBLIC KEY-----\n",
        b"-----BEGIN PUBLIC KEY-----\nAAAAA\n-----END PUBLIC KEY-----\n",
    ],
)
def test_what_is_no_key_is_refused(pem: bytes) -> None:
    with pytest.raises(Refused, match="Ed25519"):
        read_public_key(pem, "their.pem")


def hand_check(studio: Desk, folder: Path) -> tuple[list[str], PublicKey]:
    """Run every command of the page that says how to check by hand; what each printed."""
    make_key(studio.folder)
    issued = certify(studio.register, studio.folder, studio.print)
    folder.mkdir()
    (folder / "CERTIFICATE.pdf").write_bytes(issued.pdf)
    for tool in ("pdfdetach", "openssl", "sha256sum"):
        need(tool)
    blocks = re.findall(r"^```\n(.*?)^```", PAGE, re.MULTILINE | re.DOTALL)
    assert len(blocks) == 3
    told = [
        subprocess.run(
            ["bash", "-euc", block], cwd=folder, capture_output=True, text=True, check=True
        ).stdout
        for block in blocks
    ]
    key = current_key(studio.folder)
    assert key is not None
    return told, key


def test_anybody_can_check_with_the_commands_of_the_documentation(
    studio: Desk, tmp_path: Path
) -> None:
    (digest, signature, seal), key = hand_check(studio, tmp_path / "by hand")
    (path,) = studio.folder.certificates.glob("*.json")
    assert (tmp_path / "by hand" / "record.json").read_bytes() == path.read_bytes()
    assert len(digest.split()[0]) == 64
    assert signature.count("Signature Verified Successfully") == 1
    assert seal.count("Signature Verified Successfully") == 1
    assert key.fingerprint in signature
    assert grouped(key.fingerprint).replace(" ", "") == key.fingerprint


def test_openssl_refuses_what_was_altered(studio: Desk, tmp_path: Path) -> None:
    folder = tmp_path / "by hand"
    hand_check(studio, folder)
    for name, signature in (("record.json", "record.sig"), ("whole.pdf", "whole.sig")):
        data = bytearray((folder / name).read_bytes())
        data[len(data) // 2] ^= 1
        (folder / name).write_bytes(data)
        run = subprocess.run(
            [need("openssl"), "pkeyutl", "-verify", "-pubin", "-inkey", "studio.pub.pem",
             "-rawin", "-in", name, "-sigfile", signature],
            cwd=folder, capture_output=True, check=False,
        )  # fmt: skip
        assert run.returncode != 0
