"""A record keeper for photographs printed by hand."""

__version__ = "0.1.0"
