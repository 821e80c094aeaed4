"""`provenance certify REF`"""

from pathlib import Path
from typing import Literal

import click

from provenance.cli.key import passphrase
from provenance.cli.main import json_option
from provenance.cli.output import json_line, line, narrate


@click.command("certify")
@click.argument("ref", nargs=-1, required=True)
@click.option(
    "--all", "whole", is_flag=True, help="REF is an edition: certify all its prints that can be."
)
@click.option("--out", type=click.Path(path_type=Path), help="Put a copy here too.")
@click.option("--page", type=click.Choice(["A4", "letter"]), help="Else the studio's setting.")
@click.option(
    "--revise",
    metavar="REASON",
    help="What was corrected: take the place of the certificate in force.",
)
@click.option(
    "--duplicate",
    metavar="REASON",
    help="How the paper was lost: issue another in place of the certificate in force.",
)
@click.option("--who", help="Who issues it: a role or initials.")
@json_option
@click.pass_obj
def certify_command(
    studio: str | None,
    ref: tuple[str, ...],
    whole: bool,
    out: Path | None,
    page: Literal["A4", "letter"] | None,
    revise: str | None,
    duplicate: str | None,
    who: str | None,
    as_json: bool,
) -> int:
    """Issue the certificate of the print that REF names.

    It says what the record supports and no more.  Where something stands
    against it, nothing is issued, and you are told what would mend it.
    """
    if revise is not None and duplicate is not None:
        raise click.UsageError("--revise corrects, --duplicate does not: give one")
    if whole and duplicate is not None:
        raise click.UsageError("--duplicate is of one certificate, and cannot go with --all")
    if whole:
        if revise is not None:
            raise click.UsageError("--revise is of one certificate, and cannot go with --all")
        from provenance.cli.certify_edition import certify_edition

        return certify_edition(studio, " ".join(ref), out=out, page=page, who=who, as_json=as_json)
    from provenance.records.files import refuse_standing
    from provenance.studio.certifying.certify import certify
    from provenance.studio.certifying.copies import put_copy
    from provenance.studio.folder import choose_folder
    from provenance.studio.references import resolve_print

    if out is not None and not out.is_dir():
        # said before a certificate is issued
        refuse_standing(out)
    folder = choose_folder(studio)
    with folder.open() as register:
        held = resolve_print(register.read, " ".join(ref))
        issued = certify(
            register,
            folder,
            held.id,
            who=who,
            page=page,
            revise=duplicate if revise is None else revise,
            duplicate=duplicate is not None,
            ask=passphrase(),
        )
    path = put_copy(issued, out) if out is not None else issued.path
    if as_json:
        json_line(
            {
                "certificate": issued.number,
                "revision": issued.revision,
                "path": str(path),
                "sentences": len(issued.claims),
            }
        )
        return 0
    later = f", revision {issued.revision}" if issued.revision > 1 else ""
    narrate(f"issued certificate {issued.number}{later}")
    line(str(path))
    return 0
