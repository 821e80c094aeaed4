"""Stocks poured together: grams, moles, and the ratio that the record should keep."""

from dataclasses import dataclass
from fractions import Fraction

from provenance.craft.solutions.molar import moles
from provenance.craft.solutions.purity import Ware
from provenance.craft.solutions.strength import HUNDREDTH_ML_PER_L
from provenance.craft.solutions.volumes import Volumes, mix_volumes
from provenance.model.chemistry import Finish


@dataclass(frozen=True)
class Pour:
    """A volume of a stock of known strength; `substance` is its id in the table."""

    substance: str
    ware: Ware
    stock_mg_per_l: Fraction
    volume_hundredth_ml: int

    @property
    def mass_mg(self) -> Fraction:
        """What came with it of the ware."""
        return self.stock_mg_per_l * self.volume_hundredth_ml / HUNDREDTH_ML_PER_L

    @property
    def moles(self) -> float:
        """What came with it of the formula, in moles."""
        return moles(float(self.mass_mg), self.ware)


@dataclass(frozen=True)
class Blend:
    """Stocks poured together with water."""

    pours: tuple[Pour, ...]
    volumes: Volumes

    @property
    def litres(self) -> float:
        """The finished volume."""
        return self.volumes.finished_hundredth_ml / HUNDREDTH_ML_PER_L

    def g_per_l(self, pour: Pour) -> float:
        """Grams of the ware of `pour` in a litre of the blend."""
        return float(pour.mass_mg) / 1000 / self.litres

    def mol_per_l(self, pour: Pour) -> float:
        """Moles of the formula of `pour` in a litre of the blend."""
        return pour.moles / self.litres

    @property
    def mole_ratio(self) -> tuple[float, ...]:
        """Moles of each for one mole of the first; the volume of water does not change it."""
        return tuple(pour.moles / self.pours[0].moles for pour in self.pours)


def blend(pours: tuple[Pour, ...], finish: Finish, volume_hundredth_ml: int) -> Blend:
    """Stocks made up to a volume, or added to that volume of water.  Raises Refused."""
    liquids = tuple(pour.volume_hundredth_ml for pour in pours)
    return Blend(pours, mix_volumes(finish, volume_hundredth_ml, liquids))
