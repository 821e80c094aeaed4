"""`provenance label REF...`"""

from pathlib import Path
from typing import Literal

import click

from provenance.cli.main import WHOLE, json_option
from provenance.cli.output import json_line, line, narrate


@click.command("label")
@click.argument("refs", metavar="[REF]...", nargs=-1)
@click.option("--formula", "formulas", multiple=True, metavar="CODE", help="Of what it makes.")
@click.option(
    "--from",
    "first",
    type=WHOLE,
    default=1,
    show_default=True,
    help="The first label that is still on the sheet.",
)
@click.option("--page", type=click.Choice(["A4", "letter"]), help="Else the studio's setting.")
@click.option(
    "--out", type=click.Path(path_type=Path, dir_okay=False), required=True, help="The file."
)
@json_option
@click.pass_obj
def label_command(
    studio: str | None,
    refs: tuple[str, ...],
    formulas: tuple[str, ...],
    first: int,
    page: Literal["A4", "letter"] | None,
    out: Path,
    as_json: bool,
) -> None:
    """Print labels for the bottles and trays that each REF names, several on a sheet.

    Codes are estimated from what is in them; the supplier's safety data sheet decides.
    """
    if not refs and not formulas:
        raise click.UsageError("name a bottle or a tray, or give --formula CODE")
    from provenance.studio.folder import choose_folder
    from provenance.studio.labels import print_labels

    printed = print_labels(
        choose_folder(studio), out, references=refs, formulas=formulas, first=first, page=page
    )
    for label, left_off in zip(printed.labels, printed.left_off, strict=True):
        if left_off:
            narrate(f"{label.code}: no room for {', '.join(left_off)}; a larger label has it")
    if not as_json:
        narrate(f"labels: {len(printed.labels)} on {printed.sheets} of {printed.page}")
        line(str(printed.path))
        return
    json_line(
        {
            "path": str(printed.path),
            "page": printed.page,
            "sheets": printed.sheets,
            "labels": [
                {
                    "code": label.code,
                    "name": label.name,
                    "signal_word": label.signal_word,
                    "pictograms": [code for code, _words in label.pictograms],
                    "codes": [code for code, _say in label.hazards],
                    "no_codes": label.no_codes,
                    "basis": label.basis,
                    "left_off": left_off,
                }
                for label, left_off in zip(printed.labels, printed.left_off, strict=True)
            ],
        }
    )
