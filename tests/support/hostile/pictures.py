"""Attacks on photographs: on the names the workbook gives them, and on their files."""

import io
import os
import struct
import zlib
from collections.abc import Callable, Iterator

from PIL import Image
from support.hostile.case import Case, Home, png, png_chunk


def _picture(kind: str, size: tuple[int, int] = (60, 40), mode: str = "RGB", **options: object) -> bytes:
    stream = io.BytesIO()
    Image.new(mode, size, 0).save(stream, kind, **options)
    return stream.getvalue()


def _exif(*entries: bytes) -> bytes:
    head = b"Exif\x00\x00II*\x00\x08\x00\x00\x00" + struct.pack("<H", len(entries)) + b"".join(entries)
    whole = _picture("JPEG")
    segment = b"\xff\xe1" + struct.pack(">H", len(head) + 2) + head
    return whole[:2] + segment + whole[2:]


def _jpeg_size(width: int, height: int) -> bytes:
    """Return a JPEG whose frame says another size than its pixels have."""
    content = bytearray(_picture("JPEG"))
    frame = content.index(b"\xff\xc0")
    content[frame + 5 : frame + 9] = struct.pack(">HH", height, width)
    return bytes(content)


def _tiff(*entries: tuple[int, int, int, int], following: int = 0) -> bytes:
    """Return a TIFF of these entries: tag, kind, count, value; `following` is the place of the next list."""
    body = b"".join(struct.pack("<HHII", *entry) for entry in entries)
    return b"II*\x00\x08\x00\x00\x00" + struct.pack("<H", len(entries)) + body + struct.pack("<I", following)


def _bmp(width: int, height: int, depth: int = 24, compression: int = 0) -> bytes:
    head = struct.pack("<IiiHHIIiiII", 40, width, height, 1, depth, compression, 0, 0, 0, 0, 0)
    return b"BM" + struct.pack("<IHHI", 14 + len(head) + 12, 0, 0, 14 + len(head)) + head + bytes(12)


_ROWS = zlib.compress(bytes(1_000_000), 9)
_ANIMATED = io.BytesIO()
Image.new("P", (4, 4)).save(
    _ANIMATED, "GIF", save_all=True, append_images=[Image.new("P", (4, 4), n % 250) for n in range(400)]
)
_SVG = (
    b'<?xml version="1.0"?><!DOCTYPE svg [<!ENTITY a SYSTEM "file:///etc/passwd">]>'
    b'<svg xmlns="http://www.w3.org/2000/svg"><text>&a;</text></svg>'
)

