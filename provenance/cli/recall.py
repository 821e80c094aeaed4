"""`provenance recall BATH`"""

from typing import TYPE_CHECKING, Any

import click

from provenance.cli.main import json_option
from provenance.cli.output import json_line, line, narrate, table

if TYPE_CHECKING:
    from provenance.studio.recall import Recall, Recalled


@click.command("recall")
@click.argument("bath")
@json_option
@click.pass_obj
def recall_command(studio: str | None, bath: str, as_json: bool) -> None:
    """Every print that met BATH, in the order of work.

    Of a fixing bath: how much silver it then held, by estimate, and whether that
    was past the limit chosen for it.
    """
    from provenance.model.chemistry import Bath
    from provenance.studio.folder import choose_folder
    from provenance.studio.recall import recall
    from provenance.studio.references import resolve_kind
    from provenance.studio.settings import read_settings

    folder = choose_folder(studio)
    with folder.open() as register:
        stored = resolve_kind(register.read, Bath, bath)
        found = recall(register.read, stored, read_settings(folder))
    if as_json:
        _as_json(found)
    else:
        _tell(found)


def _as_json(found: "Recall") -> None:
    for one in found.lines:
        json_line(
            {
                "print": one.print,
                "name": one.name,
                "step": one.step,
                "done_on": one.done_on,
                "sheets": one.sheets,
                "mg_per_l": one.mg_per_l,
                "mg_per_l_at_worst": one.mg_per_l_at_worst,
                "side": one.side,
                "fixed_before": one.fixed_before,
                "certificates": [
                    {"number": number, "state": state} for number, state in one.certificates
                ],
                "where": one.where,
                "where_on": one.where_on,
            }
        )
    body = found.bath.body
    limit: dict[str, Any] | None = None
    if found.limit is not None:
        limit = {
            "name": found.limit.name,
            "mg_per_l": found.limit.mg_per_l,
            "grade": found.limit.source.grade,
            "own": found.own_limit,
        }
    json_line(
        {
            "bath": body.code,
            "id": found.bath.id,
            "standing": "calculated",
            "prints": found.prints,
            "within": len(found.on_side("within")),
            "perhaps_past": len(found.on_side("perhaps past")),
            "past": len(found.on_side("past")),
            "certificates": len(found.certificates),
            "limit": limit,
            "assumed": found.assumption,
        }
    )


def _tell(found: "Recall") -> None:
    fixer = found.limit is not None
    heads = ["print", "done on", "sheets", *(["silver, g/L", "limit"] if fixer else [])]
    table(
        [*heads, "where", "certificates"],
        ([*_work(one, fixer=fixer), *_since(one)] for one in found.lines),
        right=(2,),
    )
    line(_total(found))
    if found.assumption:
        line(f"assumed: {found.assumption}")
    narrate(f"{_count(found.prints, 'print')} met {found.bath.body.code}")


def _work(one: "Recalled", *, fixer: bool) -> list[str]:
    cells = [one.name, one.done_on, str(one.sheets)]
    if not fixer:
        return cells
    if one.mg_per_l is None or one.mg_per_l_at_worst is None:
        return [*cells, "", one.side]
    silver = f"{one.mg_per_l / 1000:.3f}, at worst {one.mg_per_l_at_worst / 1000:.3f}"
    return [*cells, silver, one.side]


def _since(one: "Recalled") -> list[str]:
    where = f"{one.where} {one.where_on}".rstrip()
    return [where, ", ".join(f"{number} {state}" for number, state in one.certificates)]


def _total(found: "Recall") -> str:
    said = f"calculated: {_count(len(found.lines), 'sheet')} of {_count(found.prints, 'print')}"
    if found.ledger is not None:
        said += f", {found.ledger.area_m2:.2f} m²"
    if found.limit is not None and found.ledger is not None:
        sides = [
            f"{len(found.on_side(side))} {side}"
            for side in ("within", "perhaps past", "past")
            if found.on_side(side)
        ]
        said += f"; {', '.join(sides) or 'none'} {found.limit.mg_per_l / 1000:g} g/L"
    certificates = found.certificates
    issued = "was" if len(certificates) == 1 else "were"
    return f"{said}; {_count(len(certificates), 'certificate')} {issued} issued for them"


def _count(number: int, what: str) -> str:
    return f"{number} {what}" if number == 1 else f"{number} {what}s"
