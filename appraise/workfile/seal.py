"""The seal of a workfile: a SHA-256 over every byte of the file but the digits of the seal itself.

It stands in the comment of the zip file, which ends it. Whoever means to deceive can seal a changed file anew; the
content digest, told to somebody at the time, is what shows that.
"""

import hashlib
from pathlib import Path
from typing import BinaryIO

from appraise.files.hashes import sha256_hex

_PREFIX = b"appraise workfile sha256:"
_DIGITS = 64
#: The comment of a file not sealed yet.
UNSEALED = _PREFIX + b"0" * _DIGITS
_BLOCK = 1 << 20


def seal(stream: BinaryIO) -> None:
    """Seal a finished zip file whose comment is `UNSEALED`; the stream can be read and moved in."""
    length = stream.seek(0, 2) - _DIGITS
    digest = _digest(stream, length)
    stream.seek(length)
    stream.write(digest.encode("ascii"))


def sealed_as_written(path: Path) -> bool:
    """Say whether a file carries a seal and not one byte was changed since."""
    with path.open("rb") as stream:
        length = stream.seek(0, 2) - _DIGITS
        if length < len(_PREFIX):
            return False
        stream.seek(length - len(_PREFIX))
        return stream.read(len(_PREFIX)) == _PREFIX and _ends_with_digest(stream, length)


def _ends_with_digest(stream: BinaryIO, length: int) -> bool:
    stream.seek(length)
    return stream.read() == _digest(stream, length).encode("ascii")


def _digest(stream: BinaryIO, length: int) -> str:
    stream.seek(0)
    running = hashlib.sha256()
    left = length
    while left and (block := stream.read(min(left, _BLOCK))):
        running.update(block)
        left -= len(block)
    return running.hexdigest()


def content_digest(hashes: dict[str, str]) -> str:
    """Return one SHA-256 for all files of a workfile: over lines of hash, two spaces and name, by name.

    It does not depend on how the files are packed; `sha256sum` writes lines of this form.
    """
    lines = "".join(f"{hashes[name]}  {name}\n" for name in sorted(hashes))
    return sha256_hex(lines.encode())
