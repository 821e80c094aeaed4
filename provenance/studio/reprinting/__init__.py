"""Printing a negative again so that it matches: what is on record, the plan, the match."""
