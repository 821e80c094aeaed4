"""Papers whose answer is known, and what an instrument reads of a tablet printed on them."""

from collections.abc import Callable
from math import exp

from numpy.random import Generator

from provenance.craft.sensitometry.curve import Curve, fit_curve
from provenance.craft.sensitometry.logistic import Logistic, logistic_of_range
from provenance.craft.sensitometry.matching import Target
from provenance.craft.sensitometry.steps import Step, nominal_tablet

Answer = Callable[[float], float]
"""Density against log H."""

D_MIN, D_MAX = 0.05, 2.05
EXPOSED = 1.6
"""Log H of the clearest step of the tablet."""
TABLET = nominal_tablet(31)
TONES = tuple(Target(f"{d:g}", d) for d in (0.15, 0.35, 0.5, 0.65, 0.8, 1.0, 1.5, 1.8))


def paper(log_h: float, slower: float = 0.0) -> Logistic:
    """A logistic paper with a range and a speed."""
    return logistic_of_range(log_h, d_min=D_MIN, d_max=D_MAX, speed_point_log_h=slower)


def hump(log_h: float) -> float:
    """A paper of two emulsions, a steep fast one and a softer slow one.

    Its range is 1.46, found by solving the closed form.
    """
    fast = 1 / (1 + exp(-10 * (log_h + 0.45)))
    slow = 1 / (1 + exp(-6 * (log_h - 0.445)))
    return D_MIN + (D_MAX - D_MIN) * (0.4 * fast + 0.6 * slow)


def steps(answer: Answer, noise: Generator | None = None, times: int = 1) -> list[Step]:
    """Readings of a 31-step tablet, each step read so many times."""
    return [
        Step(EXPOSED - step, tuple(answer(EXPOSED - step) + _error(noise) for _n in range(times)))
        for step in TABLET
    ]


def curve(answer: Answer, noise: Generator | None = None, times: int = 1) -> Curve:
    """The curve fitted to such readings."""
    ends = [[end + _error(noise) for _n in range(times)] for end in (D_MIN, D_MAX)]
    return fit_curve(steps(answer, noise, times), *ends)


def _error(noise: Generator | None) -> float:
    return 0.0 if noise is None else float(noise.normal(0, 0.01))
