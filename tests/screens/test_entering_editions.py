"""A new edition, with a negative that is new or on record."""

from pathlib import Path

import pytest

from provenance.model.edition import Edition
from provenance.model.negative import Negative
from provenance.screens.dialogs.new_edition import NewEdition
from tests.screens.form_app import SIZES, at_the_keyboard, small_studio

both_sizes = pytest.mark.parametrize("size", SIZES, ids=["80x24", "120x40"])


@both_sizes
async def test_an_edition_with_its_negative(tmp_path: Path, size: tuple[int, int]) -> None:
    small_studio(tmp_path)
    async with at_the_keyboard(tmp_path, size) as hands:
        await hands.open(NewEdition())
        await hands.put(negative="N-2", title="Ropewalk, interior", made="2011~", format="69 x 56")
        await hands.press("tab")
        assert hands.value("name") == "Ropewalk, interior"
        await hands.put(
            code="ROPE",
            promise="Ten prints and two artist's proofs; no others in this size",
            numbered="10",
            artist_proofs="2",
            image="24 x 30",
        )
        await hands.press("ctrl+s")
        assert hands.results, hands.text()
        read = hands.app.register.read
        negative, edition = read.by_code(Negative, "N-2"), read.by_code(Edition, "ROPE")
        assert negative is not None
        assert edition is not None
        assert negative.body.made == "2011~"
        assert edition.body.negative == negative.id
        assert (edition.body.numbered, edition.body.artist_proofs) == (10, 2)
        assert edition.body.image.width_tenth_mm == 3000


@both_sizes
async def test_a_negative_on_record_is_not_entered_again(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    small_studio(tmp_path)
    async with at_the_keyboard(tmp_path, size) as hands:
        await hands.open(NewEdition("N-1"))
        below = next(line for line in hands.text().splitlines() if "on record" in line)
        assert below.split() == ["on", "record", "Slipway", "1998-03,", "1998~", "69", "x", "56"]
        assert hands.value("name") == "Slipway"
        await hands.put(code="SMALL", promise="Five small ones", numbered="5")
        await hands.press("f2")
        assert hands.results, hands.text()
        assert len(hands.app.register.read.all(Negative)) == 1


@pytest.mark.parametrize(
    ("field", "typed", "said"),
    [
        ("negative", "", "missing"),
        ("negative", "7 7", "code"),
        ("title", "", "missing"),
        ("made", "ca. 1985", "ca. 1985"),
        ("format", "medium", "medium"),
        ("code", "", "missing"),
        ("code", "QUAY", "QUAY"),
        ("name", "", "missing"),
        ("promise", "", "missing"),
        ("numbered", "many", "whole number"),
        ("numbered", "0", "no impressions"),
        ("artist_proofs", "-1", "whole number"),
        ("image", "60 x 50", "smaller than the image"),
        ("sheet", "24.0", "24.0"),
        ("opened", "2031-02-30", "2031-02-30"),
    ],
)
async def test_what_is_wrong_is_said_at_its_field(
    tmp_path: Path, field: str, typed: str, said: str
) -> None:
    small_studio(tmp_path)
    good = {
        "negative": "N-2",
        "title": "Ropewalk",
        "code": "ROPE",
        "name": "Ropewalk",
        "promise": "Ten",
        "numbered": "10",
    }
    async with at_the_keyboard(tmp_path) as hands:
        await hands.open(NewEdition())
        head = hands.app.register.read.head()
        await hands.put(**good | {field: typed})
        await hands.press("ctrl+s")
        assert hands.results == []
        at = "sheet" if field == "image" else field
        assert said in hands.wrong(at), (hands.wrong(at), hands.text())
        assert hands.value(field).startswith(typed)
        assert all(hands.value(key) == text for key, text in good.items() if key != field)
        assert hands.app.register.read.head() == head
