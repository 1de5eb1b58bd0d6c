"""What can be wrong with a photograph's file."""

from typing import Literal

from appraise.model.finding import Finding, finding
from appraise.model.frozen import frozen
from appraise.model.missing import given
from appraise.records.declare import place_of
from appraise.records.items import PHOTOS, Photo

Code = Literal["PIC-01", "PIC-02", "PIC-03", "PIC-04", "PIC-05"]


@frozen
class Fault:
    """A file that cannot be printed.

    code    PIC-01 no such file; PIC-02 outside the workbook's folder; PIC-03 damaged or cut short;
            PIC-04 a format that must be converted first; PIC-05 too many pixels or bytes
    detail  what was met: name of the format, size, cause
    """

    code: Code
    detail: str = ""


def fault_finding(photo: Photo, fault: Fault) -> Finding:
    """Return the finding for a row of Photos whose file cannot be printed."""
    subjects = (photo.item,) if given(photo.item) else ()
    found = photo.file if given(photo.file) else ""
    return finding(fault.code, place_of(PHOTOS, photo, "file"), *subjects, found=found, detail=fault.detail)
