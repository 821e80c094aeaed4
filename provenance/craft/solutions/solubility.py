"""Whether as much dissolves as is meant to."""

from dataclasses import dataclass

from provenance.craft.substances import Solubility, Substance


@dataclass(frozen=True)
class TooMuch:
    """More than dissolves: a warning with the figure that it rests on."""

    substance: Substance
    wanted_g_per_l: float
    limit: Solubility


def too_much(substance: Substance, wanted_mg_per_l: float) -> TooMuch | None:
    """A warning when more is wanted than dissolves at 20 °C; None when it fits or is not known."""
    limit = substance.solubility
    if limit is None or wanted_mg_per_l <= limit.g_per_l * 1000:
        return None
    return TooMuch(substance, wanted_mg_per_l / 1000, limit)
