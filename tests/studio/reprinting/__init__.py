"""Tests of reprints."""
