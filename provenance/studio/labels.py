"""Print labels for bottles and trays: from records, or from formulas."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from provenance.documents.label import LabelSheet, LabelText, draw_labels
from provenance.documents.label_layout import LabelLayout, read_label_layout
from provenance.errors import Problem, Refused
from provenance.model.body import Body
from provenance.model.certificate import Page
from provenance.model.chemistry import Bath, Stock
from provenance.model.formula import Formula
from provenance.records.clock import Clock, SystemClock
from provenance.records.files import write_new
from provenance.records.reader import Reader
from provenance.resources import text_of
from provenance.studio.chemicals import load_hazards, load_substances
from provenance.studio.folder import StudioFolder
from provenance.studio.formulas import load_formula
from provenance.studio.label_texts import LabelWriter
from provenance.studio.next_file import next_pdf
from provenance.studio.references import resolve
from provenance.studio.settings import read_settings


@dataclass(frozen=True)
class PrintedLabels:
    """Labels that were put into a file."""

    path: Path
    page: Page
    sheets: int
    labels: tuple[LabelText, ...]
    left_off: tuple[tuple[str, ...], ...]
    """For each, the labels of the lines for which it had no room."""


def print_labels(
    folder: StudioFolder,
    path: Path,
    *,
    references: Sequence[str] = (),
    formulas: Sequence[str] = (),
    first: int = 1,
    page: Page | None = None,
    clock: Clock | None = None,
) -> PrintedLabels:
    """Write a sheet of labels to `path`: of bottles and trays on record, then of formulas.

    Formulas need no register.  Raises NotFound for what is not there, and
    Refused for a record that is no bottle, tray or formula, for one that is
    retired, and for a label that holds too much.
    """
    settings = read_settings(folder)
    layout = load_label_layout(folder)
    substances = load_substances(folder)
    writer = LabelWriter(
        substances, load_hazards(substances, folder), layout.words_in(settings.language)
    )
    labels: list[LabelText] = []
    if references:
        with folder.open() as register:
            labels += [_on_record(register.read, writer, reference) for reference in references]
    labels += [writer.of_formula(load_formula(code, substances, folder)) for code in formulas]
    sheet = LabelSheet(
        labels=tuple(labels),
        drawn_at_utc=(clock or SystemClock())().utc(),
        page=page or settings.page,
        first=first,
        language=settings.language,
    )
    drawn = draw_labels(sheet, layout)
    write_new(path, drawn.pdf)
    return PrintedLabels(path, sheet.page, sheet.sheets(layout), sheet.labels, drawn.left_off)


def next_label_file(folder: StudioFolder, day: str) -> Path:
    """Where labels printed on `day` go: a file of the studio folder that is not there yet.

    Raises Refused when there can be no folder for them.
    """
    return next_pdf(folder.path / "labels", f"labels-{day}")


def load_label_layout(folder: StudioFolder) -> LabelLayout:
    """The layout of labels: the studio's own where it has one.  Raises Refused."""
    path = folder.template("label.toml")
    return read_label_layout(text_of(path), path.name)


def _on_record(reader: Reader, writer: LabelWriter, reference: str) -> LabelText:
    body: Body = resolve(reader, reference).body
    if isinstance(body, Formula):
        return writer.of_formula(body)
    if not isinstance(body, Bath | Stock):
        raise Refused(
            Problem(
                what=f"it is a record of kind {body.KIND}; labels are for bottles and trays",
                record=reference,
                mend="name a stock, a bath or a formula",
            )
        )
    if body.retired_on is not None:
        raise Refused(
            Problem(
                what=f"it was retired on {body.retired_on}, and needs no label",
                record=reference,
                mend="name one that is in use",
            )
        )
    if isinstance(body, Stock):
        return writer.of_stock(reader, body)
    return writer.of_bath(reader, body)
