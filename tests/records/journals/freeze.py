"""Freezes the journal of this release, so that every later one can be shown to read it.

    python -m tests.records.journals.freeze

Run once for each release, before it goes out, and commit what it writes.  A
frozen journal is never written again: if the program cannot read it any more,
the program is wrong.
"""

import json
import tempfile
from pathlib import Path
from typing import Any

from provenance import __version__
from provenance.model.disclosure import Answer, Disclosure
from provenance.model.finish import Condition, Inscription
from provenance.model.formula import Formula, Ingredient
from provenance.model.instruction import Instruction
from provenance.model.printing import Burn, Crop, Exposure, GradeExposure, OwnTime
from provenance.model.prints import Approval
from provenance.model.process import Aim, PlannedStep, ProcessSheet
from provenance.model.proof import Attached
from provenance.model.quantities import Dilution, Point, Size
from provenance.model.run import Override, Run, Tray
from provenance.records.entry import digest
from provenance.records.reader import Reader
from provenance.records.register import Register
from tests.studios import (
    REPORT,
    WHO,
    Shelf,
    bath,
    certificate,
    draw,
    enter,
    finish,
    furnish,
    later,
    match_report,
    negative,
    new_register,
    reading,
    release,
    revise,
    scan,
    sheet,
    signature,
    silver_test,
    spot_calibration,
    step,
    stock,
    toning_study,
    wash_study,
    wedge,
)

HERE = Path(__file__).parent


def live(register: Register) -> None:
    """A small studio's life: every kind of record, every verb."""
    with register.act(WHO) as act:
        shelf = furnish(act)
        act.enter(
            ProcessSheet(
                code="plain",
                name="Plain",
                base="fibre",
                steps=(
                    PlannedStep(name="fix", role="fix", aim=Aim(time_ms=60_000, least_ms=30_000)),
                    PlannedStep(name="silver test", test="silver"),
                ),
            )
        )
    exposure = Exposure(
        base_ms=14_000,
        grade="2 1/2",
        parts=(
            GradeExposure(grade="0", time_ms=8_000),
            GradeExposure(grade="5", time_ms=6_000),
        ),
        preflash_ms=1_500,
        mask="unsharp, 0.3",
        aperture_tenth=80,
        enlarger="the tall one",
        head="diffuse",
        carrier="glass",
        lens="105 mm",
        magnification_thousandth=4_210,
        magnification_from="measured",
        crop=Crop(
            left_tenth_mm=15,
            top_tenth_mm=20,
            size=Size(height_tenth_mm=570, width_tenth_mm=713),
        ),
        burns=(
            Burn(
                area="quay wall",
                milli_stop=500,
                grade="5",
                note="card, from below",
                at=Point(across_permille=300, down_permille=620),
            ),
        ),
        emergence_ms=18_000,
    )
    revise(register, shelf.printing, exposure=exposure)
    thinned = Dilution(parts_hundredths=(100, 400), typed="1:5")
    revise(register, shelf.fix, dilution=thinned, volume_hundredth_ml=200_000)
    toner = stock_and_bath(register, shelf.fix)
    one = enter(register, sheet(shelf, "Q1", features="Nick, lower left — “Ä”"))
    two = enter(register, sheet(shelf, "Q2", source="memory"))
    three = enter(register, sheet(shelf, "Q3"))
    plan = enter(
        register,
        ProcessSheet(
            code="short", name="Short", base="fibre", steps=(PlannedStep(name="fix", role="fix"),)
        ),
    )
    trays = (Tray(step="fix", bath=shelf.fix),)
    held = enter(
        register,
        Run(
            process=plan,
            sheets=(one, two),
            trays=trays,
            began_on="2031-03-02",
            overrides=(
                Override(
                    finding="Q10",
                    step="fix",
                    sheets=(one,),
                    why="the last tray",
                    what="F-1 is past its limit",
                ),
            ),
        ),
    )
    revise(register, held, state="finished")
    own = (OwnTime(sheet=two, duration_ms=90_000),)
    enter(register, step(shelf, one, two, own=own, temperature_tenth_c=205, source="run", run=held))
    enter(register, step(shelf, one, role="thiourea", bath=toner, place=10))
    retired = {"retired_on": "2031-03-02", "retired_why": "for one use", "disposed": "collected"}
    revise(register, toner, **retired)
    enter(register, silver_test(one, two, contact_ms=180_000, read_ms=180_000, reading="clear"))
    studied(register, shelf, one, plan)
    revise(register, one, designation="7/25")
    revise(register, one, signature=signature())
    with register.act(WHO) as act:
        numbered = act.number
        act.change(two, two, sheet(shelf, "Q2", source="memory", designation="8/25"))
    with register.act(WHO) as act:
        act.undo(numbered, "the wrong sheet was in hand")
    with register.act(WHO) as act:
        act.void(three, three, "the sheet was never exposed")
    enter(register, wedge(shelf.paper))
    old, new = (enter(register, reading(one_print)) for one_print in (one, two))
    enter(register, match_report(two, one, new, old))
    revise(
        register,
        two,
        existence="destroyed",
        gone_on="2031-05",
        gone_why="creased",
        gone_evidence="kept",
    )
    enter(register, scan(one, b"picture"))
    later(register, days=3)
    issued = enter(register, certificate(register, one, b"page"))
    lived(register, shelf, one, two)
    revise(register, issued, state="withdrawn", state_why="a name was misspelt")
    enter(register, negative(code="N-2", title="Ropewalk", made=None))
    revise(register, shelf.edition, verb="correct", numbered=30)


