"""The one exception for a file that cannot be used at all. Faults inside a usable file are findings instead."""

from enum import StrEnum
from pathlib import Path


class Trouble(StrEnum):
    """Why a file cannot be used; the word is the code printed beside the sentence and in JSON."""

    MISSING = "file-missing"
    NOT_A_FILE = "not-a-file"
    NO_PERMISSION = "no-permission"
    EMPTY = "file-empty"
    NOT_A_WORKBOOK = "not-a-workbook"
    PASSWORD = "password-protected"  # noqa: S105 - the name of a trouble, not a secret
    OLD_EXCEL = "xls-file"
    OPEN_DOCUMENT = "ods-file"
    BINARY_EXCEL = "xlsb-file"
    STRICT = "strict-format"
    NO_SHEETS = "no-sheets"
    DAMAGED = "damaged"
    TOO_LARGE = "too-large"
    UNSAFE = "unsafe"
    NEWER_FORMAT = "newer-format"
    FOREIGN = "foreign-workbook"
    LOCKED = "locked"
    CANNOT_WRITE = "cannot-write"
    EXISTS = "already-there"


class UnusableFile(Exception):
    """A file cannot be read or written.

    code      one of `Trouble`
    path      the file
    sentence  what is wrong and what to do, ready to print
    """

    def __init__(self, code: Trouble, path: Path, sentence: str) -> None:
        super().__init__(sentence)
        self.code = code
        self.path = path
        self.sentence = sentence


def shortened(path: Path) -> str:
    """Return a path as a sentence names it; a very long one without its middle."""
    text = str(path)
    return text if len(text) <= 200 else f"{text[:90]} ... {text[-90:]}"
