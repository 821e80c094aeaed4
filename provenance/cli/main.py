"""The command line: which commands there are, and how a run ends.

Exit status: 0 done, 1 refused with reasons, 2 wrong use, 3 data damaged, 70 a
fault of the program, 130 interrupted.  A broken pipe is silent.
"""

import importlib
import os
import sys
from collections.abc import Callable
from io import TextIOWrapper
from typing import TYPE_CHECKING, Any

import click

from provenance import __version__
from provenance.cli.output import narrate, tell_error
from provenance.cli.progress import progress_line
from provenance.errors import Misuse, Problem, ProvenanceError, Refused
from provenance.records.progress import AT_THE_DOOR

if TYPE_CHECKING:
    from provenance.studio.folder import StudioFolder

COMMANDS = {
    "demo": (
        "provenance.cli.demo",
        "Make the demo studio; take a print from sheet to certificate.",
    ),
    "record": ("provenance.cli.record", "Enter a day sheet, all together or not at all."),
    "import": ("provenance.cli.importing", "Import a table of papers, prints, printings, moves..."),
    "list": ("provenance.cli.listing", "List prints, editions, or any other kind of record."),
    "show": ("provenance.cli.show", "Show one record; a print with what its record supports."),
    "find": ("provenance.cli.listing", "Find records by words or numbers."),
    "history": ("provenance.cli.history", "Every version of a record: who, when, why, what."),
    "certify": ("provenance.cli.certify", "Issue the certificate of a print."),
    "answer": ("provenance.cli.answer", "Answer a collector's questions about a print."),
    "check": ("provenance.cli.check", "Check the file of a certificate."),
    "withdraw": ("provenance.cli.withdraw", "Withdraw a certificate, with the reason."),
    "custody": ("provenance.cli.custody", "Where a print is, and its line of provenance."),
    "describe": ("provenance.cli.custody", "Describe a print as Object ID asks."),
    "disclosure": ("provenance.cli.reminding", "What is disclosed of a print, item by item."),
    "reminders": ("provenance.cli.reminding", "Hold an edition against rules of law and custom."),
    "contacts": ("provenance.cli.people", "The pages of the contact book."),
    "erase": ("provenance.cli.people", "Erase a person from the studio's folder."),
    "key": ("provenance.cli.key", "Make, show or retire the key that seals certificates."),
    "edition-list": ("provenance.cli.rolls", "List every impression of an edition."),
    "heirs-page": ("provenance.cli.rolls", "What an heir has to know, on paper."),
    "label": ("provenance.cli.label", "Print labels for bottles and trays."),
    "recall": ("provenance.cli.recall", "Every print that met a bath, and what became of each."),
    "reprint": ("provenance.cli.reprint", "Plan a print that matches an earlier one."),
    "match": ("provenance.cli.match", "Hold a print against its reference, spot by spot."),
    "calc": ("provenance.cli.calc", "Calculate chemistry, washing, exposures, curves, units."),
    "undo": ("provenance.cli.history", "Take an act back by new entries."),
    "export": ("provenance.cli.handover", "Write everything on record in an open format."),
    "bag": ("provenance.cli.handover", "Hand the studio or an edition over, as a BagIt bag."),
    "backup": ("provenance.cli.backup", "Back the studio up into one file, and try the file."),
    "restore": ("provenance.cli.backup", "Restore a backup or a bag into a new folder."),
    "audit": ("provenance.cli.audit", "Check the register and every file against the journal."),
}
"""Each command's module is loaded only when that command runs."""


class _Whole(click.IntRange):
    """From 1 up to what the register can hold; the help need not give that bound."""

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> int:
        number = int(super().convert(value, param, ctx))
        if number >= 2**53:
            self.fail(f"{value} is too large a number", param, ctx)
        return number


WHOLE = _Whole(min=1)
"""A number of things, or of an entry in the journal."""


_ROOM = "see that what it goes to has room, and can be written to"
LIGHT, MOUSE, OPENER = "provenance.light", "provenance.mouse", "provenance.opener"

Opener = Callable[["StudioFolder", str, bool], int]
"""Opens the terminal application on a studio; the other face, handed in from outside."""


