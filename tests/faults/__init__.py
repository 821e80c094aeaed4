"""What may go wrong around the program, brought about many times, and what came of it.

`python -m tests.faults` brings about everything in its long form and prints a table; the
tests take a short sample of the same.
"""
