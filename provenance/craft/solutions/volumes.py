"""“Made up to a litre” and “into a litre of water”: two readings, two strengths."""

from dataclasses import dataclass
from fractions import Fraction
from typing import get_args

from provenance.errors import Problem, Refused
from provenance.model.chemistry import Finish

ADDITIVE = "volumes of liquids are taken to add up, and solids to take no room"
"""The assumption that every finished volume here rests on."""


FINISHES: tuple[Finish, ...] = get_args(Finish)
"""Both readings, the stronger first."""


@dataclass(frozen=True)
class Volumes:
    """The liquids of one mix, in hundredths of a millilitre."""

    finish: Finish
    liquids_hundredth_ml: tuple[int, ...]
    water_hundredth_ml: int

    @property
    def finished_hundredth_ml(self) -> int:
        """All of it."""
        return sum(self.liquids_hundredth_ml) + self.water_hundredth_ml


def mix_volumes(
    finish: Finish, volume_hundredth_ml: int, liquids_hundredth_ml: tuple[int, ...]
) -> Volumes:
    """What stands in the tray when liquids are made up to, or added to, a volume.

    Raises Refused for a liquid that is not above zero, and when more is poured
    in than the volume it is made up to.
    """
    if min((volume_hundredth_ml, *liquids_hundredth_ml)) <= 0:
        raise Refused(
            Problem(what="a volume to mix is not above zero", field="volume", mend="give it in ml")
        )
    poured = sum(liquids_hundredth_ml)
    if finish == "added to":
        return Volumes(finish, liquids_hundredth_ml, volume_hundredth_ml)
    if poured > volume_hundredth_ml:
        raise Refused(
            Problem(
                what="more is poured in than the volume it is made up to",
                field="volume",
                mend="make up to a larger volume, or take less of the stocks",
            )
        )
    return Volumes(finish, liquids_hundredth_ml, volume_hundredth_ml - poured)


def weaker_when_added(volume_hundredth_ml: int, liquids_hundredth_ml: tuple[int, ...]) -> Fraction:
    """How much weaker liquids are when added to a volume than when made up to it."""
    added = mix_volumes("added to", volume_hundredth_ml, liquids_hundredth_ml)
    return Fraction(sum(liquids_hundredth_ml), added.finished_hundredth_ml)
