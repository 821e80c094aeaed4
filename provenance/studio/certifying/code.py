"""What the QR code of a certificate holds."""


def code_text(number: str, record_sha256: str, address: str = "") -> str:
    """Number and digest, behind the studio's address where it has one.

    The digest follows a number sign: a browser keeps that part to itself.
    Without an address both are in capitals, which make the smaller code.
    """
    if address:
        return f"{address.rstrip('/')}/{number}#{record_sha256}"
    return f"{number} {record_sha256}".upper()
