"""Draws three letters into a folder: `python -m tests.documents.show_letters FOLDER`.

One print whose answer is complete, one whose wash failed and was put right, one
entered from an old notebook with gaps; all of the demo studio, made anew.
"""

import sys
import tempfile
from datetime import date
from pathlib import Path

from provenance.records.clock import SystemClock
from provenance.studio.answering.answer import answer
from provenance.studio.answering.asked import asked_about
from provenance.studio.answering.letter import write_answer
from provenance.studio.daysheet.record import record_day_sheet
from provenance.studio.demo import run_demo
from provenance.studio.folder import StudioFolder

LETTERS = {
    "complete": "QUAY 9/25",
    "failed-and-mended": "QUAY 8/25",
    "old-notebook": "QUAY 3/25",
}

TODAY = """
[day]
date = {today}
who = "artist"

[[finish]]
prints = ["QUAY 9/25"]
drying = "on screens"
flattening = "under weight"
spotting = "dye"
trimmed = false
mount = ""
adhesive = ""
coating = ""
enclosure = "a four-flap folder of unbuffered paper"
condition = "flat and clean"

[[finish.inscription]]
text = "Quay steps, low water"
medium = "pencil"
where = "on the back, lower left"

[[toning_study]]
code = "TONE-Q-1"
paper = "FB-8841"
process = "fibre-split-toned"
bleach = "oxidising bleach"
paper_density = "0.05"
patches = ["0.26: 0.24", "0.90: 0.85", "1.86: 1.61"]

[[treatment]]
sheets = ["QUAY 8/25"]

[[treatment.step]]
test = "thiosulfate"
method = "silver-nitrate spot"
specimen = "border"
contact = "2 min"
read = "2 min"
reading = "a pale yellow stain"
verdict = "failed"

[[treatment.step]]
do = "wash"
time = "1 h 30 min"

[[treatment.step]]
test = "thiosulfate"
method = "silver-nitrate spot"
specimen = "border"
contact = "2 min"
read = "2 min"
reading = "no stain"
verdict = "passed"
"""


def main(into: Path) -> None:
    """Make the studio, enter what the three need, and draw them."""
    into.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as scratch:
        folder = StudioFolder(Path(scratch) / "studio")
        run_demo(folder, lambda _text: None)
        sheet = Path(scratch) / "today.toml"
        sheet.write_text(TODAY.format(today=date.today()), encoding="utf-8")
        record_day_sheet(folder, sheet)
        with folder.open() as register:
            for name, called in LETTERS.items():
                held = asked_about(register.read, called)
                told = answer(register.read, folder, held.id, SystemClock()())
                print(write_answer(told, into / f"{name}.pdf", folder))


if __name__ == "__main__":
    main(Path(sys.argv[1]))
