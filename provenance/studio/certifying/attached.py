"""What is attached to a certificate, and under which names."""

from provenance.documents.about import Attachment
from provenance.documents.template import CertificateLayout
from provenance.studio.keys.ring import PUBLIC_NAME, Signer

RECORD_NAME, SIGNATURE_NAME = "record.json", "record.sig"


def attachments(
    record: bytes, signer: Signer | None, layout: CertificateLayout
) -> tuple[Attachment, ...]:
    """The record; beside it, where there is a key, its signature and the key's public half."""
    labels = layout.labels
    held = [Attachment(RECORD_NAME, "application/json", record, labels["attached"])]
    if signer is not None:
        signature = signer.sign(record)
        held += [
            Attachment(
                SIGNATURE_NAME,
                "application/octet-stream",
                signature,
                labels["attached_signature"],
                "Supplement",
            ),
            Attachment(
                PUBLIC_NAME,
                "application/x-pem-file",
                signer.public.pem,
                labels["attached_key"],
                "Supplement",
            ),
        ]
    return tuple(held)
