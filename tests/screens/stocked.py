"""A studio whose shelf has something on it: a pair of stocks, a loaded fixer, a spent toner."""

from pathlib import Path
from typing import Any

from provenance.model.chemistry import Bath
from provenance.model.quantities import Size
from provenance.records.register import Register
from provenance.studio.chemicals import load_chemicals
from provenance.studio.formulas import load_formula
from provenance.studio.shelf.weighing import mix_stock, weigh
from tests import studios

SHEETS = 14
EIGHT_BY_TEN = Size(height_tenth_mm=2032, width_tenth_mm=2540)
_IMAGE = Size(height_tenth_mm=1800, width_tenth_mm=2400)


def stocked(folder: Path) -> dict[str, int]:
    """Fourteen sheets of 8 x 10 in through a litre of fixer; the ids by code and mark.

    By the usual estimate the last two of them were past 0.5 g/L; the last has a
    certificate.
    """
    chemicals = load_chemicals()
    ids: dict[str, int] = {}
    with studios.new_register(folder) as register:
        with register.act(studios.WHO) as act:
            shelf = studios.furnish(act)
            for code, formula, day in (
                ("thiourea-A", "thiourea-stock", "2031-05-01"),
                ("hydroxide-B", "hydroxide-stock", "2031-05-01"),
                ("aid-S", "washing-aid", "2031-01-01"),
            ):
                found = load_formula(formula, chemicals.substances)
                weighing = weigh(found, 100_000, chemicals)
                ids[code] = mix_stock(act, weighing, code=code, mixed_on=day)
            ids["thio"] = act.enter(
                studios.bath(
                    studios.draw(ids["hydroxide-B"], 86_000), code="thio", made_on="2031-05-03"
                )
            )
            fresh: dict[str, Any] = {"role": "fix", "made_on": "2031-05-30"}
            ids["fixC"] = act.enter(Bath(code="fixC", volume_hundredth_ml=100_000, **fresh))
        studios.revise(register, shelf.fix, volume_hundredth_ml=100_000, made_on="2031-05-02")
        ids |= {"F-1": shelf.fix, "W-1": shelf.wash, "FB-1": shelf.paper}
        for number in range(1, SHEETS + 1):
            sheet = studios.sheet(shelf, f"Q{number:02}", sheet=EIGHT_BY_TEN, image=_IMAGE)
            ids[f"Q{number:02}"] = studios.enter(register, sheet)
        marks = [ids[f"Q{number:02}"] for number in range(1, SHEETS + 1)]
        studios.enter(register, studios.step(shelf, *marks, done_on="2031-05-02"))
        studios.enter(
            register,
            studios.step(
                shelf, marks[0], role="thiourea", bath=ids["thio"], place=2, done_on="2031-05-03"
            ),
        )
        _certify(register, ids["Q14"])
    return ids


def _certify(register: Register, record: int) -> None:
    signature = studios.signature(where="front", on="2031-05-10")
    studios.revise(register, record, designation="14/25", signature=signature)
    studios.enter(register, studios.scan(record, b"thumbnail"))
    studios.enter(register, studios.certificate(register, record, b"%PDF-"))
