"""`provenance match NEW REFERENCE`"""

from pathlib import Path

import click

from provenance.cli.main import json_option
from provenance.cli.output import json_line, line, narrate, table

_COLUMNS, _ROWS = 44, 14
"""Of the picture."""


@click.command("match")
@click.argument("new")
@click.argument("reference")
@click.option("--accept", "decision", flag_value="accept", help="Record that it was accepted.")
@click.option("--reject", "decision", flag_value="reject", help="Record that it was not.")
@click.option("--by", help="Who decided: a role or initials.")
@click.option("--why", default="", help="Why, where the readings say otherwise.")
@click.option(
    "--out", type=click.Path(path_type=Path, dir_okay=False), help="Write the report (PDF)."
)
@json_option
@click.pass_obj
def match_command(
    studio: str | None,
    new: str,
    reference: str,
    decision: str | None,
    by: str | None,
    why: str,
    out: Path | None,
    as_json: bool,
) -> None:
    """Hold the print NEW against the print REFERENCE, spot by spot: "QUAY 17/25" "QUAY 3/25"."""
    if (decision is None) != (by is None):
        raise click.UsageError("a decision takes --accept or --reject, and --by")
    from provenance.model.prints import Print
    from provenance.records.files import refuse_standing
    from provenance.studio.folder import choose_folder
    from provenance.studio.references import resolve_print
    from provenance.studio.reprinting.matching import compare_prints, decide
    from provenance.studio.reprinting.pictures import spot_lines
    from provenance.studio.reprinting.spots import LEGEND, spots_of
    from provenance.studio.settings import read_settings

    if out is not None:
        # said before a decision is recorded
        refuse_standing(out)
    folder = choose_folder(studio)
    saved = None
    with folder.open() as register:
        one, other = (resolve_print(register.read, text).id for text in (new, reference))
        matched = compare_prints(register.read, one, other, read_settings(folder).tolerances)
        if decision is not None and by is not None:
            with register.act(by) as act:
                saved = decide(
                    act,
                    matched,
                    accepted=decision == "accept",
                    by=by,
                    on=str(act.moment.local_date()),
                    why=why,
                    source="notes",
                )
        if out is not None:
            from provenance.studio.reprinting.report import write_report

            settings = read_settings(folder)
            write_report(
                out,
                register.read,
                folder,
                matched,
                page=settings.page,
                language=settings.language,
                drawn_at_utc=register.clock().utc(),
            )
            narrate(f"report: {out}")
        image = register.read.get(Print, matched.print).body.image
    found, spots = matched.found, spots_of(matched)
    places = {
        one.name: None if one.at is None else [one.at.across_permille, one.at.down_permille]
        for one in spots
    }
    if as_json:
        json_line(
            {
                "outcome": matched.outcome,
                "differs_at": list(matched.differs_at),
                "spots": [
                    {
                        "spot": one.spot,
                        "at_permille": places[one.spot],
                        "reference": one.reference,
                        "delta_density": one.delta_density,
                        "tolerance": one.tolerance.density_at(one.reference),
                        "delta_e00": one.delta_e00,
                        "matches": one.matches,
                    }
                    for one in found.spots
                ],
                "cautions": [str(one) for one in found.cautions],
                "decided": decision,
                "record": saved,
            }
        )
        return
    table(
        ("", "spot", "was", "off by", "allowed", "ΔE00", "verdict"),
        (
            (
                spot.letter,
                spot.name,
                f"{one.reference:.2f}",
                f"{one.delta_density:+.3f}",
                f"{one.tolerance.density_at(one.reference):.3f}",
                "" if one.delta_e00 is None else f"{one.delta_e00:.2f}",
                "matches" if one.matches else "differs",
            )
            for spot in spots
            for one in ([spot.found] if spot.found is not None else ())
        ),
    )
    for missing in found.missing:
        line(f"{missing}: not read on the new print")
    picture = spot_lines(spots, image, _COLUMNS, _ROWS)
    for row in picture:
        line(row)
    if picture:
        line(LEGEND)
    else:
        narrate("where the spots lie is not on record: [reading.at] of a day sheet says it")
    where = f" at {', '.join(matched.differs_at)}" if matched.differs_at else ""
    line(f"the prints {'match' if found.matches else 'differ'}{where}")
    for caution in found.cautions:
        narrate(f"heed: {caution}")
    if saved is not None:
        narrate(f"saved as #{saved}: {decision}ed by {by}")
