"""`provenance calc`: the arithmetic of shelf and easel, without a record being made."""

import importlib
import re

import click

_BELOW_NOUGHT = re.compile(r"^-(?=[\d.,])")
"""The hyphen of a figure, which would else be read as the name of an option."""

_COMMANDS = {
    "dilution": "Measure out a dilution, or find the one that gives a strength.",
    "mix": "Weigh out a formula, or pour stocks together.",
    "molarity": "Moles in a litre, or what to weigh for them.",
    "silver": "The silver in sheets, what toning takes, how far a fixer goes.",
    "stops": "Seconds from stops: burns, dodges, test strips, dry-down.",
    "enlarge": "The time at another size, aperture or on another paper.",
    "range": "A paper's exposure range, class and speed point, from readings.",
    "match": "The paper or grade that comes nearest to a print, and its exposure.",
    "wash": "What washing leaves; how long a paper takes, from its own tests.",
    "convert": "Quantities, residues per area, hydrates and assays.",
}


class _Calculations(click.Group):
    """The calculations, each loaded when it is used."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """In the order of the work."""
        return list(_COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """One calculation, loaded from its module."""
        if cmd_name not in _COMMANDS:
            return None
        module = importlib.import_module(f"provenance.cli.calc.{cmd_name}")
        command: click.Command = getattr(module, f"{cmd_name}_command")
        return command

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """A figure below nought is a figure: -40 C."""
        name, command, rest = super().resolve_command(ctx, args)
        return name, command, [_BELOW_NOUGHT.sub("\N{MINUS SIGN}", one) for one in rest]

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """The help, without loading any calculation."""
        with formatter.section("Commands"):
            formatter.write_dl(list(_COMMANDS.items()))


@click.group("calc", cls=_Calculations)
def calc_command() -> None:
    """Calculate; nothing is recorded.

    Figures are said to be calculated, with what was assumed.
    """