class Commands(click.Group):
    """The group of all commands, each loaded when it is used."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """The commands, in the order of the work."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """One command, loaded from its module."""
        if cmd_name not in COMMANDS:
            return None
        module = importlib.import_module(COMMANDS[cmd_name][0])
        command: click.Command = getattr(module, f"{cmd_name.replace('-', '_')}_command")
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """The help, without loading any command."""
        with formatter.section("Commands"):
            formatter.write_dl([(name, about) for name, (_module, about) in COMMANDS.items()])


@click.group(
    cls=Commands,
    invoke_without_command=True,
    context_settings={"help_option_names": ["-h", "--help"]},
)
@click.version_option(__version__, message="provenance %(version)s")
@click.option(
    "--studio",
    metavar="DIR",
    help="The studio folder; else $PROVENANCE_STUDIO, else your own.",
)
@click.option(
    "--light",
    type=click.Choice(["day", "dark", "safelight"]),
    default="day",
    help="The light in which the terminal application opens.",
)
@click.option("--no-mouse", is_flag=True, help="Leave the mouse to the terminal.")
@click.pass_context
def provenance(ctx: click.Context, studio: str | None, light: str, no_mouse: bool) -> int | None:
    """Keeps the history of photographs printed by hand, and certifies what it supports.

    Without a command it opens the terminal application.
    """
    ctx.meta[OPENER], ctx.obj = ctx.obj, studio
    ctx.meta[LIGHT], ctx.meta[MOUSE] = light, not no_mouse
    AT_THE_DOOR.set(progress_line)
    if ctx.invoked_subcommand is not None:
        return None
    if not (sys.stdin.isatty() and sys.stdout.isatty()):
        raise click.UsageError("the terminal application needs a terminal; see --help")
    from provenance.studio.folder import choose_folder

    return open_screens(ctx, choose_folder(studio))


def open_screens(ctx: click.Context, folder: "StudioFolder") -> int:
    """Open the terminal application; its exit status."""
    opener: Opener | None = ctx.meta[OPENER]
    if opener is None:
        raise click.UsageError("there is no terminal application here; see --help")
    return opener(folder, ctx.meta[LIGHT], ctx.meta[MOUSE])


def run(opener: Opener | None = None) -> int:
    """Run the command that was typed; the exit status says how it ended.

    `opener` is the other face; without it only commands can be run.
    """
    as_json = "--json" in sys.argv
    _escape_what_the_output_lacks()
    try:
        result = provenance.main(standalone_mode=False, obj=opener)
        sys.stdout.flush()
    except (click.exceptions.Abort, KeyboardInterrupt):
        narrate("interrupted; nothing was half written")
        return 130
    except click.ClickException as error:
        return _misuse(error, as_json=as_json)
    except ProvenanceError as error:
        tell_error(error, as_json=as_json)
        return error.exit_status
    except (SystemExit, BrokenPipeError):
        # nobody reads any more (click ends so too)
        _write_no_more()
        return 0
    except Exception as error:
        if isinstance(error, OSError) and (why := _output_fails()):
            _write_no_more()
            tell_error(
                Refused(Problem(f"the output cannot be written: {why}", mend=_ROOM)),
                as_json=as_json,
            )
            return Refused.exit_status
        return _fault(error, as_json=as_json)
    return result if isinstance(result, int) else 0


def _escape_what_the_output_lacks() -> None:
    """What a terminal or a file of another encoding cannot hold is written as an escape."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")


def _output_fails() -> str:
    """Why nothing can be written to standard output; empty where it can."""
    try:
        sys.stdout.flush()
    except OSError as error:
        return error.strerror or str(error)
    return ""


def _write_no_more() -> None:
    # what is still to be written would make the interpreter complain as it ends
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _misuse(error: click.ClickException, *, as_json: bool) -> int:
    bare = isinstance(error, click.exceptions.NoArgsIsHelpError)
    if as_json and not bare:
        tell_error(Misuse(error.format_message()), as_json=True)
        return 2
    # click would send what was typed to the terminal as it is
    context = error.ctx if isinstance(error, click.UsageError) and not bare else None
    said = f"{context.get_usage()}\n" if context else ""
    said += error.format_message() if bare else f"wrong use: {error.format_message()}"
    for one in said.splitlines():
        narrate(one)
    return 2


def _fault(error: Exception, *, as_json: bool) -> int:
    import traceback

    if os.environ.get("PROVENANCE_TRACE"):
        traceback.print_exception(error)
    shown = ProvenanceError(
        f"a fault of the program ({type(error).__name__}: {error});"
        " nothing that was called saved is lost; set PROVENANCE_TRACE=1 to see where"
    )
    tell_error(shown, as_json=as_json)
    return shown.exit_status


def json_option(command: Any) -> Any:
    """Adds `--json`: data as JSON, lists as one JSON value a line."""
    return click.option("--json", "as_json", is_flag=True, help="Give JSON.")(command)
