"""Fields as a person reads them: records by their names, also deep inside a field."""

from pathlib import Path

from provenance.model.certificate import IssuedClaim
from provenance.model.chemistry import Draw
from provenance.model.evidence import Standing
from provenance.model.run import OwnAim, Run, Tray
from provenance.studio.plain import plain_fields
from tests import studios

NAMES = {7: "fibre-plain", 8: "QUAY Q8", 9: "fixA-1", 12: "S-1"}


def test_a_record_that_lies_deeper_is_called_by_its_name_too() -> None:
    run = Run(
        process=7,
        sheets=(8,),
        trays=(Tray(step="fix one", bath=9),),
        aims=(OwnAim(step="bleach", sheet=8, aim_ms=75_000),),
        began_on="2031-06-01",
    )
    fields = dict(plain_fields(run, called=NAMES.__getitem__))
    assert fields["trays"] == "step fix one, bath fixA-1"
    assert "sheet QUAY Q8" in fields["aims"]
    bath = studios.bath(Draw(stock=12, volume_hundredth_ml=2_000))
    assert "stock S-1" in dict(plain_fields(bath, called=NAMES.__getitem__))["drawn"]


def test_a_statement_reads_as_it_stands_on_the_paper(tmp_path: Path) -> None:
    claim = IssuedClaim(
        id="made.washed",
        section="made",
        sentence="Washed for an hour.",
        standing=Standing.LOGGED,
        evidence=(8,),
    )
    with studios.new_register(tmp_path / "studio") as register:
        issued = studios.certificate(register, 8, b"%PDF", statement=(claim,))
    said = dict(plain_fields(issued, called="#{}".format))["statement"]
    assert said == "Washed for an hour. (logged)"
