"""The shelf: bottles, trays, papers; what to mix, and what became of it."""
