"""Reads TOML that anybody may have written."""

import tomllib
from typing import Any


def read_toml(text: str) -> dict[str, Any]:
    """What `text` says.

    Raises tomllib.TOMLDecodeError for everything that it cannot be read for,
    also where the standard parser fails in another way: brackets nested without
    end, and numbers of thousands of figures.
    """
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        raise
    except RecursionError as error:
        raise tomllib.TOMLDecodeError("Its brackets are nested too deep") from error
    except ValueError as error:
        raise tomllib.TOMLDecodeError(f"A value cannot be read: {error}") from error
