"""What a hostile case is, and the sound job each case starts from."""

import io
import shutil
import struct
import zipfile
import zlib
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from typing import Literal

from PIL import Image
from support.workbooks import workbook

from appraise.records.job import SHEETS
from appraise.workbook.cell import column_letters, column_number
from appraise.workbook.reading.read import ReadResult, read_job

#: How a case must end: refused in one sentence, with these codes among the findings, as the sound job, or in any
#: of these ways.
Command = Literal["check", "report"]
Ends = Literal["refused", "findings", "same", "any"]


@dataclass(frozen=True)
class Case:
    """One attack on one part.

    build    makes the files of the case from the sound job
    ends     how `check` must end; `codes` name the findings
    runs     the commands: `check` with an annotated copy, `report` as a draft with `options`; the second is only run
             if the first could read the job
    """

    attack: str
    part: str
    build: Callable[["Home"], None]
    ends: Ends = "any"
    codes: tuple[str, ...] = ()
    runs: tuple[Command, ...] = ("check",)
    options: tuple[str, ...] = ()

    @property
    def name(self) -> str:
        """Name of the case, for the test's id."""
        return f"{self.part}-{self.attack}".replace(" ", "_")


class Sound:
    """The sound job: written once, with its parts, its layout and its photographs."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.path = workbook(folder)
        self.read: ReadResult = read_job(self.path)
        for number, photo in enumerate(self.read.job.photos):
            file = folder / str(photo.file)
            file.parent.mkdir(exist_ok=True)
            Image.new("RGB", (40, 60), (7 * number % 256, 90, 120)).save(file)

    @cached_property
    def parts(self) -> dict[str, bytes]:
        """The parts of the workbook by name."""
        with zipfile.ZipFile(self.path) as package:
            return {name: package.read(name) for name in package.namelist()}

    @cached_property
    def sheet_parts(self) -> dict[str, str]:
        """The part of each sheet by its name; they are numbered in the order of the tabs."""
        names = zipfile.Path(self.path, "xl/workbook.xml").read_text("utf-8").split('<sheet name="')[1:]
        return {
            one.partition('"')[0].replace("&apos;", "'"): f"xl/worksheets/sheet{number}.xml"
            for number, one in enumerate(names, 1)
        }

    def address(self, sheet: str, key: str) -> str:
        """Return the cell of a column (field of the job, key) in the first row of records, or of a form's line."""
        layout = self.read.layout.sheets[SHEETS[sheet].name]
        row = layout.lines.get(key) or min(one.row for one in getattr(self.read.job, sheet))
        return f"{column_letters(layout.columns[key])}{row}"


@dataclass
class Home:
    """The folder of one case: `job` with the workbook and photographs, `outside` with what must not be touched."""

    folder: Path
    sound: Sound
    parts: dict[str, bytes] = field(default_factory=dict)

    @classmethod
    def made(cls, folder: Path, sound: Sound) -> "Home":
        """Return a new home with a copy of the sound job."""
        for name in ("job/photos", "out", "tmp", "outside"):
            (folder / name).mkdir(parents=True)
        shutil.copytree(sound.folder / "photos", folder / "job" / "photos", dirs_exist_ok=True)
        shutil.copyfile(sound.path, folder / "job" / "job.xlsx")
        Image.new("RGB", (9, 9), "red").save(folder / "outside" / "secret.jpg")
        shutil.copyfile(sound.path, folder / "outside" / "secret.xlsx")
        return cls(folder, sound, dict(sound.parts))

    @property
    def job(self) -> Path:
        """The workbook."""
        return self.folder / "job" / "job.xlsx"

    @property
    def photo(self) -> Path:
        """The first photograph of the job."""
        return self.folder / "job" / str(self.sound.read.job.photos[0].file)

    def save(self, path: Path | None = None) -> None:
        """Write the parts as the workbook."""
        (path or self.job).write_bytes(zipped(self.parts))

    def edit(self, sheet: str, change: Callable[[str], str]) -> None:
        """Change the XML of a sheet (by its tab) and save."""
        part = self.sound.sheet_parts[sheet]
        before = self.parts[part].decode()
        after = change(before)
        if after == before:
            raise AssertionError(f"the attack does not change {sheet}")
        self.parts[part] = after.encode()
        self.save()

    def put_cell(self, sheet: str, key: str, cell: str) -> None:
        """Put a cell (XML with `{ref}` for its address) in the place of the first one of a column, and save."""
        address = self.sound.address(sheet, key)
        self.edit(SHEETS[sheet].name, lambda xml: with_cell(xml, address, cell.replace("{ref}", address)))

    def put_text(self, sheet: str, key: str, text: str) -> None:
        """Put a text there, as it stands in XML."""
        self.put_cell(sheet, key, f'<c r="{{ref}}" t="inlineStr"><is><t xml:space="preserve">{text}</t></is></c>')


def with_cell(xml: str, address: str, cell: str) -> str:
    """Return a sheet's XML with a cell put in its place."""
    number = address.lstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ")
    start = xml.index(f'<row r="{number}"')
    inside = xml.index(">", start) + 1
    end = xml.index("</row>", inside)
    cells: dict[int, str] = {}
    for piece in xml[inside:end].split("<c ")[1:]:
        reference = piece.partition('r="')[2].partition('"')[0]
        cells[column_number(reference)] = f"<c {piece}"
    cells[column_number(address)] = cell
    return xml[:inside] + "".join(cells[one] for one in sorted(cells)) + xml[end:]


def zipped(parts: dict[str, bytes], *, method: int = zipfile.ZIP_DEFLATED) -> bytes:
    """Return a zip of parts, quickly packed."""
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", method, compresslevel=1) as package:
        for name, content in parts.items():
            package.writestr(zipfile.ZipInfo(name), content, method)
    return stream.getvalue()


def png_chunk(kind: bytes, data: bytes) -> bytes:
    """Return a chunk of a PNG file."""
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


def png(width: int, height: int, *chunks: bytes, colour: int = 2, depth: int = 8, interlaced: int = 0) -> bytes:
    """Return a PNG file with a header that says so and these chunks."""
    header = struct.pack(">IIBBBBB", width, height, depth, colour, 0, 0, interlaced)
    body = b"".join(chunks) if chunks else png_chunk(b"IDAT", b"")
    return b"\x89PNG\r\n\x1a\n" + png_chunk(b"IHDR", header) + body + png_chunk(b"IEND", b"")
