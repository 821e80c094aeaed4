"""Old forms are raised; newer ones are refused, not misread."""

from typing import Any, ClassVar

import pytest

from provenance.errors import Damaged, NewerRegister
from provenance.model.body import Body
from provenance.records.forms import KINDS, UPCASTERS, read_body


class Tray(Body, frozen=True, kw_only=True):
    """The third form of a kind made up for these tests."""

    KIND: ClassVar[str] = "tray"
    FORM: ClassVar[int] = 3

    name: str
    volume_hundredth_ml: int


def volume_in_hundredths(fields: dict[str, Any]) -> dict[str, Any]:
    return {"title": fields["title"], "volume_hundredth_ml": fields["volume_ml"] * 100}


def title_is_name(fields: dict[str, Any]) -> dict[str, Any]:
    return {"name": fields["title"], "volume_hundredth_ml": fields["volume_hundredth_ml"]}


KNOWN = {
    "kinds": {"tray": Tray},
    "upcasters": {("tray", 1): volume_in_hundredths, ("tray", 2): title_is_name},
}


@pytest.mark.parametrize(
    ("form", "data"),
    [
        (1, b'{"title":"blue","volume_ml":2000}'),
        (2, b'{"title":"blue","volume_hundredth_ml":200000}'),
        (3, b'{"name":"blue","volume_hundredth_ml":200000}'),
    ],
)
def test_every_form_reads_as_the_newest(form: int, data: bytes) -> None:
    expected = Tray(name="blue", volume_hundredth_ml=200_000)
    assert read_body("tray", form, data, **KNOWN) == expected  # type: ignore[arg-type]


@pytest.mark.parametrize(("kind", "form"), [("tray", 4), ("hologram", 1)])
def test_what_a_later_release_wrote_is_refused(kind: str, form: int) -> None:
    with pytest.raises(NewerRegister, match="newer one"):
        read_body(kind, form, b"{}", **KNOWN)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("form", "data"),
    [
        (1, b'{"title":"blue"}'),
        (1, b"[]"),
        (1, b'{"title":"blue","volume_ml":null}'),
        (3, b'{"name":"blue","volume_hundredth_ml":1,"colour":"blue"}'),
        (3, b'{"name":"blue"}'),
        (3, b"null"),
        (3, b"{"),
        (3, b'{"name":"\xff","volume_hundredth_ml":1}'),
    ],
)
def test_bytes_that_do_not_hold_their_form_are_damage(form: int, data: bytes) -> None:
    with pytest.raises(Damaged):
        read_body("tray", form, data, **KNOWN)  # type: ignore[arg-type]


def test_a_body_that_its_own_type_refuses_is_damage() -> None:
    data = (
        b'{"edition":1,"image":{"height_tenth_mm":-1,"width_tenth_mm":1},"mark":"1",'
        b'"printing":1,"sheet":{"height_tenth_mm":1,"width_tenth_mm":1}}'
    )
    with pytest.raises(Damaged, match="not the height of a sheet"):
        read_body("print", 1, data)


def test_every_earlier_form_has_its_upcaster() -> None:
    for kind, body in KINDS.items():
        for form in range(1, body.FORM):
            assert (kind, form) in UPCASTERS


def test_a_kind_knows_where_its_links_lead() -> None:
    for body in KINDS.values():
        fields = set(body.__struct_fields__)
        assert all(hasattr(body, field) for field in body.LINKS)
        assert set(body.LINKS.values()) <= set(KINDS)
        assert set(body.WORDS) <= fields
