"""Budgets of speed and memory, each as a ratio against a plain baseline in the same run.

    python -m tests.benchmarks            every row
    python -m tests.benchmarks write list   only rows whose names hold these words

These are measurements, not tests: they pass no judgement in pytest.
"""