#: Files in the place of a photograph, and the code of the finding.
FILES: dict[str, tuple[bytes, str]] = {
    "empty": (b"", "PIC-03"),
    "one byte": (b"\xff", "PIC-03"),
    "text": (b"a letter", "PIC-03"),
    "a web page": (b"<html><img src=x onerror=alert(1)></html>", "PIC-03"),
    "a vector drawing with an entity": (_SVG, "PIC-03"),
    "PostScript": (b"%!PS-Adobe-3.0 EPSF-3.0\n%%BoundingBox: 0 0 9 9\n(/etc/passwd) (r) file", "PIC-03"),
    "a PDF": (b"%PDF-1.7\n", "PIC-03"),
    "a program": (b"\x7fELF" + bytes(200), "PIC-03"),
    "a zip": (b"PK\x05\x06" + bytes(18), "PIC-03"),
    "a Photoshop file": (b"8BPS\x00\x01" + bytes(100), "PIC-03"),
    "an icon": (_picture("ICO", (16, 16)), "PIC-03"),
    "a JPEG 2000 file": (b"\x00\x00\x00\x0cjP  \r\n\x87\n" + bytes(50), "PIC-03"),
    "WebP": (_picture("WEBP"), "PIC-04"),
    "HEIC": (b"\x00\x00\x00\x18ftypheic\x00\x00\x00\x00mif1heic", "PIC-04"),
    "AVIF": (b"\x00\x00\x00\x18ftypavif\x00\x00\x00\x00mif1avif", "PIC-04"),
    "a cut JPEG": (_picture("JPEG", (600, 400))[:400], "PIC-03"),
    "only the start of a JPEG": (b"\xff\xd8\xff", "PIC-03"),
    "a JPEG without a frame": (b"\xff\xd8\xff\xe0\x00\x10JFIF\x00" + bytes(9) + b"\xff\xd9", "PIC-03"),
    "a JPEG of the largest size": (_jpeg_size(65_535, 65_535), "PIC-05"),
    "a JPEG of no size": (_jpeg_size(0, 0), "PIC-03"),
    "a JPEG with a segment that lies": (b"\xff\xd8\xff\xe1\xff\xff" + bytes(50), "PIC-03"),
    "a JPEG of endless segments": (b"\xff\xd8" + b"\xff\xfe\x00\x04ab" * 50_000, "PIC-03"),
    "a cut PNG": (_picture("PNG", (600, 400))[:100], "PIC-03"),
    "a PNG of a billion pixels": (png(30_000, 30_000), "PIC-05"),
    "a PNG of the largest size": (png(2**31 - 1, 2**31 - 1), "PIC-05"),
    "a PNG of no size": (png(0, 0), "PIC-03"),
    "a PNG without pixels": (png(60, 40), "PIC-03"),
    "a PNG without a header": (b"\x89PNG\r\n\x1a\n" + png_chunk(b"IDAT", b"x"), "PIC-03"),
    "a PNG of an unknown kind": (png(60, 40, colour=7, depth=3), "PIC-03"),
    "a PNG whose pixels are no pixels": (png(60, 40, png_chunk(b"IDAT", b"not packed")), "PIC-03"),
    "a PNG with a wrong checksum": (_picture("PNG")[:29] + b"\x00\x00\x00\x00" + _picture("PNG")[33:], "PIC-03"),
    "a PNG with a chunk that lies": (b"\x89PNG\r\n\x1a\n\xff\xff\xff\xffIHDR" + bytes(20), "PIC-03"),
    "a BMP of a huge size": (_bmp(2**31 - 1, 2**31 - 1), "PIC-05"),
    "a BMP of a negative size": (_bmp(-5, -(2**31)), "PIC-05"),
    "a BMP packed in an unknown way": (_bmp(6, 4, compression=99), "PIC-03"),
    "a cut BMP": (_bmp(600, 400), "PIC-03"),
    "a cut GIF": (b"GIF89a\x05\x00\x05\x00\x00\x00\x00,", "PIC-03"),
    "a GIF without frames": (b"GIF89a\x05\x00\x05\x00\x00\x00\x00;", "PIC-03"),
    "a TIFF of nothing": (_tiff(), "PIC-03"),
    "a TIFF in a ring": (_tiff((256, 4, 1, 8), (257, 4, 1, 8), following=8), "PIC-03"),
    "a TIFF with an entry that lies": (_tiff((256, 4, 2**32 - 1, 2**32 - 1)), "PIC-03"),
    "a TIFF of a huge size": (
        _tiff((256, 4, 1, 2**31), (257, 4, 1, 2**31), (258, 3, 1, 8), (262, 3, 1, 1), (273, 4, 1, 8), (279, 4, 1, 9)),
        "PIC-05",
    ),
    "a TIFF of floating numbers": (_picture("TIFF", mode="F"), "PIC-04"),
    "a PNG of sixteen bits": (_picture("PNG", mode="I;16"), "PIC-04"),
}
#: Files that can be printed: nothing of what they hide may come along.
PRINTABLE: dict[str, bytes] = {
    "a JPEG with a place": _exif(struct.pack("<HHII", 0x8825, 4, 1, 26)),
    "a JPEG with data that lie": _exif(struct.pack("<HHII", 0x010F, 2, 2**32 - 1, 2**32 - 1)),
    "a JPEG with a turn of no kind": _exif(struct.pack("<HHII", 0x0112, 3, 1, 99)),
    "a JPEG with a thumbnail that lies": _exif(struct.pack("<HHII", 0x0201, 4, 1, 2**31)),
    "a JPEG with a program behind it": _picture("JPEG") + b"PK\x03\x04" + b"MZ" + bytes(50_000),
    "a JPEG with a megabyte of remarks": _picture("JPEG", comment=b"r" * 60_000),
    "a JPEG with no profile": _picture("JPEG", icc_profile=b"no profile"),
    "a PNG with a text bomb": png(
        1, 1, png_chunk(b"zTXt", b"a\x00\x00" + _ROWS), png_chunk(b"IDAT", zlib.compress(bytes(4)))
    ),
    "a PNG with a profile bomb": png(
        1, 1, png_chunk(b"iCCP", b"a\x00\x00" + _ROWS), png_chunk(b"IDAT", zlib.compress(bytes(4)))
    ),
    "a PNG with more pixels than it says": png(1, 1, png_chunk(b"IDAT", _ROWS)),
    "a GIF of four hundred frames": _ANIMATED.getvalue(),
    "one row of pixels": _picture("PNG", (20_000, 1)),
    "one column of pixels": _picture("PNG", (1, 20_000)),
    "one pixel": _picture("PNG", (1, 1)),
    "a picture of inks": _picture("JPEG", mode="CMYK"),
    "a picture of two colours": _picture("PNG", mode="1"),
    "a picture that is see-through": _picture("PNG", mode="LA"),
    "another ending": _picture("GIF", mode="P"),
}
#: Names in the workbook that lead elsewhere or nowhere, and the code of the finding ("" whatever fits).
NAMES = {
    "a name that climbs": ("../outside/secret.jpg", "PIC-02"),
    "a name that goes down and climbs": ("photos/../../outside/secret.jpg", "PIC-02"),
    "a name that climbs with backslashes": ("photos\\..\\..\\outside\\secret.jpg", "PIC-02"),
    "an absolute name": ("/etc/passwd", "PIC-02"),
    "a name with a drive": ("C:\\secret.jpg", "PIC-02"),
    "a name with a drive and no slash": ("C:secret.jpg", "PIC-02"),
    "a name of the network": ("\\\\192.0.2.1\\share\\a.jpg", "PIC-02"),
    "a name of a device path": ("\\\\.\\PhysicalDrive0", "PIC-02"),
    "a link": ("http://192.0.2.1/a.jpg", "PIC-"),
    "a link to a file": ("file:///etc/passwd", "PIC-"),
    "data in a link": ("data:image/png;base64,AAAA", "PIC-"),
    "a device": ("/dev/zero", "PIC-02"),
    "a name of a printer": ("LPT1", ""),
    "a stream of a file": ("photos/G01-2.jpg:stream", ""),
    "a very long name": ("a" * 5_000 + ".jpg", ""),
    "a very deep name": ("a/" * 3_000 + "b.jpg", ""),
    "a name with a zero": ("photos/a_x0000_b.jpg", ""),
    "a name with a line break": ("photos/a&#10;b.jpg", ""),
    "a name turned around": ("photos/&#x202E;gpj.exe", ""),
    "a name of markup": ("&lt;w:p/&gt;{{ 1 }}.jpg", ""),
    "a name that is a command": ("$(touch owned).jpg", ""),
    "a name that is an option": ("--version", ""),
    "a pattern": ("photos/*.jpg", ""),
    "a home": ("~/secret.jpg", ""),
    "only points": ("..", "PIC-02"),
    "one point": (".", ""),
    "a folder": ("photos", ""),
    "nothing there": ("photos/nowhere.jpg", ""),
    "the workbook itself": ("job.xlsx", "PIC-03"),
}


