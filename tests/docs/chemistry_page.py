"""Writes docs/chemistry.md from the tables and figures that come with the program.

python -m tests.docs.chemistry_page
"""

from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

from provenance.craft import carry_over, fixing, silver
from provenance.craft.exposure import drydown
from provenance.craft.hazards.tables import ANYTHING, Hazards
from provenance.craft.sensitometry import paper_range, steps
from provenance.craft.solutions import heat, needed
from provenance.craft.substances import Hazard, Substance
from provenance.model.formula import Formula, Ingredient
from provenance.model.quantity_text import (
    format_dilution,
    format_duration,
    format_mass,
    format_volume,
)
from provenance.model.sources import GRADES, Sourced
from provenance.resources import resource
from provenance.studio.chemicals import load_chemicals
from provenance.studio.folder import StudioFolder
from provenance.studio.formulas import load_formula
from provenance.studio.processes import load_process

PAGE = Path(__file__).parents[2] / "docs" / "chemistry.md"

_HEAD = """\
# Chemistry and sources

Every substance, formula, process sheet and figure that comes with the program, and what each is
worth. Nothing here is advice from a maker or a laboratory: **{decides}**

This page is written from the program by `python -m tests.docs.chemistry_page`, and a test holds it
to that. A studio changes what it does not agree with in its own folder: copy a file of
`templates/data`, `templates/formulas` or `templates/process` there and edit it; limits and coatings
are [settings](settings.md). The rules for the order of baths, with their sources, have
[a page of their own](rules.md).

## What a figure is worth
"""


def page() -> str:
    """The page as it should be."""
    chemicals = load_chemicals()
    substances, hazards = chemicals.substances, chemicals.hazards
    return "\n".join(
        [
            _HEAD.format(decides=hazards.decides),
            *_table(("mark", "means"), GRADES.items()),
            *_figures(),
            *_substances(substances),
            *_hazards(hazards),
            *_formulas(),
            *_processes(),
        ]
    )


def _table(heads: Sequence[str], rows: Iterable[Sequence[str]]) -> list[str]:
    """Rows in a table of Markdown, with an empty line after it."""
    lines = [f"| {' | '.join(heads)} |", "|" + "---|" * len(heads)]
    return [*lines, *(f"| {' | '.join(_cell(one) for one in row)} |" for row in rows), ""]


def _cell(text: str) -> str:
    return text.replace("|", "\\|").replace("\n", " ").replace("*", "\\*")


def _figures() -> list[str]:
    coating = silver.Coating()
    moves = " to ".join(map(str, fixing.MOVES_BEFORE_RENEWAL))
    rows: list[tuple[str, str, Sourced]] = [
        (f"silver limit “{one.name}”: {one.meaning}", f"{one.mg_per_l / 1000:g} g/L", one.source)
        for one in fixing.LIMITS
    ]
    rows += [
        (
            "a second fixing bath moves up before both are new",
            f"{moves} times",
            fixing.ROTATION_SOURCE,
        ),
        (
            "a working fixer in a closed bottle",
            f"{fixing.WORKING_FIXER_DAYS} days",
            fixing.AGE_SOURCE,
        ),
        ("a fixer in an open tray", f"{fixing.OPEN_TRAY_DAYS} days", fixing.AGE_SOURCE),
        ("silver coated on paper", f"{coating.mg_per_m2 / 1000:g} g/m²", coating.source),
        ("carried from tray to tray", f"{carry_over.ML_PER_M2:.4g} ml/m²", carry_over.SOURCE),
        ("what fills a tray", "see the source", needed.TRAY_SOURCE),
        ("heat of dissolving", "by substance", heat.SOURCE),
        ("dry-down, to begin with", f"{drydown.START.percent:g} %", drydown.START.source),
        (
            "where a paper's toe begins, above its white",
            f"{paper_range.TOE:g}",
            paper_range.TOE_SOURCE,
        ),
        (
            "where its shoulder begins, of its black",
            f"{paper_range.SHOULDER:.0%}",
            paper_range.STANDARD_SOURCE,
        ),
        (
            "the density that speed is told at",
            f"{paper_range.SPEED_POINT:g}",
            paper_range.STANDARD_SOURCE,
        ),
        ("error of one reading", f"{steps.READING_ERROR:g}", steps.READING_SOURCE),
    ]
    return [
        "## Figures that the arithmetic rests on",
        "",
        "None of these says what may be left in a print: no such limit comes with the program.",
        "",
        *_table(
            ("what", "figure", "source"),
            ((what, figure, str(source)) for what, figure, source in rows),
        ),
    ]


