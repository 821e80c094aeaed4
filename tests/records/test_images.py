import hashlib
import io
import os
import struct
import zlib
from pathlib import Path

import pytest
from PIL import Image, ImageCms

from provenance.errors import Damaged, NotFound, Refused
from provenance.records.images import Thumbnail, load_thumbnail, make_thumbnail, store_thumbnail
from provenance.records.scans import PictureLimits, opened, opened_again


def wedge(width: int, height: int) -> Image.Image:
    """16-bit grey, black at the left to white at the right."""
    row = struct.pack(f"<{width}H", *(round(65535 * x / (width - 1)) for x in range(width)))
    return Image.frombytes("I;16", (width, height), row * height)


def corners() -> Image.Image:
    """120 × 80, four quarters of different grey: 0, 80, 160, 240 from the top left, by rows."""
    image = Image.new("L", (120, 80))
    for grey, place in {80: (60, 0), 160: (0, 40), 240: (60, 40)}.items():
        image.paste(grey, (*place, place[0] + 60, place[1] + 40))
    return image


def seen(thumbnail: Thumbnail) -> Image.Image:
    image = Image.open(io.BytesIO(thumbnail.jpeg))
    image.load()
    return image


def level(thumbnail: Thumbnail, x: float, y: float) -> int:
    """Grey of the point at the fractions `x`, `y` of the thumbnail."""
    image = seen(thumbnail).convert("L")
    value = image.getpixel((int(x * image.width), int(y * image.height)))
    assert isinstance(value, int)
    return value


@pytest.mark.parametrize("extension", ["tif", "jpg", "png"])
def test_a_scan_is_brought_to_1200_pixels(tmp_path: Path, extension: str) -> None:
    path = tmp_path / f"scan.{extension}"
    Image.linear_gradient("L").resize((3000, 2000)).save(path)
    thumbnail = make_thumbnail(path)
    assert (thumbnail.width_px, thumbnail.height_px) == seen(thumbnail).size == (1200, 800)
    assert (thumbnail.source_width_px, thumbnail.source_height_px) == (3000, 2000)
    assert (thumbnail.bits, thumbnail.colour) == (8, "grey")
    assert thumbnail.source_name == path.name
    assert thumbnail.source_sha256 == hashlib.sha256(path.read_bytes()).hexdigest()


def test_a_small_scan_is_not_enlarged(tmp_path: Path) -> None:
    corners().save(tmp_path / "s.png")
    assert seen(make_thumbnail(tmp_path / "s.png")).size == (120, 80)


def test_equal_scans_give_equal_bytes(tmp_path: Path) -> None:
    wedge(1500, 40).save(tmp_path / "a.tif")
    assert make_thumbnail(tmp_path / "a.tif") == make_thumbnail(tmp_path / "a.tif")


@pytest.mark.parametrize("compression", [None, "tiff_lzw"])
@pytest.mark.parametrize("size", [(400, 30), (2601, 517), (6007, 301)])
def test_16_bit_grey_keeps_its_scale(
    tmp_path: Path, size: tuple[int, int], compression: str | None
) -> None:
    wedge(*size).save(tmp_path / "w.tif", compression=compression)
    thumbnail = make_thumbnail(tmp_path / "w.tif")
    assert (thumbnail.bits, thumbnail.colour) == (16, "grey")
    for part in (0.0, 0.1, 0.25, 0.5, 0.75, 0.9):
        assert level(thumbnail, part, 0.5) == pytest.approx(255 * part, abs=3)
    assert level(thumbnail, 0.9999, 0.5) >= 253


