"""Put marks on pages.  Everything that reaches the paper goes through `Paper.draw`."""

import hashlib
from collections.abc import Callable, Iterable, Sequence

from provenance.documents.about import About, Attachment
from provenance.documents.archive import put_catalog, put_info
from provenance.documents.marks import (
    Drawing,
    Element,
    Ink,
    Mark,
    Picture,
    Rule,
    Squares,
    Style,
    Words,
    jpeg_header,
)
from provenance.documents.pdf import PdfFile
from provenance.documents.seal import Kind, fill
from provenance.documents.tags import Tags

__all__ = [
    "MM",
    "SIZES_PT",
    "About",
    "Attachment",
    "Drawing",
    "Element",
    "Ink",
    "Mark",
    "Paper",
    "Picture",
    "Rule",
    "Squares",
    "Style",
    "Words",
    "jpeg_header",
]

MM = 72 / 25.4
"""One millimetre in points."""

SIZES_PT = {"A4": (210 * MM, 297 * MM), "letter": (8.5 * 72, 11 * 72)}


class Paper:
    """A tagged PDF for the archive, in the making.  Equal calls give equal bytes."""

    def __init__(
        self, about: About, size_pt: tuple[float, float], attachments: Sequence[Attachment] = ()
    ) -> None:
        self._about, self._size_pt, self._attachments = about, size_pt, attachments
        self._file = PdfFile()
        self._tree = self._file.reserve()
        self._tags = Tags(self._file)
        self._pages: list[int] = []
        self._pictures: dict[bytes, int] = {}
        self._page = 0
        self._code: list[str] = []
        self._grey: float | None = None

    def draw(self, marks: Iterable[Mark], top_pt: float) -> None:
        """Put `marks` on the page; their slab begins `top_pt` above its lower edge."""
        self._page = self._page or self._file.reserve()
        for mark in marks:
            element = mark.element
            if element.role == "Artifact":
                self._code.append("/Artifact BMC")
            else:
                marked = self._tags.mark(element, self._page)
                self._code.append(f"/{element.role} <</MCID {marked}>> BDC")
            for ink in mark.inks:
                self._put(ink, top_pt - ink.down_pt, element)
            self._code.append("EMC")

    def turn(self) -> None:
        """Go to a new page."""
        self._page = self._page or self._file.reserve()
        contents = self._file.put_stream("\n".join(self._code).encode())
        pictures = b" ".join(b"/Im%d %d 0 R" % (one, one) for one in self._pictures.values())
        self._file.put(
            b"<< /Type /Page /Parent %d 0 R /MediaBox [0 0 %.4f %.4f] /Contents %d 0 R"
            b" /Resources << /Font %d 0 R /XObject << %b >> >> /StructParents %d /Tabs /S >>"
            % (
                self._tree,
                *self._size_pt,
                contents,
                self._file.fonts,
                pictures,
                self._tags.turn(self._page),
            ),
            self._page,
        )
        self._pages.append(self._page)
        self._page, self._code, self._grey = 0, [], None

    def finish(self, sign: Callable[[bytes], bytes] | None = None) -> bytes:
        """The file, when the last page has been turned.

        `sign` gives the Ed25519 signature that seals it; without it the file
        bears its sum.
        """
        file, pages = self._file, self._pages
        kids = b" ".join(b"%d 0 R" % page for page in pages)
        file.put(b"<< /Type /Pages /Kids [%b] /Count %d >>" % (kids, len(pages)), self._tree)
        root = put_catalog(
            file, self._about, self._attachments, pages=self._tree, tags=self._tags.finish()
        )
        identity = hashlib.sha256(self._about.identity).hexdigest()[:32].encode()
        kind: Kind = "ed25519" if sign else "sha256"
        return fill(file.finish(root, put_info(file, self._about), identity, kind), sign)

    def _put(self, ink: Ink, y_pt: float, element: Element) -> None:
        if isinstance(ink, Words):
            # A line ends with a space, so that no reader joins it to the next.
            style, text = ink.style, f"{ink.text} "
            shown = self._file.shown(style.font, style.size_pt, text)
            self._code.append(f"BT {self._fill(style.grey)}{ink.x_pt:.3f} {y_pt:.3f} Td {shown} ET")
        elif isinstance(ink, Rule):
            self._code.append(
                f"{ink.grey:g} G {ink.weight_pt:g} w {ink.x_pt:.3f} {y_pt:.3f} m"
                f" {ink.x_pt + ink.width_pt:.3f} {y_pt:.3f} l S"
            )
        elif isinstance(ink, Picture):
            y_pt -= ink.height_pt
            self._code.append(
                f"q {ink.width_pt:.3f} 0 0 {ink.height_pt:.3f} {ink.x_pt:.3f} {y_pt:.3f} cm"
                f" /Im{self._picture(ink.jpeg)} Do Q"
            )
            box = (ink.x_pt, y_pt, ink.x_pt + ink.width_pt, y_pt + ink.height_pt)
            self._tags.frame(element, box)
        elif isinstance(ink, Drawing):
            self._put_drawing(ink, y_pt)
            box = (ink.x_pt, y_pt - ink.height_pt, ink.x_pt + ink.width_pt, y_pt)
            self._tags.frame(element, box)
        else:
            self._put_squares(ink, y_pt)
            box = (ink.x_pt, y_pt - ink.side_pt, ink.x_pt + ink.side_pt, y_pt)
            self._tags.frame(element, box)

    def _put_drawing(self, drawing: Drawing, y_pt: float) -> None:
        code = ["q 1 J 1 j 0 G"]
        for stroke in drawing.strokes:
            code.append(f"{stroke.weight_pt:g} w [{'3 3' if stroke.dashed else ''}] 0 d")
            path = (
                f"{drawing.x_pt + x:.2f} {y_pt - down:.2f} {'l' if at else 'm'}"
                for at, (x, down) in enumerate(stroke.points)
            )
            code.append(f"{' '.join(path)} S")
        self._code.append(" ".join((*code, "Q")))

    def _fill(self, grey: float) -> str:
        if grey == self._grey:
            return ""
        self._grey = grey
        return f"{grey:g} g "

    def _picture(self, jpeg: bytes) -> int:
        key = hashlib.sha256(jpeg).digest()
        if key not in self._pictures:
            (width, height), colours = jpeg_header(jpeg)
            entries = b"/Type /XObject /Subtype /Image /BitsPerComponent 8 /Filter [/DCTDecode]"
            entries += b" /Width %d /Height %d /ColorSpace /%b" % (width, height, colours.encode())
            self._pictures[key] = self._file.put_stream(jpeg, entries, raw=True)
        return self._pictures[key]

    def _put_squares(self, squares: Squares, top_pt: float) -> None:
        module_pt = squares.side_pt / len(squares.rows)
        path = [
            f"q {squares.grey:g} g",
            f"{module_pt:.5f} 0 0 {-module_pt:.5f} {squares.x_pt:.3f} {top_pt:.3f} cm",
        ]
        for down, row in enumerate(squares.rows):
            at = row.find(1)
            while at >= 0:
                end = row.find(0, at)
                end = len(row) if end < 0 else end
                path.append(f"{at} {down} {end - at} 1 re")
                at = row.find(1, end)
        # One path, filled once: between two fills a screen shows a hair of white.
        self._code.append(" ".join(path) + " f Q")
