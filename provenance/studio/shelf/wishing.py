"""What somebody wishes to mix, read as it is written: bottles or a formula, parts or volumes."""

from collections.abc import Sequence
from dataclasses import replace

from provenance.craft.dilution import ColonMeans, parse_dilution
from provenance.craft.substances import Substances
from provenance.craft.units import parse_volume_hundredth_ml
from provenance.errors import NotFound, Problem, Refused
from provenance.model.chemistry import Stock
from provenance.model.formula import Formula
from provenance.model.quantities import Dilution
from provenance.records.at_hand import bottles_in_use
from provenance.records.reader import Reader, Stored
from provenance.studio.folder import StudioFolder
from provenance.studio.formulas import formula_codes, load_formula

_FIGURE = "0123456789., /"


def read_taken(text: str, *, colon_means: ColonMeans | None) -> Dilution | tuple[int, ...]:
    """``1+19`` and ``20+80+900`` as parts, water last; ``20 ml + 80 ml`` as what is poured.

    A volume without a unit takes that of the last one that has any.  Raises
    Refused, for a colon with both readings unless the studio has chosen.
    """
    parts = [one.strip() for one in text.split("+")]
    units = [unit for one in parts if (unit := one.lstrip(_FIGURE))]
    if not units or ":" in text:
        try:
            return parse_dilution(text, colon_means=colon_means, field="dilution")
        except Refused as error:
            raise Refused(*(_with_volumes(one) for one in error.problems)) from error
    return tuple(
        parse_volume_hundredth_ml(
            one if one.lstrip(_FIGURE) else f"{one} {units[-1]}", field="dilution"
        )
        for one in parts
    )


def _with_volumes(problem: Problem) -> Problem:
    """A problem of a dilution, where volumes would have been understood as well."""
    if "not a dilution" not in problem.what:
        return problem
    mend = "write parts, water last: 1+9 or 20+80+900; or how much of each: 20 ml + 80 ml"
    return replace(problem, mend=mend)


def find_sources(
    reader: Reader, folder: StudioFolder, names: Sequence[str], substances: Substances
) -> tuple[Stored[Stock], ...] | Formula:
    """The bottles that are called so; or the formula, where one name stands alone.

    Raises Refused for none, NotFound for a name that is neither, with those there are.
    """
    if not names:
        raise Refused(
            Problem(what="of what is not said", field="stocks", mend="name bottles, or a formula")
        )
    found = [reader.by_code(Stock, name) for name in names]
    bottles = tuple(one for one in found if one is not None)
    if len(bottles) == len(names):
        return bottles
    if len(names) == 1:
        return find_formula(reader, folder, names[0], substances, field="stocks")
    missing = next(name for name, one in zip(names, found, strict=True) if one is None)
    raise NotFound(
        Problem(
            what=f"no bottle is called {missing}",
            field="stocks",
            mend=f"on the shelf are: {', '.join(bottle_codes(reader)) or 'none'}",
        )
    )


def find_formula(
    reader: Reader, folder: StudioFolder, code: str, substances: Substances, *, field: str
) -> Formula:
    """The formula with that code: as it is on record, else its template.

    Raises NotFound with the names there are, or Refused with the lines of a template.
    """
    stored = reader.by_code(Formula, code)
    if stored is not None:
        return stored.body
    known = known_formulas(reader, folder)
    if code not in known:
        raise NotFound(
            Problem(
                what=f"there is no formula {code}"
                + (", and no bottle" if field != "formula" else ""),
                field=field,
                mend=f"formulas are: {', '.join(known)}",
            )
        )
    return load_formula(code, substances, folder)


def known_formulas(reader: Reader, folder: StudioFolder) -> list[str]:
    """The codes of the formulas on record and of the templates."""
    own = [one.body.code for one in reader.all(Formula)]
    return sorted({*own, *formula_codes(folder)})


def bottle_codes(reader: Reader) -> list[str]:
    """The bottles in use."""
    return [one.body.code for one in bottles_in_use(reader)]
