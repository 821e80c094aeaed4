"""Makes studios of any size, of editions of fifty."""

from pathlib import Path

from provenance.model.edition import Edition
from provenance.model.negative import Negative
from provenance.model.printing import Printing
from provenance.model.prints import Print
from provenance.model.quantities import Size
from provenance.model.studio import Studio
from provenance.records.register import Register

IMAGE = Size(height_tenth_mm=3000, width_tenth_mm=2400)
SHEET = Size(height_tenth_mm=4060, width_tenth_mm=3050)
EACH = 50


def new_register(folder: Path) -> Register:
    """An empty studio."""
    studio = Studio(studio_id="0f" * 16, name="Studio Lantern Quay", artist="M V", mark="LQ")
    return Register.create(folder, studio)


def enter_prints(register: Register, count: int) -> None:
    """Enter `count` numbered prints, in one act."""
    with register.act("printer") as act:
        for first in range(0, count, EACH):
            negative = act.enter(Negative(code=f"N-{first}", title=f"Slipway at number {first}"))
            edition = act.enter(
                Edition(
                    negative=negative,
                    code=f"SLIP{first}",
                    name="Slipway",
                    promise="Fifty prints",
                    numbered=EACH,
                    image=IMAGE,
                    sheet=SHEET,
                )
            )
            printing = act.enter(Printing(negative=negative, done_on="2026-03-14"))
            for place in range(min(EACH, count - first)):
                act.enter(
                    Print(
                        edition=edition,
                        printing=printing,
                        mark=f"S{place + 1}",
                        image=IMAGE,
                        sheet=SHEET,
                        designation=f"{place + 1}/{EACH}",
                    )
                )


def plain_rows(count: int) -> list[dict[str, object]]:
    """The same prints as bare rows, field by field, for the baseline."""
    return [
        {
            "id": place,
            "edition": place // EACH,
            "edition_code": f"SLIP{place // EACH * EACH}",
            "printing": place // EACH,
            "mark": f"S{place % EACH + 1}",
            "image_height_tenth_mm": IMAGE.height_tenth_mm,
            "image_width_tenth_mm": IMAGE.width_tenth_mm,
            "sheet_height_tenth_mm": SHEET.height_tenth_mm,
            "sheet_width_tenth_mm": SHEET.width_tenth_mm,
            "existence": "exists",
            "inscriptions": "",
            "features": "",
            "source": "notes",
            "designation": f"{place % EACH + 1}/{EACH}",
            "words": f"SLIP{place // EACH * EACH} Slipway S{place % EACH + 1} "
            f"{place % EACH + 1}/{EACH}",
        }
        for place in range(count)
    ]
