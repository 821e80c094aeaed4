"""The kinds of text that a day sheet is written in."""

from typing import Annotated

import msgspec

Written = Annotated[str, msgspec.Meta(min_length=1)]
"""Text that says something."""

Names = Annotated[list[Written], msgspec.Meta(min_length=1)]
"""At least one pencil mark, or name of a print."""

When = Written
"""A date: written as TOML's own or as an EDTF text such as "1998~"."""
