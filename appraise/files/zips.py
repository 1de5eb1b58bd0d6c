"""Opening zip packages that somebody else made, and writing ones whose bytes depend on their content alone."""

import stat
import struct
import zipfile
from collections.abc import Iterable
from pathlib import Path, PurePosixPath
from typing import IO

from appraise.files.unusable import Trouble, UnusableFile, shortened

#: Uncompressed bytes beyond which a package is refused: more than ten times the largest schedule we measure with.
SIZE_LIMIT = 4 * 1024**3
#: How often the content may be larger than its package, above `RATIO_FREE` bytes; sheets reach about 30.
RATIO_LIMIT = 400
RATIO_FREE = 64 * 1024**2
_OLE_SIGNATURE = bytes.fromhex("D0CF11E0A1B11AE1")
_FIXED_TIME = (1980, 1, 1, 0, 0, 0)
#: The header in front of an entry: its signature, and where the lengths of name and extra field stand (APPNOTE 4.3.7).
_HEADER, _HEADER_SIGNATURE = struct.Struct("<4s22xHH"), b"PK\x03\x04"
_BLOCK = 1 << 18


def open_package(path: Path, *, size_limit: int = SIZE_LIMIT) -> zipfile.ZipFile:
    """Return the opened package at `path`, checked; the caller closes it.

    Refused with `UnusableFile`: no such file, a folder, no permission, nothing in it, an older binary or
    password-protected office file, anything that is no zip, entries that unpack to more than `size_limit` bytes in
    all or beyond any plausible ratio, names that lead out of the package, names that stand twice, encrypted entries.
    """
    _check_plain(path)
    try:
        package = zipfile.ZipFile(path)
    except (zipfile.BadZipFile, OSError, ValueError, NotImplementedError) as error:
        raise UnusableFile(
            Trouble.NOT_A_WORKBOOK,
            path,
            f"{path.name} is not an .xlsx workbook, or it is damaged. Open it in your spreadsheet program and save it "
            "as .xlsx (Excel workbook).",
        ) from error
    try:
        _check_entries(package, path, size_limit)
    except UnusableFile:
        package.close()
        raise
    return package


def _check_plain(path: Path) -> None:
    try:
        if path.is_dir():
            raise UnusableFile(Trouble.NOT_A_FILE, path, f"{path} is a folder. Name the workbook in it.")
        if not stat.S_ISREG(path.stat().st_mode):
            # A pipe or a device could keep us waiting for ever.
            raise UnusableFile(Trouble.NOT_A_FILE, path, f"{path} is no file. Name the workbook you filled in.")
        with path.open("rb") as stream:
            start = stream.read(8)
            if start == _OLE_SIGNATURE:
                raise _ole_trouble(path, stream)
    except FileNotFoundError as error:
        raise UnusableFile(Trouble.MISSING, path, f"There is no file {path}. Check the name and the folder.") from error
    except PermissionError as error:
        raise UnusableFile(
            Trouble.NO_PERMISSION, path, f"{path} may not be read by you. Change its permissions, or copy it."
        ) from error
    except OSError as error:
        sentence = f"{shortened(path)} cannot be read ({error.strerror}). Check where it lies, or take a copy of it."
        raise UnusableFile(Trouble.MISSING, path, sentence) from error
    if not start:
        raise UnusableFile(Trouble.EMPTY, path, f"{path.name} is empty (0 bytes). Take the copy you saved last.")


def _ole_trouble(path: Path, stream: IO[bytes]) -> UnusableFile:
    # A password-protected .xlsx is wrapped in the old container, as a stream of this name.
    if "EncryptedPackage".encode("utf-16-le") in stream.read():
        return UnusableFile(
            Trouble.PASSWORD,
            path,
            f"{path.name} is protected by a password. Open it, remove the password and save it again.",
        )
    return UnusableFile(
        Trouble.OLD_EXCEL,
        path,
        f"{path.name} is in the old .xls format. Open it in your spreadsheet program and save it as .xlsx.",
    )


def _check_entries(package: zipfile.ZipFile, path: Path, size_limit: int) -> None:
    entries = package.infolist()
    total = sum(entry.file_size for entry in entries)
    packed = sum(entry.compress_size for entry in entries)
    if total > size_limit or (total > RATIO_FREE and total > RATIO_LIMIT * max(packed, 1)):
        raise UnusableFile(
            Trouble.TOO_LARGE,
            path,
            f"{path.name} would unpack to {total // 1024**2} MB, more than is plausible. Delete empty formatted rows "
            "and columns, save it, and try again.",
        )
    names = [entry.filename for entry in entries]
    if len(set(names)) != len(names) or any(_leads_out(name) for name in names):
        raise UnusableFile(
            Trouble.UNSAFE,
            path,
            f"{path.name} is built as no spreadsheet program does. Open it in one and save it under a new name.",
        )
    if any(entry.flag_bits & 0x1 for entry in entries):
        raise UnusableFile(
            Trouble.PASSWORD,
            path,
            f"{path.name} is protected by a password. Open it, remove the password and save it again.",
        )


def _leads_out(name: str) -> bool:
    path = PurePosixPath(name.replace("\\", "/"))
    return path.is_absolute() or ".." in path.parts or ":" in name


def fixed_entry(name: str, *, stored: bool = False) -> zipfile.ZipInfo:
    """Return the entry header for `name` with a fixed time and mode, deflated unless `stored`."""
    entry = zipfile.ZipInfo(name, _FIXED_TIME)
    entry.compress_type = zipfile.ZIP_STORED if stored else zipfile.ZIP_DEFLATED
    entry.external_attr = 0o644 << 16
    entry.create_system = 3
    return entry


def copy_entry(source: zipfile.ZipFile, entry: zipfile.ZipInfo, target: zipfile.ZipFile) -> None:
    """Copy an entry as it is packed, without unpacking it; so its check sum is taken over, not looked at."""
    made = zipfile.ZipInfo(entry.filename, entry.date_time)
    for name in ("compress_type", "external_attr", "create_system", "comment", "CRC", "compress_size", "file_size"):
        setattr(made, name, getattr(entry, name))
    packed, copy = source.fp, target.fp
    assert packed is not None and copy is not None
    packed.seek(entry.header_offset)
    signature, name_length, extra_length = _HEADER.unpack(packed.read(_HEADER.size))
    if signature != _HEADER_SIGNATURE:
        raise zipfile.BadZipFile(f"no entry where {entry.filename} should begin")
    packed.seek(name_length + extra_length, 1)
    copy.seek(target.start_dir)
    made.header_offset = target.start_dir
    copy.write(made.FileHeader())
    left = entry.compress_size
    while left:
        block = packed.read(min(left, _BLOCK))
        if not block:
            raise EOFError(f"{entry.filename} ends too early")
        copy.write(block)
        left -= len(block)
    target.start_dir = copy.tell()
    target.filelist.append(made)
    target.NameToInfo[made.filename] = made


def write_package(stream: IO[bytes], parts: Iterable[tuple[str, bytes]]) -> None:
    """Write `parts` (name, content) to `stream` as a zip, in the order given: same content, same bytes."""
    with zipfile.ZipFile(stream, "w") as package:
        for name, content in parts:
            package.writestr(fixed_entry(name), content)
