"""The arithmetic of the enlarger: stops, areas, magnification, lenses, strips, reprints.

Times are seconds, changes of exposure are stops or log H (one stop is 0.30103).
Nothing here is rounded; whoever shows a time rounds it to what a timer can set.
"""
