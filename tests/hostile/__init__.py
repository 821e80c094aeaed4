"""Input that nobody means well with; `python -m tests.hostile` tries more of it."""
