"""Reads TOML that anybody may have written."""

import tomllib
from typing import Any

_DEEPEST = 40
"""How many tables and lists may stand in one another; an honest file has four."""


def read_toml(text: str) -> dict[str, Any]:
    """What `text` says.

    Raises tomllib.TOMLDecodeError for everything that it cannot be read for,
    also where the standard parser fails in another way or lets too much pass:
    brackets or dotted keys nested without end, and numbers of thousands of figures.
    """
    try:
        # the parser lets half a character pass, which no text can hold
        text.encode("utf-8")
        read = tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        raise
    except UnicodeEncodeError as error:
        raise tomllib.TOMLDecodeError("It holds half a character") from error
    except RecursionError as error:
        raise tomllib.TOMLDecodeError("It is nested too deep") from error
    except ValueError as error:
        raise tomllib.TOMLDecodeError(f"A value cannot be read: {error}") from error
    if not _shallow(read):
        raise tomllib.TOMLDecodeError("It is nested too deep")
    return read


def _shallow(read: dict[str, Any]) -> bool:
    level: list[Any] = [read]
    for _ in range(_DEEPEST):
        level = [
            inner
            for outer in level
            if isinstance(outer, dict | list)
            for inner in (outer.values() if isinstance(outer, dict) else outer)
        ]
        if not level:
            return True
    return False
