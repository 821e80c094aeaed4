"""Formulas that come as templates, read against the table of substances."""

from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING, Annotated

import msgspec

from provenance.craft.dilution import ColonMeans, parse_dilution
from provenance.craft.numbers import read_number
from provenance.craft.substances import Substances
from provenance.craft.units import parse_mass_mg, parse_volume_hundredth_ml
from provenance.errors import NotFound, Problem, Refused
from provenance.model.body import Count
from provenance.model.chemistry import Finish, Role
from provenance.model.formula import Formula, Ingredient, Use
from provenance.model.process import Question
from provenance.model.sources import Grade
from provenance.resources import resource, text_of
from provenance.studio.folder import StudioFolder
from provenance.studio.written.forms import Form, read_form
from provenance.studio.written.lines import Path as Place
from provenance.studio.written.lines import line_of

if TYPE_CHECKING:
    from provenance.records.act import Act
    from provenance.records.reader import Stored

Written = Annotated[str, msgspec.Meta(min_length=1)]


class PartForm(Form, kw_only=True):
    """One substance as it is written: its amount for a litre, and its assay in percent."""

    substance: Written
    amount: Written
    assay: Written | None = None
    note: str = ""


class FormulaForm(Form, kw_only=True):
    """A formula as it is written in a template."""

    code: Written
    name: Written
    role: Role | None = None
    test: Question | None = None
    use: Use
    finish: Finish
    dilution: Written | None = None
    one_shot: bool = False
    keeps_days: Count | None = None
    tray_days: Count | None = None
    source: Written
    standing: Grade
    note: str = ""
    part: Annotated[list[PartForm], msgspec.Meta(min_length=1)]


def read_formula(text: str, substances: Substances, *, name: str) -> Formula:
    """The formula in the TOML `text` of the file `name`.  Raises Refused with lines."""
    form, lines = read_form(text, FormulaForm, name=name)
    try:
        return formula_of(form, substances)
    except Refused as error:
        raise Refused(*(_in_file(problem, name, lines) for problem in error.problems)) from error


def _in_file(problem: Problem, name: str, lines: dict[Place, int]) -> Problem:
    """A problem of `formula_of` with its line; parts are counted from 1."""
    path = tuple(int(one) if one.isdecimal() else one for one in problem.field.split("."))
    record = f"{name} part {int(path[1]) + 1}" if len(path) > 1 else name
    return replace(problem, record=record, field=str(path[-1]), line=line_of(lines, path))


def formula_of(
    form: FormulaForm, substances: Substances, colon_means: ColonMeans | None = None
) -> Formula:
    """The formula that is written in `form`; `colon_means` reads a dilution such as 1:9.

    Raises Refused, a problem of a part with the field ``part.N.amount``.
    """
    ingredients: list[Ingredient] = []
    problems: list[Problem] = []
    for place, part in enumerate(form.part):
        try:
            ingredients.append(_ingredient(part, substances))
        except Refused as error:
            problems += [
                replace(one, record="", field=f"part.{place}.{one.field}") for one in error.problems
            ]
    dilution = None
    try:
        if form.dilution is not None:
            dilution = parse_dilution(form.dilution, colon_means=colon_means, field="dilution")
    except Refused as error:
        problems += error.problems
    if problems:
        raise Refused(*problems)
    return Formula(
        code=form.code,
        name=form.name,
        role=form.role,
        test=form.test,
        use=form.use,
        ingredients=tuple(ingredients),
        finish=form.finish,
        dilution=dilution,
        one_shot=form.one_shot,
        keeps_days=form.keeps_days,
        tray_days=form.tray_days,
        source=form.source,
        grade=form.standing,
        note=form.note,
    )


def _ingredient(part: PartForm, substances: Substances) -> Ingredient:
    substance = substances.by_id(part.substance, field="substance")
    mass_mg, volume_hundredth_ml = parse_amount(part.amount, field="amount")
    assay = Fraction(100) if part.assay is None else read_number(part.assay, field="assay")
    return Ingredient(
        substance=substance.id,
        formula=substance.formula,
        assay_hundredth_percent=max(0, round(assay * 100)),
        mg_per_l=mass_mg,
        hundredth_ml_per_l=volume_hundredth_ml,
        note=part.note,
    )


def parse_amount(text: str, *, field: str = "") -> tuple[int | None, int | None]:
    """A mass in milligrams or a volume in hundredths of a millilitre; the other is None.

    Raises Refused for anything else; “oz” is taken for the weight.
    """
    try:
        return parse_mass_mg(text, field=field), None
    except Refused as not_a_mass:
        try:
            return None, parse_volume_hundredth_ml(text, field=field)
        except Refused as not_a_volume:
            if "can be read as" in str(not_a_volume):
                raise
            raise not_a_mass from not_a_volume


def load_formula(code: str, substances: Substances, folder: StudioFolder | None = None) -> Formula:
    """The formula called `code`: the studio's own where it has one.

    Raises NotFound with the names there are, or Refused with lines.
    """
    place = folder or StudioFolder(resource("templates").parent)
    try:
        path = place.template("formulas", f"{code}.toml")
    except NotFound as error:
        raise NotFound(
            Problem(
                what=f"there is no formula {code}", field="formula", mend=error.problems[0].mend
            )
        ) from error
    return read_formula(text_of(path), substances, name=path.name)


def formula_codes(folder: StudioFolder) -> list[str]:
    """The codes of the formulas there are: the studio's own, and those that came along."""
    places = (folder.path / "templates" / "formulas", resource("templates", "formulas"))
    return sorted({path.stem for place in places for path in place.glob("*.toml")})


def use_formula(act: "Act", formula: Formula) -> int:
    """The id of `formula`, entered into the register when it is new or changed."""
    stored = act.by_code(Formula, formula.code)
    if stored is None:
        return act.enter(formula)
    if stored.body != formula:
        act.change(stored.id, stored.version, formula)
    return stored.id


def known_formula(
    act: "Act", folder: StudioFolder, code: str, substances: Substances
) -> "Stored[Formula]":
    """The formula called `code` as it is on record; else its template, entered.

    Raises NotFound with the names there are, or Refused with lines.
    """
    stored = act.by_code(Formula, code)
    if stored is None:
        stored = act.get(Formula, act.enter(load_formula(code, substances, folder)))
    return stored