def lived(register: Register, shelf: Shelf, one: int, two: int) -> None:
    """What becomes of an edition: loans and sales, a replacement, what is said of it all."""
    party = "ef" * 32
    loan = {"event": "lent", "until": "2031-05", "terms": "ab" * 32}
    enter(register, release(one, party=party, on="2031-04-01", **loan))
    enter(register, release(one, event="returned", giver=party, on="2031-05-02"))
    enter(register, release(one, event="sold", party=party, rights="stay", on="2031-05-03"))
    enter(register, release(two, event="destroyed", on="2031-05"))
    passed = Approval(by="other", role="assistant", on="2031-05-20")
    enter(register, sheet(shelf, "Q4", replaces=two, approved=passed))
    enter(register, sheet(shelf, "", designation="20/25", opening=True, source="memory"))
    enter(register, sheet(shelf, "Q5", designation="BAT", counted="outside"))
    answers = (Answer(item="workshop", reply="disclaimed", words="not remembered"),)
    enter(register, Disclosure(edition=shelf.edition, answers=answers))
    words = "The estate may stamp what is left, and print nothing."
    enter(register, Instruction(topic="stamp", words=words, given_on="2031-05"))
    revise(register, shelf.negative, subject="a slipway", taken_by="artist", copy_of="")
    revise(register, 1, died="2031-05-30")


def studied(register: Register, shelf: Shelf, one: int, plan: int) -> None:
    """Studies of a paper, a spot read by the studio's own scale, a failed test and its repeat."""
    enter(register, wash_study(shelf.paper, aid=True, temperature_tenth_c=200))
    enter(register, toning_study(shelf.paper, process=plan, bleached_ms=300_000))
    scale = enter(register, spot_calibration(shelf.paper, contact_ms=120_000))
    spot = {"question": "thiosulfate", "method": "silver-nitrate spot", "contact_ms": 120_000}
    failed = enter(register, silver_test(one, **spot, place=11, verdict="failed"))
    whole = digest(REPORT)
    report = Attached(
        what="report", file_name="laboratory.pdf", file_sha256=whole, kept_sha256=whole
    )
    enter(
        register,
        silver_test(
            one,
            **spot,
            place=12,
            darker_md=70,
            calibration=scale,
            repeats=failed,
            specimen="companion strip",
            kept_at="box 4",
            reckoned_as="ion",
            attached=(report,),
        ),
    )
    enter(
        register,
        finish(
            one,
            spotting="dye",
            trimmed=False,
            mount="hinged to a mat",
            adhesive="wheat starch paste",
            coating="",
            inscriptions=(Inscription(text="7/25", medium="pencil", where="verso"),),
            condition=Condition(occasion="finished", text="no marks in raking light"),
        ),
    )


def stock_and_bath(register: Register, fix: int) -> int:
    """A formula, the bottle mixed by it, the tray poured from that, and a pair of fixers."""
    formula = enter(
        register,
        Formula(
            code="thiourea-stock",
            name="Thiourea, ten per cent",
            role="thiourea",
            use="stock",
            ingredients=(
                Ingredient(substance="thiourea", formula="CS(NH2)2", mg_per_l=100_000),
                Ingredient(
                    substance="acetic_acid",
                    formula="CH3COOH",
                    assay_hundredth_percent=2_800,
                    hundredth_ml_per_l=100,
                    note="28 % acid",
                ),
            ),
            finish="made up to",
            keeps_days=180,
            source="this journal",
            grade="P",
        ),
    )
    bottle = enter(
        register,
        stock(formula=formula, lot="L 4", keeps_until="2031-08-28", note="from crystals"),
    )
    pair = {"role": "fix", "one_shot": False, "limit": "first of two", "second_of": fix}
    enter(register, bath(code="F-2", **pair))
    return enter(register, bath(draw(bottle), formula=formula, finish="added to"))


def view_of(reader: Reader) -> list[dict[str, Any]]:
    """What the view says of a journal, in a form that outlives the tables."""
    rows = reader.connection.execute(
        "SELECT id, edition_code, mark, designation, state, printed_on, certificate"
        " FROM impression ORDER BY id"
    ).fetchall()
    heads = ("id", "edition", "mark", "designation", "state", "printed_on", "certificate")
    kinds = reader.connection.execute(
        "SELECT kind, count(*) FROM record WHERE live GROUP BY kind ORDER BY kind"
    ).fetchall()
    return [dict(zip(heads, row, strict=True)) for row in rows] + [dict(kinds)]


def main() -> None:
    """Write the journal and what its view says."""
    path = HERE / f"{__version__}.jsonl"
    if path.exists():
        raise SystemExit(f"{path.name} is frozen already; raise the version first")
    with tempfile.TemporaryDirectory() as folder, new_register(Path(folder) / "s") as register:
        live(register)
        path.write_bytes(b"".join(data + b"\n" for _seq, data, _mark in register.read.entries()))
        seen = json.dumps(view_of(register.read), indent=1, ensure_ascii=False)
        path.with_suffix(".view.json").write_text(seen + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
