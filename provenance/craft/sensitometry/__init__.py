"""How a paper answers to light: its curve, its range, and what another paper needs to match it.

Densities are density units, exposures log H relative to the light at the easel:
only differences of log H mean anything.  Errors are standard errors.
"""
