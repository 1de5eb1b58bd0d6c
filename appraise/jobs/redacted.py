"""The redacted copy: searched once more when it is finished, part by part, before it is handed over."""

import html
import re
import zipfile
from pathlib import Path
from typing import BinaryIO

from appraise.files.unusable import Trouble, UnusableFile
from appraise.report.redact import Redaction

#: The copy goes to others, so its name is not the workbook's, which is often a person's.
STEM = "redacted"


def require_nothing_left(stream: BinaryIO, redaction: Redaction, path: Path) -> None:
    """Raise UnusableFile if a text that must not be said still stands in the finished Word file.

    It can only come from the appraiser's own templates: everything else went through the redaction.
    """
    stream.seek(0)
    with zipfile.ZipFile(stream) as package:
        for name in package.namelist():
            if not name.endswith((".xml", ".rels")):
                continue
            left = redaction.left(_printed(package.read(name).decode()))
            if left:
                raise UnusableFile(
                    Trouble.UNSAFE,
                    path,
                    f"The redacted copy would still say '{left[0]}' ({name}); nothing was written. "
                    "Take it out of your own templates, or write the copy without them.",
                )


def _printed(content: str) -> str:
    """Return what a part says: its text and the values of its attributes, tags apart."""
    values = re.findall(r'\b(?:descr|title|name|w:author|Target)="([^"]*)"', content)
    return html.unescape("\n".join([re.sub(r"<[^>]*>", "\n", content), *values]))
