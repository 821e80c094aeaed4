"""What a file says of itself in XMP (ISO 16684): title, makers, dates, and what it conforms to."""

from datetime import UTC
from xml.sax.saxutils import escape

from provenance.documents.about import About

_PACKET = """\
<?xpacket begin="\N{ZERO WIDTH NO-BREAK SPACE}" id="W5M0MpCehiHzreSzNTczkc9d"?>
<x:xmpmeta xmlns:x="adobe:ns:meta/">
<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">
<rdf:Description rdf:about=""
 xmlns:dc="http://purl.org/dc/elements/1.1/"
 xmlns:pdf="http://ns.adobe.com/pdf/1.3/"
 xmlns:xmp="http://ns.adobe.com/xap/1.0/"
 xmlns:pdfaid="http://www.aiim.org/pdfa/ns/id/"
 xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/"
 xmlns:pdfaExtension="http://www.aiim.org/pdfa/ns/extension/"
 xmlns:pdfaSchema="http://www.aiim.org/pdfa/ns/schema#"
 xmlns:pdfaProperty="http://www.aiim.org/pdfa/ns/property#">
<pdfaid:part>3</pdfaid:part>
<pdfaid:conformance>A</pdfaid:conformance>
<pdfuaid:part>1</pdfuaid:part>
<pdfaExtension:schemas><rdf:Bag><rdf:li rdf:parseType="Resource">
<pdfaSchema:schema>PDF/UA identification</pdfaSchema:schema>
<pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI>
<pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix>
<pdfaSchema:property><rdf:Seq><rdf:li rdf:parseType="Resource">
<pdfaProperty:name>part</pdfaProperty:name>
<pdfaProperty:valueType>Integer</pdfaProperty:valueType>
<pdfaProperty:category>internal</pdfaProperty:category>
<pdfaProperty:description>Part of ISO 14289 that the file follows</pdfaProperty:description>
</rdf:li></rdf:Seq></pdfaSchema:property>
</rdf:li></rdf:Bag></pdfaExtension:schemas>
{properties}
</rdf:Description>
</rdf:RDF>
</x:xmpmeta>
<?xpacket end="w"?>
"""


def packet(about: About) -> bytes:
    """The XMP packet of a file."""
    moment = about.issued_at_utc.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
    properties = {
        "dc:format": "application/pdf",
        "dc:language": _listed("Bag", about.language),
        "dc:title": _spoken(about.title),
        "dc:creator": _listed("Seq", about.author),
        "dc:description": _spoken(about.subject),
        "dc:identifier": escape(about.identifier),
        "dc:date": _listed("Seq", moment),
        "xmp:CreateDate": moment,
        "xmp:ModifyDate": moment,
        "xmp:CreatorTool": about.tool,
        "pdf:Producer": about.tool,
    }
    lines = (f"<{name}>{value}</{name}>" for name, value in properties.items() if value)
    return _PACKET.format(properties="\n".join(lines)).encode()


def _listed(kind: str, text: str) -> str:
    return text and f"<rdf:{kind}><rdf:li>{escape(text)}</rdf:li></rdf:{kind}>"


def _spoken(text: str) -> str:
    return text and f'<rdf:Alt><rdf:li xml:lang="x-default">{escape(text)}</rdf:li></rdf:Alt>'
