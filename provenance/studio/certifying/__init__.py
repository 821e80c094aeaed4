"""Certifying a print: from its history to a paper, and the entry that remembers it."""
