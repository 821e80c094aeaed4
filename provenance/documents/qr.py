"""A text as a QR code (ISO/IEC 18004)."""

import segno

_MASK = 2
"""Any of the eight is valid; trying all takes longer than drawing the page."""


def code_rows(text: str) -> tuple[bytes, ...]:
    """The modules of the code, row by row from the top; 1 is black.

    Level M: the code is read with up to 15 % of it spoilt.  The paper around it
    must stay white, four modules wide.
    """
    code = segno.make_qr(text, error="m", mask=_MASK, boost_error=False)
    return tuple(bytes(row) for row in code.matrix)
