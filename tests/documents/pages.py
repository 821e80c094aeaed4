"""The certificate of an ordinary toned print: invented, its picture drawn here."""

import io
import tomllib
from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

from PIL import Image, ImageDraw

from provenance.documents.content import CertificatePage
from provenance.documents.page import Attachment
from provenance.documents.template import shipped_layout
from provenance.resources import resource

LAYOUT = shipped_layout()
_P = LAYOUT.particular_labels
_L = LAYOUT.labels
_WORDING = tomllib.loads(resource("templates", "wording", "en.toml").read_text("utf-8"))


_RECORD = b'{"form":"certificate-record/1","evidence":[%s]}' % b",".join(
    b'{"entry":%d,"entry_sha256":"%064x","record":%d}' % (at, at**40, at) for at in range(200, 230)
)


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


_DAY = "25 November 2026"
_MADE = (
    f"Printed on {_DAY} from negative Q-0412, made in 1998; the paper is fibre-based, double "
    "weight, gloss.",
    "Developed: developer for 2 min, then stop bath for 30 s.",
    "Fixed in two baths: rapid fixer 1+4 for 1 min, then rapid fixer 1+4 for 1 min.",
    "Washed: washing aid for 10 min, then water for 40 min.",
    f"Toned on {_DAY}: bleach for 1 min 15 s, then thiourea toner for 1 min, then selenium toner "
    "1+19 for 2 min.",
    "Washed after toning: washing aid for 10 min, then water for 1 h.",
)
_TESTED = (
    f"Fixing: on {_DAY}, before toning, a screening test with a drop of sodium sulfide on this "
    "print’s trimmed border showed no stain after 3 min.",
    f"Washing: on {_DAY}, a screening test with a drop of silver nitrate on a strip treated with "
    "this print (not the print itself) showed no stain after 2 min.",
)
_UNKNOWN = ("How much of the silver was converted by toning is not on record.",)

ORDINARY = CertificatePage(
    title="Quay steps, low water",
    designation="7/25",
    artist="Ida Example",
    place="Studio Lantern Quay, Corder Haven",
    picture_jpeg=picture(960, 1200),
    picture_px=(960, 1200),
    picture_caption="Image 30.0 × 24.0 cm, sheet 40.6 × 30.5 cm (h × w)",
    particulars=(
        (_P["process"], "Gelatin silver print, toned in thiourea and selenium"),
        (_P["paper"], "Fibre-based, double weight, gloss, batch 8841"),
        (_P["negative"], "Q-0412, made 1998, 6.0 × 7.0 cm, in use"),
        (_P["printed"], f"{_DAY}, by the artist"),
        (
            _P["edition_promised"],
            "“Twenty-five prints and three artist’s proofs in this size”: 25 numbered, 3 artist’s "
            "proofs",
        ),
        (_P["edition_today"], f"2 of the 28 in the register, {_DAY}"),
        (_P["signed"], f"By the artist’s hand, pencil, on the back, lower left, {_DAY}"),
        (_P["marked"], "Q7 on the back"),
        (_P["other_editions"], "None on record"),
    ),
    sections=(
        (_L["how_made"], tuple((sentence, "same-day notes") for sentence in _MADE)),
        (_L["tested"], tuple((sentence, "tested by eye") for sentence in _TESTED)),
        (_L["not_known"], tuple((sentence, "not on record") for sentence in _UNKNOWN)),
    ),
    care=tuple(one if isinstance(one, str) else one["text"] for one in _WORDING["care"]),
    number="QUAY-0007-25-K4",
    revision=1,
    record_sha256="3f7a9c0e51d2b86437aa10fe9b2c5d8e6071f4a2c93be85d1046f7a8be29c3d1",
    journal_head_seq=412,
    journal_head_sha256="b04c8e1f7da2356990ce4b1a2f58d7630e9b71c4a6d8f2053b9e7c14d0a8f65e",
    journal_note=_WORDING["phrase"]["journal_note"],
    issued_on="20 March 2026",
    issued_at_utc=datetime(2026, 3, 20, 14, 5, 9, tzinfo=UTC),
    labels=_L,
    code="QUAY-0007-25-K4 3F7A9C0E51D2B86437AA10FE9B2C5D8E6071F4A2C93BE85D1046F7A8BE29C3D1",
    attachments=(
        Attachment(
            name="record.json",
            media_type="application/json",
            data=_RECORD,
            about="The record behind the certificate",
        ),
    ),
)


def page(**changes: Any) -> CertificatePage:
    """The ordinary certificate, with some fields changed."""
    return replace(ORDINARY, **changes)
