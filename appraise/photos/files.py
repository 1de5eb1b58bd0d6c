"""Where a photograph named in the workbook lies, and what is known of all of them before any is opened as a picture.

A name is relative to the workbook's folder. One that leads out of it, by `..`, as an absolute path or through a link,
is refused: a workbook from elsewhere must not bring files of this machine into a report.
"""

from collections.abc import Iterable
from pathlib import Path

from appraise.checks.context import PhotoFact
from appraise.files.hashes import sha256_of
from appraise.files.inside import inside
from appraise.model.finding import Finding
from appraise.model.missing import given
from appraise.photos.faults import Fault, fault_finding
from appraise.records.items import Photo

#: Larger files are no photographs [bytes].
LARGEST_FILE = 200_000_000
#: First bytes of JPEG, PNG, BMP, GIF and TIFF (either order of bytes).
_SIGNATURES = (b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n", b"BM", b"GIF8", b"II*\0", b"MM\0*")


def locate(folder: Path, name: str) -> Path | Fault:
    """Return the file a name means, or what is wrong with it; both kinds of slash are understood."""
    place = inside(folder, name)
    if place is None:
        return Fault("PIC-02")
    try:
        real = place.resolve(strict=True)
    except (OSError, RuntimeError):
        return Fault("PIC-01")
    if not real.is_file():
        return Fault("PIC-01")
    if real.stat().st_size > LARGEST_FILE:
        return Fault("PIC-05", f"{real.stat().st_size // 1_000_000} MB")
    return real


def photo_facts(folder: Path, photos: Iterable[Photo]) -> tuple[dict[str, PhotoFact], list[Finding]]:
    """Return what is known of each file by its name as typed, and findings for those that may not be used.

    A file that is not there is a fact (`exists` is false), not a finding of this package: the checks report it. Of a
    file that is there only the first bytes are looked at; whether it is whole shows when its copy is made.
    """
    facts: dict[str, PhotoFact] = {}
    findings: list[Finding] = []
    for photo in photos:
        if not given(photo.file):
            continue
        place = locate(folder, photo.file)
        if isinstance(place, Path):
            if photo.file not in facts:
                facts[photo.file] = PhotoFact(True, sha256_of(place), place.stat().st_size)
            unfit = wrong_format(place)
            if unfit is not None:
                findings.append(fault_finding(photo, unfit))
            continue
        facts.setdefault(photo.file, PhotoFact(exists=place.code != "PIC-01"))
        if place.code != "PIC-01":
            findings.append(fault_finding(photo, place))
    return facts, findings


def wrong_format(file: Path) -> Fault | None:
    """Return what is wrong with a file by its first bytes: a format to convert first, no picture; or None."""
    with file.open("rb") as stream:
        head = stream.read(16)
    if head[:4] == b"RIFF" and head[8:12] == b"WEBP":
        return Fault("PIC-04", "WebP")
    if head[4:8] == b"ftyp":
        return Fault("PIC-04", "AVIF" if head[8:12] in (b"avif", b"avis") else "HEIC")
    if not head.startswith(_SIGNATURES):
        return Fault("PIC-03", "no picture this program knows")
    return None
