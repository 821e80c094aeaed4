"""The certificate's page as plain reportlab would draw it: no checks, no order, no reuse."""

import io
from collections.abc import Iterator

from reportlab.lib.pagesizes import A4
from reportlab.lib.utils import ImageReader, simpleSplit
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from provenance.documents.content import CertificatePage
from provenance.resources import resource

SERIF, SANS = "PlainSerif", "PlainSans"


def draw_plain(content: CertificatePage) -> bytes:
    """The same words and picture, one line below the other."""
    for name, file in ((SERIF, "EBGaramond_400Regular.ttf"), (SANS, "SourceSans3_400Regular.ttf")):
        if name not in pdfmetrics.getRegisteredFontNames():
            pdfmetrics.registerFont(TTFont(name, str(resource("templates", "fonts", file))))
    out = io.BytesIO()
    canvas = Canvas(out, pagesize=A4)
    top = A4[1] - 72.0
    canvas.drawImage(ImageReader(io.BytesIO(content.picture_jpeg)), 72, top - 200, 250, 200)
    top -= 220
    for font, size, text in _texts(content):
        canvas.setFont(font, size)
        for row in simpleSplit(text, font, size, 440):
            canvas.drawString(72, top, row)
            top -= size * 1.3
    canvas.save()
    return out.getvalue()


def _texts(content: CertificatePage) -> Iterator[tuple[str, float, str]]:
    yield SERIF, 21, f"{content.title} {content.designation}"
    yield SERIF, 10.5, f"{content.artist} {content.place}"
    for label, value in content.particulars:
        yield SANS, 7.5, label
        yield SERIF, 10.5, value
    for heading, sentences in content.sections:
        yield SANS, 7.5, heading
        for sentence, standing in sentences:
            yield SERIF, 10.5, sentence
            yield SANS, 7.5, standing
    for care in content.care:
        yield SERIF, 10.5, care
    yield SANS, 7.5, f"{content.number} {content.record_sha256} {content.journal_head_sha256}"
    yield SANS, 7.5, content.journal_note