def _substances(substances: Iterable[Substance]) -> list[str]:
    rows = [
        (
            f"{one.name} (`{one.id}`)",
            one.formula or "a mixture",
            f"{one.molar_mass_g_per_mol:.2f}" if one.formula else "",
            one.cas,
            f"{float(one.usual_assay.percent):g} % ({one.usual_assay.grade})"
            if one.usual_assay
            else "",
            f"{one.solubility.g_per_l} ({one.solubility.grade})" if one.solubility else "",
            _label(one.hazard),
        )
        for one in substances
    ]
    return [
        f"## Substances ({len(rows)})",
        "",
        "Molar masses are reckoned from the formula. The mark in brackets says what a figure is"
        " worth. Codes in brackets stand on the labels of some suppliers only.",
        "",
        *_table(("substance", "formula", "g/mol", "CAS", "as sold", "g/L at 20 °C", "label"), rows),
    ]


def _label(hazard: Hazard) -> str:
    if hazard.grade is None:
        return "not looked up"
    some = tuple(f"({code})" for code in hazard.some_suppliers)
    codes = " ".join((*hazard.h_codes, *hazard.euh_codes, *some)) or "none"
    signal = f"{hazard.signal_word}: " if hazard.signal_word else ""
    return f"{signal}{codes} ({hazard.grade})"


def _hazards(hazards: Hazards) -> Iterator[str]:
    yield from ("## What every bath asks for", "", *(f"- {one}" for one in hazards.usual), "")
    yield from ("## What a code says", "")
    yield from _table(
        ("code", "in our words", "signal"),
        ((code, one.say, one.signal) for code, one in hazards.statement.items()),
    )
    yield from ("## What should not meet", "")
    yield from _table(
        (
            "one",
            "and",
            "poured together",
            "trays in a row",
            "what comes of it",
            "what to do",
            "source",
        ),
        (
            (
                _families(hazards, one.one),
                _families(hazards, one.other),
                one.mixed or "",
                one.neighbours or "",
                one.effect + (f" ({one.condition})" if one.condition else ""),
                one.do,
                str(Sourced(one.grade, one.source)),
            )
            for one in hazards.meeting
        ),
    )
    yield from ("## What a substance asks for by itself", "")
    yield from _table(
        ("which", "caution", "worth"),
        ((_families(hazards, one.families), one.say, one.grade) for one in hazards.caution),
    )
    yield from ("## What is collected by itself", "")
    yield from _table(
        ("which", "how"), ((_families(hazards, one.families), one.say) for one in hazards.waste)
    )


def _families(hazards: Hazards, names: Sequence[str]) -> str:
    return ", ".join(
        "anything" if name == ANYTHING else hazards.family[name].name for name in names
    )


def _codes(kind: str) -> list[str]:
    return sorted(path.stem for path in resource("templates", kind).glob("*.toml"))


def _formulas() -> Iterator[str]:
    yield from ("## Formulas that come along", "", "Amounts are for one litre.", "")
    for code in _codes("formulas"):
        one = load_formula(code, load_chemicals().substances)
        yield f"### {one.name} (`{code}`)"
        yield ""
        yield from (f"- {_ingredient(part)}" for part in one.ingredients)
        yield from (f"- {line}" for line in _keeping(one))
        yield f"- Source: {Sourced(one.grade, one.source)}"
        yield from ([f"- Note: {one.note}", ""] if one.note else [""])


def _ingredient(part: Ingredient) -> str:
    amount = (
        format_mass(part.mg_per_l)
        if part.mg_per_l is not None
        else format_volume(part.hundredth_ml_per_l or 0)
    )
    assay = part.assay_hundredth_percent / 100
    strength = "" if assay == 100 else f", {assay:g} %"
    formula = f" ({part.formula})" if part.formula else ""
    note = f": {part.note}" if part.note else ""
    return f"{amount} {part.substance.replace('_', ' ')}{formula}{strength}{note}"


def _keeping(one: Formula) -> Iterator[str]:
    if one.dilution is not None:
        yield f"taken {format_dilution(one.dilution)}"
    if one.one_shot:
        yield "for one use"
    if one.keeps_days is not None:
        yield f"keeps {one.keeps_days} days in a closed full bottle"
    if one.tray_days is not None:
        yield f"keeps {one.tray_days} days in an open tray"


def _processes() -> Iterator[str]:
    yield from ("## Process sheets that come along", "")
    nowhere = StudioFolder(resource("templates").parent)
    for code in _codes("process"):
        one = load_process(nowhere, code)
        yield f"### {one.name} (`{code}`, {one.base})"
        yield ""
        yield from _table(
            ("step", "bath or test", "aim", "note"),
            (
                (
                    step.name,
                    step.role or f"test for residual {step.test}",
                    format_duration(step.aim.time_ms) if step.aim else "",
                    step.note,
                )
                for step in one.steps
            ),
        )


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
