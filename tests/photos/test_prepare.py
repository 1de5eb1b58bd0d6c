"""Printable copies: upright, sRGB, on white, smaller, silent; and what is refused."""

import io
import struct
import zlib
from pathlib import Path

import pytest
from PIL import Image, ImageCms

from appraise.files.hashes import sha256_hex
from appraise.photos.faults import Fault
from appraise.photos.prepare import Prepared, prepare, prepare_all


def opened(made: Prepared | Fault) -> Image.Image:
    assert isinstance(made, Prepared), made
    return Image.open(made.source if isinstance(made.source, Path) else io.BytesIO(made.source))


def halves(size: tuple[int, int] = (400, 300)) -> Image.Image:
    """Left half red, right half blue."""
    image = Image.new("RGB", size, (200, 30, 30))
    image.paste((30, 30, 200), (size[0] // 2, 0, *size))
    return image


def test_turned_by_its_orientation_and_stripped_of_place_and_camera(tmp_path: Path) -> None:
    exif = Image.Exif()
    exif[0x0112] = 6  # to be turned 90 degrees clockwise (Exif 3.0, 4.6.5)
    exif[0x010F] = "Invented Camera Works"
    exif.get_ifd(0x8825)[1] = "N"
    halves().save(tmp_path / "a.jpg", exif=exif, comment=b"secret")
    made = prepare(tmp_path / "a.jpg")
    shown = opened(made)
    assert shown.size == (300, 400) == (made.width, made.height)
    red, _, blue = shown.getpixel((150, 20))
    assert red > 150 and blue < 90  # the left edge is on top now
    assert not shown.getexif()
    assert "icc_profile" not in shown.info and "comment" not in shown.info
    assert b"secret" not in made.source and b"Camera" not in made.source


def test_made_smaller_and_never_larger(tmp_path: Path) -> None:
    halves((3000, 1500)).save(tmp_path / "large.jpg")
    halves((120, 90)).save(tmp_path / "small.jpg")
    assert opened(prepare(tmp_path / "large.jpg", longest_side=800)).size == (800, 400)
    assert opened(prepare(tmp_path / "small.jpg", longest_side=800)).size == (120, 90)


@pytest.mark.parametrize("mode", ["RGBA", "LA", "P", "L", "1", "CMYK"])
def test_every_common_kind_of_pixels_becomes_plain_colour_on_white(mode: str, tmp_path: Path) -> None:
    image = Image.new("RGBA", (60, 40), (0, 0, 0, 0))
    image.paste((0, 0, 0, 255), (0, 0, 30, 40))
    if mode == "P":
        image.quantize(8).save(tmp_path / "p.png")
    elif mode == "CMYK":
        image.convert("RGB").convert("CMYK").save(tmp_path / "p.tif")
    elif mode in ("L", "1"):
        flat = Image.new("RGB", image.size, "white")
        flat.paste(image, mask=image.getchannel("A"))
        flat.convert(mode).save(tmp_path / "p.png")
    else:
        image.convert(mode).save(tmp_path / "p.png")
    file = next(tmp_path.iterdir())
    shown = opened(prepare(file))
    assert shown.mode == "RGB"
    assert sum(shown.getpixel((5, 20))) < 120
    if mode != "CMYK":
        assert sum(shown.getpixel((50, 20))) > 720


def test_brought_to_srgb_by_its_own_profile(tmp_path: Path) -> None:
    """A profile whose red and blue primaries have changed places turns red pixels blue."""
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    swapped = profile.replace(b"rXYZ", b"????", 1).replace(b"bXYZ", b"rXYZ", 1).replace(b"????", b"bXYZ", 1)
    plain = halves()
    plain.save(tmp_path / "plain.png", icc_profile=swapped)
    red, _, blue = opened(prepare(tmp_path / "plain.png")).getpixel((50, 100))
    assert blue > 150 and red < 80
    plain.save(tmp_path / "broken.png", icc_profile=b"no profile at all")
    assert opened(prepare(tmp_path / "broken.png")).size == (400, 300)


def test_a_file_cut_short_is_a_fault(tmp_path: Path) -> None:
    halves((800, 600)).save(tmp_path / "a.jpg")
    content = (tmp_path / "a.jpg").read_bytes()
    (tmp_path / "cut.jpg").write_bytes(content[: len(content) // 2])
    halves((800, 600)).save(tmp_path / "a.png")
    png = (tmp_path / "a.png").read_bytes()
    (tmp_path / "cut.png").write_bytes(png[: len(png) // 2])
    (tmp_path / "text.jpg").write_text("no picture")
    (tmp_path / "empty.jpg").write_bytes(b"")
    for name in ("cut.jpg", "cut.png", "text.jpg", "empty.jpg"):
        made = prepare(tmp_path / name)
        assert isinstance(made, Fault) and made.code == "PIC-03", name


def test_formats_to_convert_first_are_named(tmp_path: Path) -> None:
    (tmp_path / "a.webp").write_bytes(b"RIFF\x10\x00\x00\x00WEBPVP8 ")
    (tmp_path / "b.heic").write_bytes(b"\x00\x00\x00\x18ftypheic\x00\x00\x00\x00")
    assert prepare(tmp_path / "a.webp") == Fault("PIC-04", "WebP")
    assert prepare(tmp_path / "b.heic") == Fault("PIC-04", "HEIC")


def test_a_bomb_is_a_fault_and_is_not_unpacked(tmp_path: Path) -> None:
    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    header = struct.pack(">IIBBBBB", 30000, 30000, 8, 2, 0, 0, 0)
    (tmp_path / "bomb.png").write_bytes(
        b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", b"") + chunk(b"IEND", b"")
    )
    made = prepare(tmp_path / "bomb.png")
    assert isinstance(made, Fault) and made.code == "PIC-05"


def test_kept_copies_are_used_again_unless_they_are_not_whole(tmp_path: Path) -> None:
    halves().save(tmp_path / "a.jpg")
    first = prepare(tmp_path / "a.jpg", keep_in=tmp_path / "prepared")
    assert isinstance(first, Prepared) and isinstance(first.source, Path)
    content = first.source.read_bytes()
    assert sha256_hex(content) == first.sha256
    assert prepare(tmp_path / "a.jpg", keep_in=tmp_path / "prepared") == first
    first.source.write_bytes(content[:-200])
    again = prepare(tmp_path / "a.jpg", keep_in=tmp_path / "prepared")
    assert again == first and first.source.read_bytes() == content


def test_many_come_in_order_and_alike_from_two_threads(tmp_path: Path) -> None:
    files = []
    for number in range(7):
        files.append(tmp_path / f"{number}.jpg")
        halves((100 + number, 80)).save(files[-1])
    made = list(prepare_all(files))
    assert [one.width for one in made if isinstance(one, Prepared)] == list(range(100, 107))
    assert made == [prepare(file) for file in files]
