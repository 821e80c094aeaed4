"""Solutions: strengths, volumes, hydrates and assays, moles, what to weigh out.

Masses and volumes are whole numbers of the smallest unit kept; strengths are
exact fractions of milligrams in a litre; only moles, heats and densities, which
rest on measured figures, are floating-point numbers.
"""