def picture_cases() -> Iterator[Case]:
    """Yield the cases: every file, every name, and what lies where a photograph should."""
    for attack, (content, code) in FILES.items():
        yield Case(attack, "photograph file", _file(content), "any", (code,), runs=("report",))
    for attack, content in PRINTABLE.items():
        yield Case(attack, "photograph file", _file(content), "same", runs=("report",))
    for attack, (name, code) in NAMES.items():
        codes = (code,) if len(code) > 4 else ()
        yield Case(attack, "photograph named", _named(name), "findings", codes)
    yield Case(
        "a link that leads out",
        "photograph file",
        _link("../../outside/secret.jpg"),
        "findings",
        ("PIC-02",),
        runs=("report",),
    )
    yield Case("a link to nothing", "photograph file", _link("nowhere.jpg"), "findings", runs=("report",))
    yield Case("a link in a ring", "photograph file", _ring, "findings", runs=("report",))
    yield Case("a link to a device", "photograph file", _link("/dev/zero"), "findings", ("PIC-02",), runs=("report",))
    yield Case("a folder of that name", "photograph file", _folder, "findings", runs=("report",))
    yield Case("a pipe", "photograph file", _pipe, "findings", runs=("report",))
    yield Case(
        "a folder that is a link out", "photograph folder", _folder_link, "findings", ("PIC-02",), runs=("report",)
    )
    yield Case("a file of no size on disk", "photograph file", _sparse, "findings", ("PIC-05",), runs=("report",))
    yield Case("a pipe", "workbook file", _workbook_pipe, "refused")
    yield Case("a pipe", "library", _library_pipe, "findings")


def _file(content: bytes) -> Callable[[Home], None]:
    def build(home: Home) -> None:
        home.photo.write_bytes(content)

    return build


def _named(name: str) -> Callable[[Home], None]:
    return lambda home: home.put_text("photos", "file", name)


def _link(target: str) -> Callable[[Home], None]:
    def build(home: Home) -> None:
        home.photo.unlink()
        home.photo.symlink_to(target)

    return build


def _ring(home: Home) -> None:
    home.photo.unlink()
    home.photo.symlink_to(home.photo.name)


def _folder(home: Home) -> None:
    home.photo.unlink()
    home.photo.mkdir()


def _pipe(home: Home) -> None:
    home.photo.unlink()
    os.mkfifo(home.photo)


def _folder_link(home: Home) -> None:
    home.photo.parent.rename(home.folder / "outside" / "photos")
    home.photo.parent.symlink_to(home.folder / "outside" / "photos")


def _sparse(home: Home) -> None:
    with home.photo.open("wb") as stream:
        stream.truncate(300_000_000)


def _workbook_pipe(home: Home) -> None:
    home.job.unlink()
    os.mkfifo(home.job)


def _library_pipe(home: Home) -> None:
    os.mkfifo(home.job.with_name("library.xlsx"))
    home.put_text("assignment", "library", "library.xlsx")
