"""A table of wedge readings from a file, and curves as they are drawn and told."""

from dataclasses import replace
from pathlib import Path

from provenance.craft.plot import Line, braille
from provenance.craft.sensitometry.curve import Curve
from provenance.craft.sensitometry.steps import NOMINAL_SOURCE
from provenance.craft.sensitometry.table import WedgeTable, read_wedge_table
from provenance.errors import Problem, Refused

_COLUMNS, _ROWS = 60, 14
READINGS_ONLY = "bands are two standard errors of the readings; light and process are not in them"


def read_wedge_file(path: Path, tablet_steps: int) -> WedgeTable:
    """The readings in a file.  Raises Refused with the file's name and the line."""
    try:
        return read_wedge_table(path.read_text(encoding="utf-8-sig"), tablet_steps)
    except (OSError, UnicodeDecodeError) as error:
        why = error.strerror if isinstance(error, OSError) else "it is not UTF-8 text"
        raise Refused(
            Problem(f"cannot be read: {why}", str(path), mend="see that it is a table in UTF-8")
        ) from error
    except Refused as refused:
        raise _about(path, refused) from refused


def curve_in(path: Path, table: WedgeTable) -> Curve:
    """The curve of a table.  Raises Refused with the file's name."""
    try:
        return table.curve
    except Refused as refused:
        raise _about(path, refused) from refused


def tablet_assumed(tablet_steps: int) -> list[str]:
    """What is taken for granted of a numbered tablet."""
    return [f"a tablet of {tablet_steps} {NOMINAL_SOURCE}"] if tablet_steps else []


def drawn(*curves: Curve) -> list[str]:
    """Curves in one picture, the first drawn through, the others dotted."""
    lines = [
        Line(curve.samples(), every=1 if place == 0 else 3 * place)
        for place, curve in enumerate(curves)
    ]
    return braille(lines, _COLUMNS, _ROWS)


def _about(path: Path, refused: Refused) -> Refused:
    return Refused(*(replace(one, record=one.record or path.name) for one in refused.problems))
