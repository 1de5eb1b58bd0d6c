"""Makes copies of photographs that can be printed: upright, sRGB, on white, smaller, and silent about their origin.

The copy is a new picture into which only the pixels go, so that no place, time, camera, comment or profile of the
original is left. Copies are kept by the hash of the original, so a second report does not make them again.
"""

import io
import struct
import threading
import warnings
import zlib
from collections.abc import Iterable, Iterator, Mapping
from concurrent.futures import Future, ThreadPoolExecutor
from itertools import islice
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from appraise.files.atomic import make_folder, write_bytes
from appraise.files.hashes import sha256_hex, sha256_of
from appraise.model.frozen import frozen
from appraise.photos.faults import Fault
from appraise.photos.files import wrong_format

if TYPE_CHECKING:
    from PIL.Image import Image as Picture

#: Formats that are read; the multi-picture JPEG of many cameras is opened as JPEG.
FORMATS = ("JPEG", "PNG", "BMP", "GIF", "TIFF")
#: Longer side of a printed copy [pixels]: 160 mm at 250 pixels an inch.
LONGEST_SIDE = 1600
_QUALITY = 86
_BROKEN = (OSError, SyntaxError, ValueError, OverflowError, struct.error, zlib.error, EOFError)
#: Pillow's warning of too many pixels is turned into an error while a header is read; that switch is the process's.
_HEADER = threading.Lock()


@frozen
class Prepared:
    """A printable copy: JPEG, as a file if copies are kept, otherwise as bytes; its hash and size [pixels]."""

    source: Path | bytes
    sha256: str
    width: int
    height: int


def prepare(
    file: Path, *, longest_side: int = LONGEST_SIDE, keep_in: Path | None = None, mark: str | None = None
) -> Prepared | Fault:
    """Return the printable copy of a photograph, or what is wrong with the file.

    longest_side  [pixels]; a smaller original keeps its size
    keep_in       folder in which copies are kept between runs, or None
    mark          SHA-256 of the file where it is known already
    """
    kept = None if keep_in is None else keep_in / f"{mark or sha256_of(file)}-{longest_side}.jpg"
    if kept is not None and kept.is_file():
        found = _kept(kept)
        if found is not None:
            return found
    try:
        content, width, height = _printable(file, longest_side)
    except _FaultError as fault:
        return fault.fault
    if kept is not None:
        make_folder(kept.parent)
        write_bytes(kept, content)
    return Prepared(content if kept is None else kept, sha256_hex(content), width, height)


def prepare_all(
    files: Iterable[Path],
    *,
    longest_side: int = LONGEST_SIDE,
    keep_in: Path | None = None,
    marks: Mapping[Path, str] = MappingProxyType({}),
    threads: int = 2,
) -> Iterator[Prepared | Fault]:
    """Yield the copies in the order of the files, made by two threads that run at most a few files ahead.

    marks  SHA-256 of the files where it is known already; the others are read for it
    """
    waiting: list[Future[Prepared | Fault]] = []
    remaining = iter(files)
    with ThreadPoolExecutor(threads) as pool:

        def ask(file: Path) -> Future[Prepared | Fault]:
            return pool.submit(prepare, file, longest_side=longest_side, keep_in=keep_in, mark=marks.get(file))

        waiting += [ask(file) for file in islice(remaining, 2 * threads)]
        while waiting:
            yield waiting.pop(0).result()
            waiting += [ask(file) for file in islice(remaining, 1)]


class _FaultError(Exception):
    def __init__(self, fault: Fault) -> None:
        super().__init__(fault.code)
        self.fault = fault


def _kept(file: Path) -> Prepared | None:
    """Return a kept copy, or None if it is not whole."""
    content = file.read_bytes()
    size = _jpeg_size(content)
    if size is None or not content.endswith(b"\xff\xd9"):
        return None
    return Prepared(file, sha256_hex(content), *size)


def _jpeg_size(content: bytes) -> tuple[int, int] | None:
    """Return width and height from the frame header of a JPEG (ITU-T T.81, B.2.2), or None if there is none."""
    position = 2
    while content[:2] == b"\xff\xd8" and position + 9 < len(content) and content[position] == 0xFF:
        marker, length = content[position + 1], int.from_bytes(content[position + 2 : position + 4], "big")
        if 0xC0 <= marker <= 0xCF and marker not in (0xC4, 0xC8, 0xCC):
            height, width = struct.unpack(">HH", content[position + 5 : position + 9])
            return width, height
        position += 2 + length
    return None


def _printable(file: Path, longest_side: int) -> tuple[bytes, int, int]:
    from PIL import Image

    try:
        unfit = wrong_format(file)
        if unfit is not None:
            raise _FaultError(unfit)
        with file.open("rb") as stream, _opened(stream) as original:
            shown = _upright_copy(original, longest_side)
    except _BROKEN as cause:
        raise _FaultError(Fault("PIC-03", type(cause).__name__)) from cause
    clean = Image.new("RGB", shown.size, "white")
    clean.paste(shown)
    target = io.BytesIO()
    clean.save(target, "JPEG", quality=_QUALITY)
    return target.getvalue(), *clean.size


def _opened(stream: Any) -> "Picture":
    from PIL import Image, UnidentifiedImageError

    with _HEADER, warnings.catch_warnings():
        warnings.simplefilter("error", Image.DecompressionBombWarning)
        try:
            return Image.open(stream, formats=FORMATS)
        except (Image.DecompressionBombWarning, Image.DecompressionBombError) as cause:
            raise _FaultError(Fault("PIC-05", "more pixels than a photograph has")) from cause
        except UnidentifiedImageError as cause:
            raise _FaultError(Fault("PIC-03", "no picture this program knows")) from cause


def _upright_copy(original: "Picture", longest_side: int) -> "Picture":
    """Return the pixels, upright, in sRGB and without transparency, at most so long on a side."""
    from PIL import Image, ImageOps

    profile = original.info.get("icc_profile")
    box = (longest_side, longest_side)
    # A JPEG is decoded at the smallest scale that is still large enough: a third of the time.
    original.draft(None, box)
    small = ImageOps.exif_transpose(original)
    if small.mode == "P":
        small = small.convert("RGBA" if "transparency" in small.info else "RGB")
    elif small.mode == "1":
        small = small.convert("L")
    elif small.mode.startswith("I") or small.mode == "F":
        raise _FaultError(Fault("PIC-04", f"a picture of mode {small.mode}"))
    small.thumbnail(box, Image.Resampling.LANCZOS, reducing_gap=2.0)
    if small.mode in ("LA", "PA", "La", "RGBA", "RGBa") or "transparency" in small.info:
        small = _on_white(small.convert("RGBA"))
        profile = None if original.mode == "P" else profile
    return _in_srgb(small, profile)


def _on_white(picture: "Picture") -> "Picture":
    from PIL import Image

    ground = Image.new("RGB", picture.size, "white")
    ground.paste(picture, mask=picture.getchannel("A"))
    return ground


def _in_srgb(picture: "Picture", profile: bytes | None) -> "Picture":
    """Return the picture in sRGB by its own profile; one whose profile cannot be used is taken as sRGB."""
    from PIL import ImageCms

    if profile and picture.mode in ("RGB", "L", "CMYK"):
        try:
            source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
            converted = ImageCms.profileToProfile(picture, source, ImageCms.createProfile("sRGB"), outputMode="RGB")
        except (ImageCms.PyCMSError, OSError):
            converted = None
        if converted is not None:
            return converted
    return picture.convert("RGB")
