"""SHA-256 of files and bytes, as lower-case hexadecimal digits."""

import hashlib
from pathlib import Path


def sha256_of(path: Path) -> str:
    """Return the SHA-256 of a file's content."""
    with path.open("rb") as stream:
        return hashlib.file_digest(stream, "sha256").hexdigest()


def sha256_hex(content: bytes) -> str:
    """Return the SHA-256 of bytes."""
    return hashlib.sha256(content).hexdigest()
