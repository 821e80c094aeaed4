"""A PDF as numbered objects, and the bytes they make.

The page library reads and subsets the typefaces; everything else is written
here, because an archive asks for more than that library writes.
"""

import zlib
from datetime import UTC, datetime
from typing import Any

from reportlab.pdfbase import pdfdoc

from provenance.documents.fonts import Font, typeface
from provenance.documents.seal import Kind, open_line

_HEAD = b"%PDF-1.7\n%\xe2\xe3\xcf\xd3\n"
_FONTS = "BasicFonts"


def text_string(text: str) -> bytes:
    """A text as PDF writes it outside of pages."""
    return b"<feff" + text.encode("utf-16-be").hex().encode() + b">"


def date_string(at: datetime) -> bytes:
    """A moment as PDF writes it."""
    return at.astimezone(UTC).strftime("(D:%Y%m%d%H%M%SZ)").encode()


class PdfFile:
    """A PDF in the making: objects, numbered as they come."""

    def __init__(self) -> None:
        self._document: Any = pdfdoc.PDFDocument(invariant=1, compression=1)

    @property
    def fonts(self) -> int:
        """The object that holds the typefaces of all pages."""
        number: int = self._document.idToObjectNumberAndVersion[_FONTS][0]
        return number

    def reserve(self) -> int:
        """The number of an object that is put later."""
        number: int = self._document.objectcounter + 1
        self._document.Reference(b"null", f"own {number}")
        return number

    def put(self, data: bytes, number: int | None = None) -> int:
        """Take in an object as bytes; its number, new unless one was reserved."""
        number = number or self.reserve()
        self._document.idToObject[f"own {number}"] = data
        return number

    def put_stream(
        self, data: bytes, entries: bytes = b"", *, packed: bool = False, raw: bool = False
    ) -> int:
        """Take in a stream with the `entries` of its dictionary.

        It is compressed, unless it is `raw` and goes in as it is, or `packed`
        already, by the same method.
        """
        if not (packed or raw):
            data = zlib.compress(data)
        filtered = b"" if raw else b" /Filter /FlateDecode"
        head = b"<< %b%b /Length %d >>" % (entries, filtered, len(data))
        return self.put(b"%b\nstream\n%b\nendstream" % (head, data))

    def shown(self, font: Font, size_pt: float, text: str) -> str:
        """The operators that show `text`: a typeface holds at most 256 signs at a time."""
        face = typeface(font)
        shown = []
        for subset, codes in face.splitString(text, self._document):
            name = face.getSubsetInternalName(subset, self._document)
            shown.append(f"{name} {size_pt:g} Tf <{codes.hex()}> Tj")
        return " ".join(shown)

    def finish(self, root: int, info: int, identity: bytes, seal: Kind = "sha256") -> bytes:
        """The file, with the typefaces reduced to the signs that were shown.

        Its line for a sum or a `seal` is not filled in.
        """
        document = self._document
        for face in document.delayedFonts:
            face.addObjects(document)
        parts, places, at, number = [_HEAD], list[int](), len(_HEAD), 1
        while number in document.numberToId:
            held = document.idToObject[document.numberToId[number]]
            data: bytes = pdfdoc.format(held, document, toplevel=1)
            if data.endswith(b"endstream\n"):
                # An archive wants a line break there, which the library leaves out.
                data = data.removesuffix(b"endstream\n") + b"\nendstream"
            part = b"%d 0 obj\n%b\nendobj\n" % (number, data)
            parts.append(part)
            places.append(at)
            at += len(part)
            number += 1
        parts.append(open_line(seal))
        at += len(parts[-1])
        parts.append(b"xref\n0 %d\n0000000000 65535 f \n" % number)
        parts.append(b"".join(b"%010d 00000 n \n" % place for place in places))
        parts.append(
            b"trailer\n<< /Size %d /Root %d 0 R /Info %d 0 R /ID [<%b> <%b>] >>\n"
            b"startxref\n%d\n%%%%EOF\n" % (number, root, info, identity, identity, at)
        )
        return b"".join(parts)
