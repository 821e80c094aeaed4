"""The certificate of a later print cites the match, and the records of both prints."""

import json
from pathlib import Path

from msgspec import structs

from provenance.model.printing import Printing
from provenance.model.prints import Print
from provenance.studio.certifying.certify import certify
from provenance.studio.reprinting.matching import compare_prints, decide
from tests.studio.finished import desk
from tests.studios import enter, reading


def test_a_certificate_says_that_it_was_printed_later_and_how_it_was_matched(
    tmp_path: Path,
) -> None:
    studio = desk(tmp_path / "studio")
    register, read = studio.register, studio.register.read
    held = read.get(Print, studio.print).body
    printing = read.get(Printing, held.printing).body
    before = enter(register, structs.replace(printing, done_on="2031-01-10"))
    plain = structs.replace(held, printing=before, mark="Q0", designation=None, signature=None)
    reference = enter(register, plain)
    for one in (reference, studio.print):
        enter(register, reading(one, done_on="2031-05-20"))
    with register.act("artist") as act:
        matched = compare_prints(read, studio.print, reference)
        report = decide(
            act, matched, accepted=True, by="the artist", on="2031-05-20", why="", source="notes"
        )
    issued = certify(register, studio.folder, studio.print)
    said = next(one for one in issued.claims if one.id == "made.matched")
    assert said.sentence.startswith("Printed later than QUAY Q0")
    record = json.loads(issued.path.with_suffix(".json").read_bytes())
    cited = {one["record"] for one in record["evidence"]}
    assert {report, reference, before} <= cited
    register.close()
