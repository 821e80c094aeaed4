"""How far something that takes a while has come."""

from collections.abc import Callable
from contextvars import ContextVar

Progress = Callable[[str, int, int], None]
"""Told what is being done, how much of it is done, and how much there is."""

AT_THE_DOOR: ContextVar[Progress | None] = ContextVar("at the door", default=None)
"""Told how far a register has come that takes long to open, since another release wrote its view.

Every command may be the first to open it: who starts them sets this once, for all.
"""
