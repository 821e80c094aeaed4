"""Pictures, reports and certificates with spoiled bytes, and names that no file can have."""

import io
import zlib
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image
from pypdf import PdfWriter
from pypdf.generic import NameObject, StreamObject

from provenance.documents.certificate import draw_certificate
from provenance.documents.opened import open_certificate
from provenance.errors import Refused
from provenance.records.attached import read_attachment
from provenance.records.images import make_thumbnail
from provenance.studio.checking.check import check
from provenance.studio.folder import StudioFolder
from tests.documents.pages import page
from tests.hostile.test_readers import FEW


def saved(format_name: str, mode: str, **options: object) -> bytes:
    """A small picture as it is saved by others."""
    out = io.BytesIO()
    gradient = Image.linear_gradient("L").resize((60, 40)).convert(mode)
    gradient.save(out, format_name, **options)
    return out.getvalue()


PICTURES = (
    saved("TIFF", "L"),
    saved("TIFF", "I;16"),
    saved("TIFF", "RGB", compression="tiff_lzw"),
    saved("TIFF", "RGB", compression="jpeg"),
    saved("TIFF", "1", compression="group4"),
    saved("JPEG", "RGB"),
    saved("JPEG", "CMYK"),
    saved("PNG", "RGBA"),
    saved("PNG", "P"),
)
LENGTHS = (b"\0\0\0\0", b"\xff\xff\xff\xff", b"\x7f\xff\xff\xff", b"\xff\xff\xff\x7f")


@st.composite
def spoiled(draw: st.DrawFn, whole: tuple[bytes, ...]) -> bytes:
    """One of the files with bytes changed, cut out or put in, or cut short."""
    data = draw(st.sampled_from(whole))
    for _ in range(draw(st.integers(1, 5))):
        at = draw(st.integers(0, len(data)))
        put = draw(st.sampled_from(LENGTHS) | st.binary(max_size=12))
        data = data[:at] + put + data[at + draw(st.sampled_from((0, len(put), 30))) :]
    return data[: draw(st.integers(0, len(data)))] if draw(st.booleans()) else data


@pytest.fixture(scope="module")
def place(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("hostile")


@given(spoiled(PICTURES))
@settings(FEW, max_examples=150)
def test_a_spoiled_picture_is_read_or_refused(place: Path, data: bytes) -> None:
    path = place / "scan.tif"
    path.write_bytes(data)
    for read in READ:
        try:
            read(path)
        except Refused:
            continue


READ: tuple[Callable[[Path], object], ...] = (
    make_thumbnail,
    lambda path: read_attachment("photograph", path),
    lambda path: read_attachment("report", path),
)


@pytest.mark.parametrize("read", READ, ids=("scan", "photograph", "report"))
@pytest.mark.parametrize("name", ["x" * 5000, "a\0b", "/dev/zero", ".", "scan.tif/y", ""])
def test_a_name_that_no_picture_can_have(
    place: Path, read: Callable[[Path], object], name: str
) -> None:
    (place / "scan.tif").touch()
    with pytest.raises(Refused):
        read(place / name)


@pytest.fixture(scope="module")
def pdf() -> bytes:
    return draw_certificate(page())


@given(st.data())
@settings(FEW, max_examples=40)
def test_a_spoiled_certificate_never_passes_for_whole(
    place: Path, pdf: bytes, data: st.DataObject
) -> None:
    bad = data.draw(spoiled((pdf,)))
    path = place / "certificate.pdf"
    path.write_bytes(bad)
    try:
        checked = check(path, StudioFolder(place))
    except Refused:
        return
    assert (checked.intact.answer == "yes") == (bad == pdf)


def test_a_certificate_that_unpacks_without_end_is_given_up(place: Path, pdf: bytes) -> None:
    packer = zlib.compressobj(9)
    swollen = b"".join(packer.compress(bytes(1 << 20)) for _ in range(100)) + packer.flush()
    writer = PdfWriter(io.BytesIO(pdf))
    stream = StreamObject()
    stream._data = swollen
    stream[NameObject("/Filter")] = NameObject("/FlateDecode")
    writer.pages[0][NameObject("/Contents")] = writer._add_object(stream)
    path = place / "bomb.pdf"
    writer.write(path)
    opened = open_certificate(path.read_bytes(), path.name)
    assert "Limit" in opened.unreadable
    assert check(path, StudioFolder(place)).intact.answer != "yes"
