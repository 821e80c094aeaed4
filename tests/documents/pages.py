"""A certificate for tests: invented, with a picture that is drawn here."""

import io
from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

from PIL import Image, ImageDraw

from provenance.documents.content import CertificatePage
from provenance.documents.template import shipped_layout

LAYOUT = shipped_layout()
_P = LAYOUT.particular_labels
_L = LAYOUT.labels


def picture(width: int, height: int) -> bytes:
    """A quay at low water: sky, wall, steps."""
    image = Image.linear_gradient("L").point(lambda v: 225 - v // 3).resize((width, height))
    draw = ImageDraw.Draw(image)
    horizon = height * 5 // 9
    draw.rectangle((0, horizon, width, height), fill=96)
    draw.polygon(
        [(0, horizon), (width * 2 // 3, horizon), (width // 2, height), (0, height)], fill=52
    )
    steps = 9
    for step in range(steps):
        top = horizon + (height - horizon) * step // steps
        left, right = width // 9 + step * width // 40, width * 5 // 9 - step * width // 60
        draw.rectangle((left, top, right, top + height // 50), fill=205 - 12 * step)
    draw.ellipse(
        (width * 3 // 4, height // 8, width * 3 // 4 + height // 14, height // 8 + height // 14),
        fill=245,
    )
    out = io.BytesIO()
    image.save(out, "JPEG", quality=88)
    return out.getvalue()


ORDINARY = CertificatePage(
    title="Quay steps, low water",
    designation="7/25",
    artist="Ida Example",
    place="Lantern Quay",
    picture_jpeg=picture(1200, 960),
    picture_px=(1200, 960),
    picture_caption="Image 24.0 × 30.0 cm, sheet 30.5 × 40.6 cm, height before width",
    particulars=(
        (_P["process"], "Gelatin silver print, toned in thiourea and selenium"),
        (_P["negative"], "1998, 4 × 5 inch film"),
        (_P["paper"], "Fibre-based, double weight, glossy, batch 8841"),
        (_P["printed"], "14 to 15 March 2026, by the artist"),
        (_P["edition_promised"], "25 and 3 artist’s proofs, in this size only"),
        (_P["edition_today"], "11 printed, 17 to come, as of 20 March 2026"),
        (_P["signed"], "By hand, in pencil, on the back, 20 March 2026"),
        (_P["inscriptions"], "“Q7 7/25”, pencil, on the back, lower left"),
        (_P["negative_state"], "Intact and in use"),
        (_P["back_mark"], "Q7, pencil, lower right"),
    ),
    sections=(
        (
            _L["how_made"],
            (
                (
                    "Fixed in two baths, treated in a washing aid and washed for 40 minutes.",
                    "logged",
                ),
                (
                    "Bleached for 1 minute 15 seconds, toned in thiourea, then for 2 minutes in "
                    "selenium.",
                    "logged",
                ),
                ("Washed again for an hour after toning.", "same-day notes"),
            ),
        ),
        (
            _L["tested"],
            (
                (
                    "Before toning, a sulfide drop on this print’s trimmed border left no stain "
                    "after 3 minutes; this is a screening test.",
                    "by eye",
                ),
                (
                    "After the last wash, a silver nitrate drop on a companion strip left no stain "
                    "after 2 minutes.",
                    "by eye",
                ),
            ),
        ),
        (
            _L["not_known"],
            (
                (
                    "How much of the silver was converted by toning was not measured.",
                    "not on record",
                ),
                ("The temperature of the last wash was not recorded.", "not on record"),
            ),
        ),
    ),
    care=(
        "Keep it cool and dry, in enclosures that pass ISO 18916, without PVC or glassine.",
        "Show it in no more than 100 lux, and let it rest in the dark between showings.",
    ),
    number="QUAY-0007-25-K4",
    revision=1,
    record_sha256="3f7a9c0e51d2b86437aa10fe9b2c5d8e6071f4a2c93be85d1046f7a8be29c3d1",
    journal_head_seq=412,
    journal_head_sha256="b04c8e1f7da2356990ce4b1a2f58d7630e9b71c4a6d8f2053b9e7c14d0a8f65e",
    journal_note=(
        "The first digest shows that a file of the record is unchanged, the second that the "
        "journal up to this entry is. Neither can show that this sheet of paper is the one "
        "described."
    ),
    issued_on="20 March 2026",
    issued_at_utc=datetime(2026, 3, 20, 14, 5, 9, tzinfo=UTC),
    labels=_L,
)


def page(**changes: Any) -> CertificatePage:
    """The ordinary certificate, with some fields changed."""
    return replace(ORDINARY, **changes)
