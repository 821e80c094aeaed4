"""Molar masses from formulas.

Weights are the standard atomic weights of IUPAC (2021), conventional or
abridged where an interval is given: rounded no further than the darkroom's
arithmetic needs.
"""

import re

from provenance.errors import Problem, Refused

ATOMIC_WEIGHTS = {
    "H": 1.008,
    "B": 10.81,
    "C": 12.011,
    "N": 14.007,
    "O": 15.999,
    "Na": 22.990,
    "Al": 26.982,
    "S": 32.06,
    "Cl": 35.45,
    "K": 39.0983,
    "Cr": 51.996,
    "Mn": 54.938,
    "Fe": 55.845,
    "Cu": 63.546,
    "Zn": 65.38,
    "Se": 78.971,
    "Br": 79.904,
    "Ag": 107.8682,
    "I": 126.904,
    "Au": 196.967,
}

_TOKEN = re.compile(
    r"(?P<element>[A-Z][a-z]?)(?P<n>[0-9]*)|(?P<open>[(\[])|(?P<close>[)\]])(?P<times>[0-9]*)"
)
_CLOSES = {"(": ")", "[": "]"}


def molar_mass(formula: str) -> float:
    """Grams in a mole of ``Na2S2O3·5H2O``, ``K3[Fe(CN)6]``, ``(NH4)2S2O3``.

    Raises Refused for an element that is not in the table and for brackets
    that do not match.
    """
    return sum(_part_mass(part, formula) for part in formula.split("·"))


def waters(formula: str) -> int:
    """Moles of water of crystallisation in a mole: 5 for ``Na2S2O3·5H2O``."""
    dots = [part for part in formula.split("·")[1:] if part.endswith("H2O")]
    return sum(int(part.removesuffix("H2O") or 1) for part in dots)


def anhydrous(formula: str) -> str:
    """`formula` without its water of crystallisation."""
    first, *parts = formula.split("·")
    return "·".join([first, *(part for part in parts if not part.endswith("H2O"))])


def _part_mass(part: str, formula: str) -> float:
    """The mass of one side of a hydrate's dot, with its leading number."""
    if re.search("[0-9]{5}", part):
        raise _unreadable(formula, "a number in it has five figures or more")
    count = re.match(r"[0-9]*", part)
    leading = count[0] if count else ""
    body = part[len(leading) :]
    masses, brackets, position = [0.0], [], 0
    while position < len(body):
        token = _TOKEN.match(body, position)
        if token is None:
            raise _unreadable(formula, f"“{body[position]}” is not part of a formula")
        position = token.end()
        if element := token["element"]:
            if element not in ATOMIC_WEIGHTS:
                raise _unreadable(formula, f"the atomic weight of {element} is not on hand")
            masses[-1] += ATOMIC_WEIGHTS[element] * int(token["n"] or 1)
        elif token["open"]:
            masses.append(0.0)
            brackets.append(token["open"])
        elif brackets and _CLOSES[brackets.pop()] == token["close"]:
            group = masses.pop()
            masses[-1] += group * int(token["times"] or 1)
        else:
            raise _unreadable(formula, "a bracket closes that was not opened")
    if brackets or not body:
        raise _unreadable(formula, "a bracket is left open" if body else "a part is empty")
    return masses[0] * int(leading or 1)


def _unreadable(formula: str, why: str) -> Refused:
    return Refused(
        Problem(
            what=f"the formula “{formula}” cannot be read: {why}",
            mend="write it as Na2S2O3·5H2O, with a raised dot before the water",
        )
    )
