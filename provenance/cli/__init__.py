"""The command line: asks, shows, and nothing else."""
