"""The text of a finished Word file, for the gate before a ratio counts."""

import re
from html import unescape
from pathlib import Path
from zipfile import ZipFile

from bench.say import mark_of

_PARAGRAPH_END = re.compile(r"</w:p>")
_TEXT = re.compile(r"<w:t(?: [^>]*)?>([^<]*)</w:t>|<w:(?:br|tab)/>")


def texts_of(file: Path) -> list[object]:
    """Return the number of paragraphs with text, a mark of them without the contents list, the number of pictures."""
    with ZipFile(file) as package:
        content = package.read("word/document.xml").decode()
        pictures = sum(name.startswith("word/media/") for name in package.namelist())
    paragraphs = []
    for piece in _PARAGRAPH_END.split(content):
        if '<w:pStyle w:val="TOC' in piece:
            continue
        text = unescape("".join(found[1] or " " for found in _TEXT.finditer(piece))).strip()
        if text:
            paragraphs.append(" ".join(text.split()))
    return [len(paragraphs), mark_of(paragraphs), pictures]