def test_the_strips_meet_without_a_seam(tmp_path: Path) -> None:
    # Black to white from top to bottom, over several strips and a ragged last one.
    wedge(3001, 700).transpose(Image.Transpose.ROTATE_270).save(tmp_path / "w.tif")
    image = seen(make_thumbnail(tmp_path / "w.tif"))
    column = [image.getpixel((image.width // 2, y)) for y in range(image.height)]
    expected = [255 * (y + 0.5) / image.height for y in range(image.height)]
    assert all(abs(a - b) <= 3 for a, b in zip(column, expected, strict=True))  # type: ignore[operator]


def test_16_bit_white_is_zero_is_turned_round(tmp_path: Path) -> None:
    wedge(300, 20).save(tmp_path / "n.tif", tiffinfo={262: 0})
    assert Image.open(io.BytesIO((tmp_path / "n.tif").read_bytes())).tag_v2[262] == 0  # type: ignore[attr-defined]
    thumbnail = make_thumbnail(tmp_path / "n.tif")
    assert level(thumbnail, 0.0, 0.5) >= 252
    assert level(thumbnail, 0.999, 0.5) <= 3


def test_16_bit_png_and_big_endian_tiff(tmp_path: Path) -> None:
    wedge(300, 20).save(tmp_path / "w.png")
    Image.frombytes("I;16B", (1, 1), b"\x80\x00").resize((50, 50)).save(tmp_path / "b.tif")
    assert make_thumbnail(tmp_path / "w.png").bits == 16
    big = make_thumbnail(tmp_path / "b.tif")
    assert (big.bits, level(big, 0.5, 0.5)) == (16, 128)


@pytest.mark.parametrize(
    ("mode", "colour"),
    [("1", "grey"), ("L", "grey"), ("LA", "grey"), ("RGB", "RGB"), ("RGBA", "RGB"), ("P", "RGB")],
)
def test_usual_modes_are_read(tmp_path: Path, mode: str, colour: str) -> None:
    Image.new("L", (30, 20), 255).convert(mode).save(tmp_path / "m.png")
    thumbnail = make_thumbnail(tmp_path / "m.png")
    assert thumbnail.colour == colour
    assert thumbnail.bits == (1 if mode == "1" else 8)
    assert level(thumbnail, 0.5, 0.5) == 255


def test_what_is_clear_has_white_paper_behind_it(tmp_path: Path) -> None:
    Image.new("RGBA", (30, 20), (0, 0, 0, 0)).save(tmp_path / "clear.png")
    assert level(make_thumbnail(tmp_path / "clear.png"), 0.5, 0.5) == 255


def test_cmyk_becomes_rgb(tmp_path: Path) -> None:
    Image.new("CMYK", (30, 20), (0, 255, 255, 0)).save(tmp_path / "c.tif")
    thumbnail = make_thumbnail(tmp_path / "c.tif")
    assert (thumbnail.colour, seen(thumbnail).mode) == ("CMYK", "RGB")
    red, green, _ = seen(thumbnail).getpixel((15, 10))  # type: ignore[misc]
    assert (red > 200, green < 60) == (True, True)


# What the four quarters read, by rows from the top left, once the stored
# picture has been turned as EXIF (CIPA DC-008, tag 274) says.
UPRIGHT = {
    1: (0, 80, 160, 240),
    2: (80, 0, 240, 160),
    3: (240, 160, 80, 0),
    4: (160, 240, 0, 80),
    5: (0, 160, 80, 240),
    6: (160, 0, 240, 80),
    7: (240, 80, 160, 0),
    8: (80, 240, 0, 160),
}


@pytest.mark.parametrize("extension", ["jpg", "png", "tif", "16.tif", "lzw.tif"])
@pytest.mark.parametrize("orientation", UPRIGHT)
def test_the_scan_is_turned_upright(tmp_path: Path, orientation: int, extension: str) -> None:
    path = tmp_path / f"turned.{extension}"
    image = corners()
    if extension == "16.tif":
        wide = image.convert("I").point(lambda value: value * 257)
        image = Image.frombytes("I;16", image.size, wide.convert("I;16").tobytes())
    if extension.endswith("tif"):
        image.save(
            path,
            tiffinfo={274: orientation},
            compression="tiff_lzw" if extension == "lzw.tif" else None,
        )
    else:
        exif = Image.Exif()
        exif[0x0112] = orientation
        image.save(path, exif=exif)
    thumbnail = make_thumbnail(path)
    places = ((0.25, 0.25), (0.75, 0.25), (0.25, 0.75), (0.75, 0.75))
    read = tuple(level(thumbnail, x, y) for x, y in places)
    assert read == pytest.approx(UPRIGHT[orientation], abs=4)
    upright = (80, 120) if orientation >= 5 else (120, 80)
    assert seen(thumbnail).size == upright
    assert (thumbnail.source_width_px, thumbnail.source_height_px) == upright


def profile(space: str, curve: bytes, columns: dict[str, tuple[float, float, float]]) -> bytes:
    """A small ICC profile, version 2.4: one curve for every channel."""

    def fixed(values: tuple[float, ...]) -> bytes:
        return b"".join(struct.pack(">i", round(value * 65536)) for value in values)

    white = (0.9642, 1.0, 0.8249)
    text = b"desc" + bytes(4) + struct.pack(">I", 5) + b"test\0" + bytes(78)
    tags = {
        "desc": text,
        "cprt": b"text" + bytes(4) + b"none\0",
        "wtpt": b"XYZ " + bytes(4) + fixed(white),
    }
    if space == "GRAY":
        tags["kTRC"] = curve
    else:
        for name, column in columns.items():
            tags[f"{name}XYZ"] = b"XYZ " + bytes(4) + fixed(column)
            tags[f"{name}TRC"] = curve
    table, body, at = b"", b"", 128 + 4 + 12 * len(tags)
    for name, data in tags.items():
        padded = data + bytes(-len(data) % 4)
        table += name.encode() + struct.pack(">II", at + len(body), len(data))
        body += padded
    size = at + len(body)
    head = struct.pack(">I4sI4s4s4s", size, bytes(4), 0x02400000, b"mntr", space.encode(), b"XYZ ")
    head += struct.pack(">6H", 2026, 1, 1, 0, 0, 0) + b"acsp" + bytes(28) + fixed(white)
    return head.ljust(128, b"\0") + struct.pack(">I", len(tags)) + table + body


def gamma(value: float) -> bytes:
    return b"curv" + bytes(4) + struct.pack(">IH", 1, round(value * 256)) + bytes(2)


def srgb_of(linear: float) -> float:
    """The sRGB value, 0 to 255, of a linear light (IEC 61966-2-1)."""
    return 255 * (12.92 * linear if linear <= 0.0031308 else 1.055 * linear ** (1 / 2.4) - 0.055)


@pytest.mark.parametrize("bits", [8, 16])
def test_a_grey_profile_is_followed(tmp_path: Path, bits: int) -> None:
    image = Image.new("L", (40, 40), 128)
    if bits == 16:
        image = Image.frombytes("I;16", (40, 40), struct.pack("<H", 128 * 257) * 1600)
    image.save(tmp_path / "g.tif", icc_profile=profile("GRAY", gamma(1.0), {}))
    thumbnail = make_thumbnail(tmp_path / "g.tif")
    assert seen(thumbnail).mode == "L"
    assert level(thumbnail, 0.5, 0.5) == pytest.approx(srgb_of(128 / 255), abs=2)


def test_a_colour_profile_is_followed(tmp_path: Path) -> None:
    # The primaries of sRGB, adapted to D50, with a straight curve: only the curve changes.
    columns = {
        "r": (0.4360, 0.2225, 0.0139),
        "g": (0.3851, 0.7169, 0.0971),
        "b": (0.1431, 0.0606, 0.7139),
    }
    image = Image.new("RGB", (40, 40), (200, 60, 120))
    image.save(tmp_path / "c.png", icc_profile=profile("RGB ", gamma(1.0), columns))
    got = seen(make_thumbnail(tmp_path / "c.png")).getpixel((20, 20))
    assert got == pytest.approx([srgb_of(v / 255) for v in (200, 60, 120)], abs=3)


def test_an_srgb_profile_changes_nothing(tmp_path: Path) -> None:
    srgb = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    Image.new("RGB", (40, 40), (200, 60, 120)).save(tmp_path / "c.png", icc_profile=srgb)
    got = seen(make_thumbnail(tmp_path / "c.png")).getpixel((20, 20))
    assert got == pytest.approx((200, 60, 120), abs=2)


@pytest.mark.parametrize("data", [b"not a profile at all", profile("GRAY", gamma(1.0), {})])
def test_a_profile_that_does_not_fit_is_refused(tmp_path: Path, data: bytes) -> None:
    Image.new("RGB", (40, 40)).save(tmp_path / "c.png", icc_profile=data)
    with pytest.raises(Refused, match=r"colour profile in .*c\.png cannot be used"):
        make_thumbnail(tmp_path / "c.png")


def test_no_metadata_come_along(tmp_path: Path) -> None:
    exif = Image.Exif()
    exif[0x010E] = "description-of-the-scan"
    exif[0x0112] = 6
    srgb = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    corners().convert("RGB").save(
        tmp_path / "m.jpg",
        exif=exif,
        comment=b"comment-of-the-scan",
        icc_profile=srgb,
        xmp=b"<x>packet-of-the-scan</x>",
    )
    jpeg = make_thumbnail(tmp_path / "m.jpg").jpeg
    assert b"of-the-scan" not in jpeg
    markers = [jpeg[at + 1] for at in range(len(jpeg) - 1) if jpeg[at] == 0xFF]
    assert not {0xE1, 0xE2, 0xED, 0xFE} & set(markers[: markers.index(0xDA)])


def png(width: int, height: int) -> bytes:
    """A PNG that promises a size and holds no pixels."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return (
            struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
        )

    head = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", head)
        + chunk(b"IDAT", zlib.compress(b""))
        + chunk(b"IEND", b"")
    )


@pytest.mark.parametrize("size", [(40_000, 40_000), (200_000, 10), (2_000_000_000, 2_000_000_000)])
def test_a_bomb_is_refused_before_it_is_decoded(
    tmp_path: Path, size: tuple[int, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    def decoding(*_: object) -> None:
        raise AssertionError("a pixel was decoded")

    monkeypatch.setattr("PIL.ImageFile.ImageFile.load", decoding)
    (tmp_path / "bomb.png").write_bytes(png(*size))
    with pytest.raises(Refused, match=rf"bomb\.png is {size[0]} × {size[1]} pixels"):
        make_thumbnail(tmp_path / "bomb.png")


def test_the_limit_is_ours_and_the_library_keeps_its_own(tmp_path: Path) -> None:
    before = Image.MAX_IMAGE_PIXELS
    Image.new("1", (15_000, 14_000)).save(tmp_path / "large.png")  # 210 megapixels
    assert make_thumbnail(tmp_path / "large.png").source_width_px == 15_000
    with pytest.raises(Refused, match="more than the limit of 100 megapixels"):
        make_thumbnail(tmp_path / "large.png", PictureLimits(pixels=100_000_000))
    assert before == Image.MAX_IMAGE_PIXELS


@pytest.mark.parametrize("extension", ["tif", "lzw.tif", "jpg", "png"])
@pytest.mark.parametrize("part", [0.02, 0.5, 0.9])
def test_a_scan_cut_short_is_refused(tmp_path: Path, extension: str, part: float) -> None:
    path = tmp_path / f"cut.{extension}"
    noise = Image.effect_noise((200, 150), 80)
    if extension == "lzw.tif":
        noise.save(path, compression="tiff_lzw")
    else:
        noise.save(path)
    whole = path.read_bytes()
    path.write_bytes(whole[: int(len(whole) * part)])
    with pytest.raises(Refused, match=r"cut\..* is (broken|not a TIFF)"):
        make_thumbnail(path)


@pytest.mark.parametrize("data", [b"", b"hello", b"II*\0", b"\xff\xd8\xff", b"GIF89a" + bytes(40)])
def test_what_is_no_picture_is_refused(tmp_path: Path, data: bytes) -> None:
    (tmp_path / "what.tif").write_bytes(data)
    with pytest.raises(Refused, match=r"what\.tif") as refusal:
        make_thumbnail(tmp_path / "what.tif")
    assert all(problem.mend for problem in refusal.value.problems)


@pytest.mark.parametrize("format_name", ["GIF", "BMP", "WEBP", "PPM"])
def test_other_formats_are_refused(tmp_path: Path, format_name: str) -> None:
    corners().save(tmp_path / "other.png", format=format_name)
    with pytest.raises(Refused, match=r"other\.png is not a TIFF, JPEG or PNG"):
        make_thumbnail(tmp_path / "other.png")


def test_floating_point_is_refused(tmp_path: Path) -> None:
    Image.new("F", (20, 20)).save(tmp_path / "f.tif")
    with pytest.raises(Refused, match="kind of picture that is not read here"):
        make_thumbnail(tmp_path / "f.tif")


def test_a_file_replaced_while_it_is_read_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "s.png"
    corners().save(path)
    with opened(path) as file:
        corners().save(tmp_path / "new.png")
        (tmp_path / "new.png").replace(path)
        with pytest.raises(Refused, match="replaced while"), opened_again(path, file):
            pass


def test_missing_folder_and_pipe_are_refused(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    for name, reason in {
        "none.tif": "there is no file",
        "pipe": "is not a file",
        ".": "not a",
    }.items():
        with pytest.raises(Refused, match=reason):
            make_thumbnail(tmp_path / name)


def test_thumbnails_are_kept_by_digest(tmp_path: Path) -> None:
    corners().save(tmp_path / "s.png")
    jpeg = make_thumbnail(tmp_path / "s.png").jpeg
    folder = tmp_path / "images"
    folder.mkdir()
    digest = store_thumbnail(folder, jpeg)
    assert digest == hashlib.sha256(jpeg).hexdigest() == store_thumbnail(folder, jpeg)
    assert [path.name for path in folder.iterdir()] == [f"{digest}.jpg"]
    assert load_thumbnail(folder, digest) == jpeg


def test_a_changed_thumbnail_is_damage_and_is_mended_by_storing_again(tmp_path: Path) -> None:
    digest = store_thumbnail(tmp_path, b"picture")
    (tmp_path / f"{digest}.jpg").write_bytes(b"pictura")
    with pytest.raises(Damaged, match=digest):
        load_thumbnail(tmp_path, digest)
    store_thumbnail(tmp_path, b"picture")
    assert load_thumbnail(tmp_path, digest) == b"picture"


@pytest.mark.parametrize("digest", ["0" * 64, "../../etc/passwd", "", "A" * 64])
def test_an_unknown_digest_is_not_found(tmp_path: Path, digest: str) -> None:
    with pytest.raises(NotFound):
        load_thumbnail(tmp_path, digest)
