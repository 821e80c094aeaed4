"""Letters to draw: an ordinary one, and what may be varied."""

from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

from provenance.documents.letter import Letter, LetterPicture
from tests.documents.pages import picture

ORDINARY = Letter(
    name="QUAY 7/25",
    title="Quay steps",
    designation="7/25",
    artist="An Invented Printer",
    place="Studio Quay",
    day="1 June 2031",
    picture=LetterPicture(picture(480, 600), (480, 600), "Image 30.0 × 24.0 cm"),
    particulars=(("Process", "Gelatin silver print"), ("Marks", "Q7 on the back")),
    sections=(
        ("Is it toned?", (("No toning is on record.", "not on record"),)),
        (
            "How was it fixed?",
            (("Fixed in two baths.", "logged"), ("Washed for 1 h.", "later, from notes")),
        ),
    ),
    note="Answered on 1 June 2031. Behind each sentence stands how it is known:",
    meanings=(("logged", "noted by a key pressed while it was done"), ("later", "afterwards")),
    labels={
        "answer": "Answer about a print",
        "continued": "continued",
        "page_of": "page {page} of {pages}",
    },
    answered_at_utc=datetime(2031, 6, 1, 10, 0, tzinfo=UTC),
)


def letter(**changes: Any) -> Letter:
    """The ordinary letter with some things otherwise."""
    return replace(ORDINARY, **changes)


LONG = letter(
    sections=tuple((question, sentences * 12) for question, sentences in ORDINARY.sections * 3)
)
