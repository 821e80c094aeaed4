"""What makes a PDF fit for an archive: PDF/A-3a (ISO 19005-3) and PDF/UA-1 (ISO 14289-1)."""

from collections.abc import Sequence

from provenance.documents.about import About, Attachment
from provenance.documents.colour import srgb_profile
from provenance.documents.pdf import PdfFile, date_string, text_string
from provenance.documents.xmp import packet


def put_catalog(
    file: PdfFile, about: About, attachments: Sequence[Attachment], *, pages: int, tags: int
) -> int:
    """Put the root of the file; `pages` and `tags` are the roots of their trees."""
    metadata = file.put_stream(packet(about), b"/Type /Metadata /Subtype /XML", raw=True)
    profile = file.put_stream(srgb_profile(), b"/N 3", packed=True)
    entries = [
        b"/Type /Catalog /Pages %d 0 R /StructTreeRoot %d 0 R" % (pages, tags),
        b"/MarkInfo << /Marked true >> /ViewerPreferences << /DisplayDocTitle true >>",
        b"/Lang %b /Metadata %d 0 R" % (text_string(about.language), metadata),
        b"/OutputIntents [<< /Type /OutputIntent /S /GTS_PDFA1"
        b" /OutputConditionIdentifier (sRGB) /Info (sRGB, IEC 61966-2-1)"
        b" /DestOutputProfile %d 0 R >>]" % profile,
    ]
    if attachments:
        held = [(one.name.encode(), _put_attachment(file, about, one)) for one in attachments]
        files = b" ".join(b"%d 0 R" % number for _, number in held)
        names = b" ".join(b"(%b) %d 0 R" % one for one in sorted(held))
        entries.append(b"/AF [%b] /Names << /EmbeddedFiles << /Names [%b] >> >>" % (files, names))
    return file.put(b"<< %b >>" % b" ".join(entries))


def put_info(file: PdfFile, about: About) -> int:
    """The older summary of the file, which many readers still show."""
    said = {"Title": about.title, "Author": about.author, "Subject": about.subject}
    said |= {"Creator": about.tool, "Producer": about.tool}
    words = b" ".join(b"/%b %b" % (k.encode(), text_string(v)) for k, v in said.items() if v)
    moment = date_string(about.issued_at_utc)
    return file.put(b"<< %b /CreationDate %b /ModDate %b >>" % (words, moment, moment))


def _put_attachment(file: PdfFile, about: About, one: Attachment) -> int:
    entries = b"/Type /EmbeddedFile /Subtype /%b /Params << /Size %d /ModDate %b >>" % (
        one.media_type.replace("/", "#2F").encode(),
        len(one.data),
        date_string(about.issued_at_utc),
    )
    data = file.put_stream(one.data, entries)
    name = b"(%b)" % one.name.encode("ascii")
    return file.put(
        b"<< /Type /Filespec /F %b /UF %b /Desc %b /AFRelationship /%b"
        b" /EF << /F %d 0 R /UF %d 0 R >> >>"
        % (name, name, text_string(one.about), one.relation.encode(), data, data)
    )
