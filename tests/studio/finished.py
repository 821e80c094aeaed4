"""A studio folder with one print that owes nothing but its certificate."""

import io
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from PIL import Image

from provenance.model.chemistry import Bath
from provenance.records.images import store_thumbnail
from provenance.records.register import Register
from provenance.studio.folder import StudioFolder, make_folders
from tests import studios
from tests.studios import Shelf, enter, furnish, later, new_register, scan, sheet, signature, step


@dataclass
class Desk:
    """The studio, open, and what its one print is made of."""

    folder: StudioFolder
    register: Register
    shelf: Shelf
    print: int
    wash: int
    test: int


def picture() -> bytes:
    """A grey picture, as scans are kept."""
    out = io.BytesIO()
    Image.linear_gradient("L").resize((300, 240)).save(out, "JPEG")
    return out.getvalue()


def desk(path: Path, **other: Any) -> Desk:
    """A print 7/25: fixed in two baths, washed, tested, numbered, signed and scanned."""
    folder = StudioFolder(path)
    make_folders(folder)
    register = new_register(path)
    with register.act("printer") as act:
        shelf = furnish(act)
        second = act.enter(Bath(code="F-2", role="fix", made_on="2031-03-01"))
        fields = {"mark": "Q7", "designation": "7/25", "signature": signature()} | other
        held = act.enter(sheet(shelf, fields.pop("mark"), **fields))
        act.enter(step(shelf, held, place=1))
        act.enter(step(shelf, held, place=2, bath=second))
        wash = act.enter(step(shelf, held, place=3, role="wash", bath=shelf.wash))
        test = act.enter(studios.silver_test(held, place=4, reading="no stain"))
        jpeg = picture()
        act.enter(scan(held, jpeg, thumbnail_width_px=300, thumbnail_height_px=240))
    store_thumbnail(folder.images, jpeg)
    later(register, days=1)
    return Desk(folder, register, shelf, held, wash, test)


def another(desk: Desk, mark: str, designation: str) -> int:
    """One more print of the edition, ready for its certificate too."""
    held = enter(
        desk.register,
        sheet(desk.shelf, mark, designation=designation, signature=signature()),
    )
    enter(desk.register, scan(held, picture(), thumbnail_width_px=300, thumbnail_height_px=240))
    return held
