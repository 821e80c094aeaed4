"""`provenance answer REF`"""

from pathlib import Path
from typing import Literal

import click

from provenance.cli.main import json_option
from provenance.cli.output import json_line, line, narrate, safe

Format = Literal["text", "md", "pdf"]


@click.command("answer")
@click.argument("ref", nargs=-1, required=True)
@click.option(
    "--format",
    "shape",
    type=click.Choice(["text", "md", "pdf"]),
    default=None,
    help="Text, Markdown or a letter; the ending of FILE decides where this is not given.",
)
@click.option(
    "--out", type=click.Path(path_type=Path, dir_okay=False), help="Write it to this file."
)
@click.option("--language", default=None, help="en or fr; the studio's own otherwise.")
@json_option
@click.pass_obj
def answer_command(
    studio: str | None,
    ref: tuple[str, ...],
    shape: Format | None,
    out: Path | None,
    language: str | None,
    as_json: bool,
) -> None:
    """Answer what collectors ask about the print REF, from its record.

    REF is the print's number, its certificate's (a slip is told, with near
    ones), or words of its title.  Nobody but the artist is named.
    """
    from provenance.studio.answering.answer import answer
    from provenance.studio.answering.asked import asked_about
    from provenance.studio.folder import choose_folder

    shape = shape or _shape_of(out)
    if shape == "pdf" and out is None:
        raise click.UsageError("a letter is a file: say --out FILE.pdf")
    folder = choose_folder(studio)
    with folder.open() as register:
        held = asked_about(register.read, " ".join(ref))
        told = answer(register.read, folder, held.id, register.clock(), language=language)
    if shape == "pdf" and out is not None:
        # loads what draws pages
        from provenance.studio.answering.letter import write_answer

        write_answer(told, out, folder)
    else:
        from provenance.studio.answering.text import as_data, as_markdown, as_text
        from provenance.studio.wordings import load_layout

        if out is None and as_json:
            json_line(as_data(told))
            return
        layout = load_layout(folder, told.language)
        lines = [*(as_markdown if shape == "md" else as_text)(told, layout)]
        if out is None:
            for one in lines:
                line(one)
            return
        from provenance.records.files import write_new

        write_new(out, "".join(f"{safe(one)}\n" for one in lines).encode())
    if as_json:
        json_line({"print": told.print, "name": told.name, "path": str(out)})
        return
    narrate(f"answered about {told.name}, as its record stands at entry {told.entry}")
    line(str(out))


def _shape_of(out: Path | None) -> Format:
    """What the ending of a file asks for."""
    match out.suffix.lower() if out is not None else "":
        case ".md":
            return "md"
        case ".pdf":
            return "pdf"
        case "" | ".txt":
            return "text"
        case other:
            raise click.UsageError(f"what {other} stands for is not known: say --format")
