"""`provenance demo`"""

import sys
from pathlib import Path

import click

from provenance.cli.main import json_option, open_screens
from provenance.cli.output import json_line, line, narrate


@click.command("demo")
@click.option(
    "--into",
    type=click.Path(path_type=Path),
    help="The folder to make it in; else ./demo-studio.",
)
@click.option("--no-screen", is_flag=True, help="Do not open the terminal application afterwards.")
@json_option
@click.pass_context
def demo_command(
    ctx: click.Context, into: Path | None, no_screen: bool, as_json: bool
) -> int | None:
    """Make the demo studio and take one print from sheet to certificate.

    A second run finds the studio and changes nothing.  The path of the
    certificate is the last line; then, on a terminal, the application opens.
    """
    from provenance.studio.demo import run_demo
    from provenance.studio.folder import StudioFolder

    folder = StudioFolder(into or Path("demo-studio"))

    def tell(text: str) -> None:
        narrate(text) if as_json else line(text)

    path = run_demo(folder, tell)
    if as_json:
        json_line({"studio": str(folder.path), "certificate": str(path)})
        return None
    line(str(path))
    if no_screen or not (sys.stdin.isatty() and sys.stdout.isatty()):
        return None
    sys.stdout.flush()
    return open_screens(ctx, folder)
