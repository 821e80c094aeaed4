"""Prints what a check finds in altered certificates: `python -m tests.documents.show_checks`.

Each alteration is made to a certificate with a seal and to one without, and
checked where there is no register and in the studio.  An answer is intact /
sealed / on record, and the exit status; `-` stands for what is not asked.  Where there
is no register, nobody has said which key is the studio's either.
"""

import os
import tempfile
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from unittest.mock import patch

import msgspec

from provenance.documents.certificate import draw_certificate
from provenance.documents.content import CertificatePage
from provenance.documents.template import shipped_layout
from provenance.records.entry import digest, encode
from provenance.studio.certifying import certify as certifying
from provenance.studio.certifying.attached import attachments
from provenance.studio.certifying.certify import certify
from provenance.studio.certifying.revisions import withdraw
from provenance.studio.checking.check import Checked
from provenance.studio.folder import StudioFolder
from provenance.studio.keys import ring
from provenance.studio.keys.ring import make_key
from tests.studio.finished import desk
from tests.studio.test_checking import FORGED, Case, forged_record


def changed_byte(pdf: bytes) -> bytes:
    """One bit of a byte in the middle of the file turned over."""
    spoilt = bytearray(pdf)
    spoilt[len(spoilt) // 2] ^= 1
    return bytes(spoilt)


def by_a_forger(held: Case, *, named: bool) -> bytes:
    """A record edited, a page to match, and a seal by a key of the forger's own.

    `named`: the record names that key, and it is signed and attached as is due.
    """
    with tempfile.TemporaryDirectory() as place:
        folder = StudioFolder(Path(place))
        make_key(folder)
        theirs = ring.unlock(folder)
        assert theirs is not None
        content = forged_record(held, mark="Q9")
        if named:
            record = msgspec.json.decode(content.attachments[0].data)
            record["certificate"]["key_sha256"] = theirs.public.fingerprint
            data = encode(record)
            content = replace(
                content,
                record_sha256=digest(data),
                key_sha256=theirs.public.fingerprint,
                attachments=attachments(data, theirs, shipped_layout()),
            )
        return draw_certificate(content, None, theirs.sign)


ALTERED: dict[str, Callable[[Case], bytes]] = {
    "as it was issued": lambda held: held.issued.pdf,
    "one byte changed": lambda held: changed_byte(held.issued.pdf),
    "bytes appended": FORGED["appended"],
    "picture swapped, sum made anew": FORGED["picture swapped, sum anew"],
    "page rewritten, record kept, sum made anew": lambda held: draw_certificate(
        replace(held.content, title="Another picture altogether")
    ),
    "record edited, nothing else": FORGED["record swapped, sum anew"],
    "record edited, digest and sum made anew": lambda held: draw_certificate(
        forged_record(held, mark="Q9")
    ),
    "record edited, sealed by another key": lambda held: by_a_forger(held, named=False),
    "forged whole, under another key": lambda held: by_a_forger(held, named=True),
}


def made(folder: Path, *, key: bool) -> Case:
    """A studio with one certificate."""
    held = desk(folder / "studio")
    if key:
        make_key(held.folder)
    drawn: list[CertificatePage] = []

    def noted(content: CertificatePage, *how: object) -> bytes:
        drawn.append(content)
        return draw_certificate(content, *how)  # type: ignore[arg-type]

    with patch.object(certifying, "draw_certificate", noted):
        issued = certify(held.register, held.folder, held.print)
    held.register.close()
    return Case(held, issued, drawn[0], folder / "elsewhere")


def status(found: Checked) -> int:
    """How `provenance check` would end."""
    return 3 if found.altered else 0 if found.stands else 1


def told(held: Case, pdf: bytes) -> str:
    """The answers where there is no register, and in the studio."""
    cells = []
    for here in (False, True):
        found = held.check(pdf, here=here)
        answers = (found.intact.answer, found.sealed.answer, found.on_record.answer)
        said = " / ".join("-" if one == "not asked" else one for one in answers)
        cells.append(f"{said:<23} {status(found)}")
    return "   ".join(cells)


def show(held: Case, name: str, pdf: bytes) -> None:
    """One row of the table."""
    print(f"{name:<44}{told(held, pdf)}")


def main() -> None:
    """Print the two tables."""
    os.environ[ring.VARIABLE] = "a passphrase for this table"
    for key in (False, True):
        with tempfile.TemporaryDirectory() as place:
            held = made(Path(place), key=key)
            print(f"{'WITH A SEAL' if key else 'WITHOUT A SEAL':<44}", end="")
            print(f"{'without the register':<28}with the register")
            for name, alter in ALTERED.items():
                if key or "another key" not in name:
                    show(held, name, alter(held))
            with held.open() as register:
                later = certify(register, held.desk.folder, held.desk.print, revise="a slip")
            show(held, "superseded by revision 2", held.issued.pdf)
            show(held, "revision 2", later.pdf)
            with held.open() as register, register.act("artist") as act:
                withdraw(act, later.number, "it came back")
            show(held, "withdrawn", later.pdf)
            print()


if __name__ == "__main__":
    main()
