"""The terminal application: places, dialogs and widgets; asks and shows, nothing else."""

import gc

# Opening makes many objects that stay to the end: with the usual threshold the
# collector goes through all of them dozens of times before the first paint.
gc.set_threshold(20_000, 20, 20)
