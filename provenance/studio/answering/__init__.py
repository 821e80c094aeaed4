"""What the record of a print answers to a collector or a conservator."""
