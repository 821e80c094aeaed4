"""What a label says: of a substance as it is sold, and of a solution by its strength."""

import math
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from provenance.craft.hazards.contents import Content
from provenance.craft.hazards.tables import Hazards, Rung
from provenance.craft.substances import Substance, Substances

BURNS = "H314"


@dataclass(frozen=True)
class Label:
    """Codes with what follows from them; an estimate for a mixture."""

    codes: tuple[str, ...]
    beneath: tuple[str, ...]
    """Codes of what is in it that fall below their limit at this strength."""
    some_suppliers: tuple[str, ...]
    """Codes that only some suppliers give to what is in it."""
    signal_word: str
    pictograms: tuple[str, ...]
    precautions: tuple[str, ...]
    ph_at_least: float | None = None
    """The pH that the hydroxide in it gives, where that alone makes it burn."""
    not_known: tuple[str, ...] = ()
    """Ids of what is in it for which no source of hazards was consulted."""


def label_of(substance: Substance, hazards: Hazards) -> Label:
    """The label of a substance as it is sold; its signal word and pictograms are the source's."""
    hazard = substance.hazard
    codes = hazard.h_codes + hazard.euh_codes
    return Label(
        codes=codes,
        beneath=(),
        some_suppliers=hazard.some_suppliers,
        signal_word=hazard.signal_word,
        pictograms=hazard.pictograms,
        precautions=_precautions(codes, hazards),
        not_known=() if hazard.grade else (substance.id,),
    )


def label_of_mix(contents: tuple[Content, ...], substances: Substances, hazards: Hazards) -> Label:
    """The label that a solution is estimated to need.

    Percentages of substances with the same code are added up and held against
    the limits of that code; different codes are not added to each other, which
    can make the estimate too mild.  A solution whose hydroxide lifts it above
    the pH that burns is labelled so whatever its percentage.
    """
    held = [(one, substances.by_id(one.substance)) for one in contents]
    percent: dict[tuple[str, tuple[Rung, ...] | None], float] = defaultdict(float)
    for content, substance in held:
        for code in substance.hazard.h_codes + substance.hazard.euh_codes:
            percent[code, _ladder(code, substance.id, hazards)] += content.percent
    found: dict[str, None] = {}
    named: dict[str, None] = {}
    for (code, ladder), sum_percent in percent.items():
        named[code] = None
        found |= dict.fromkeys(_reached(code, ladder, sum_percent))
    ph = alkaline_ph(contents, hazards)
    burns = ph is not None and ph > hazards.burns_above_ph
    if burns:
        found[BURNS] = None
    codes = _milder_dropped(found)
    return Label(
        codes=codes,
        beneath=tuple(code for code in named if code not in codes),
        some_suppliers=tuple(
            dict.fromkeys(code for _c, one in held for code in one.hazard.some_suppliers)
        ),
        signal_word=_signal_word(codes, hazards),
        pictograms=pictograms_for(codes, hazards),
        precautions=_precautions(codes, hazards),
        ph_at_least=ph if burns else None,
        not_known=tuple(one.id for _c, one in held if one.hazard.grade is None),
    )


def alkaline_ph(contents: Iterable[Content], hazards: Hazards) -> float | None:
    """The pH that hydroxide gives, fully dissociated and unbuffered; None without any."""
    mol_per_l = sum(
        (one.mol_per_l or 0.0) * hazards.hydroxide.get(one.substance, 0.0) for one in contents
    )
    return 14 + math.log10(mol_per_l) if mol_per_l > 0 else None


def pictograms_for(codes: Iterable[str], hazards: Hazards) -> tuple[str, ...]:
    """Pictogram codes, without the exclamation mark where a graver one says it already."""
    codes = tuple(codes)
    found = {hazards.statement[code].pictogram for code in codes} - {""}
    graver = {"GHS06"}
    if not any(
        code not in ("H315", "H319") and hazards.statement[code].pictogram == "GHS07"
        for code in codes
    ):
        graver.add("GHS05")
    if found & graver:
        found.discard("GHS07")
    return tuple(sorted(found))


def _ladder(code: str, substance_id: str, hazards: Hazards) -> tuple[Rung, ...] | None:
    for specific in hazards.specific:
        if (specific.substance, specific.code) == (substance_id, code):
            return specific.ladder
    return hazards.statement[code].ladder


def _reached(code: str, ladder: tuple[Rung, ...] | None, percent: float) -> tuple[str, ...]:
    if ladder is None:
        return (code,)
    return next((rung.gives for rung in ladder if percent >= rung.percent), ())


_GRAVER = {
    "H314": ("H315", "H318", "H319"),
    "H318": ("H319",),
    "H300": ("H301", "H302"),
    "H301": ("H302",),
    "H310": ("H311", "H312"),
    "H311": ("H312",),
    "H330": ("H331", "H332"),
    "H331": ("H332",),
    "H372": ("H373",),
    "H410": ("H400", "H411", "H412"),
    "H411": ("H412",),
}
"""A code, and those that it includes."""


def _milder_dropped(codes: Iterable[str]) -> tuple[str, ...]:
    codes = tuple(codes)
    included = {milder for code in codes for milder in _GRAVER.get(code, ())}
    return tuple(sorted(code for code in codes if code not in included))


def _signal_word(codes: Iterable[str], hazards: Hazards) -> str:
    words = {hazards.statement[code].signal for code in codes}
    return next((word for word in ("Danger", "Warning") if word in words), "")


def _precautions(codes: Iterable[str], hazards: Hazards) -> tuple[str, ...]:
    return tuple(dict.fromkeys(p for code in codes for p in hazards.statement[code].precautions))
