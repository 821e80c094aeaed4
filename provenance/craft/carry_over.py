"""What a sheet takes along from one bath into the next."""

from provenance.craft.residual import area_m2
from provenance.model.quantities import Size
from provenance.model.sources import Sourced

_SHEET = Size(height_tenth_mm=2032, width_tenth_mm=2540)
ML_PER_M2 = 20 / area_m2(_SHEET)
"""A sheet of 8 x 10 in that was let drip carries about 20 ml."""

SOURCE = Sourced("P", "20 ml with a drained sheet of 8 x 10 in")


def carried_over_mg(size: Size, mg_per_l: float) -> float:
    """What one sheet carries out of a bath that holds so much; an estimate (`SOURCE`)."""
    return area_m2(size) * ML_PER_M2 / 1000 * mg_per_l
