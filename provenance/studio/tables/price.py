"""A price as a table gives it: an amount with its currency."""

import unicodedata

from provenance.errors import Problem, Refused


def read_price(text: str) -> str:
    """`text` as it is.  Raises Refused for a bare number: of what is not said anywhere else.

    What is no number (“as a gift”) is a price too.
    """
    if any(one.isalpha() or unicodedata.category(one) == "Sc" for one in text):
        return text
    raise Refused(Problem(f"“{text[:40]}” has no currency", mend=f"write it as {text[:40]} EUR"))
