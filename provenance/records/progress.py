"""How far something that takes a while has come."""

from collections.abc import Callable

Progress = Callable[[str, int, int], None]
"""Told what is being done, how much of it is done, and how much there is."""
