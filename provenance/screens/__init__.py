"""The terminal application: places, dialogs and widgets; asks and shows, nothing else."""
