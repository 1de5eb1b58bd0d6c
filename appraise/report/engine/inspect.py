"""The structural check of a finished report. Word refuses files that LibreOffice opens; so this looks itself.

Whatever it finds is our own fault, never the user's: the report is not handed over.
"""

import re
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import BinaryIO
from xml.parsers import expat

from lxml import etree  # type: ignore[import-untyped]

from appraise.report.engine.inspect_text import Known, NotWellFormedError, TextPart
from appraise.report.engine.names import W

_TEXT_PART = re.compile(r"word/(document|header\d+|footer\d+|footnotes)\.xml")
_RELATIONS = "{http://schemas.openxmlformats.org/package/2006/relationships}"
_TYPES = "{http://schemas.openxmlformats.org/package/2006/content-types}"


class BrokenReportError(Exception):
    """A finished report is not sound; the problems go to the log."""

    def __init__(self, problems: list[str]) -> None:
        super().__init__(f"the finished report has {len(problems)} structural problems, the first: {problems[0]}")
        self.problems = problems


def inspect_docx(file: Path | BinaryIO, *, most: int = 100) -> list[str]:
    """Return what is wrong with a Word file, at most so many sentences; an empty list if it is sound."""
    found: list[str] = []
    with zipfile.ZipFile(file) as package:
        for problem in _problems(package):
            found.append(problem)
            if len(found) >= most:
                break
    return found


def require_sound(file: Path | BinaryIO) -> None:
    """Raise BrokenReportError if a finished report has any structural problem."""
    problems = inspect_docx(file)
    if problems:
        raise BrokenReportError(problems)


def _problems(package: zipfile.ZipFile) -> Iterator[str]:
    listed = package.namelist()
    if len(set(listed)) != len(listed):
        yield "a part stands twice in the file"
    for name in listed:
        if name.endswith((".xml", ".rels")) and not _TEXT_PART.fullmatch(name):
            fault = _not_well_formed(package, name)
            if fault:
                yield f"{name}: {fault}"
                return
    yield from _types(package, frozenset(listed))
    yield from _links(package, frozenset(listed))
    styles = frozenset(_ids(package, "word/styles.xml", "style", "styleId"))
    notes = frozenset(_ids(package, "word/footnotes.xml", "footnote", "id") if "word/footnotes.xml" in listed else ())
    for name in listed:
        if _TEXT_PART.fullmatch(name):
            part = TextPart(Known(styles, notes, _related(package, name)))
            try:
                with package.open(name) as stream:
                    yield from (f"{name}: {problem}" for problem in part.problems(stream))
            except NotWellFormedError as fault:
                yield f"{name}: not well-formed ({fault})"


def _ids(package: zipfile.ZipFile, part: str, element: str, attribute: str) -> Iterator[str]:
    """Yield an attribute of all elements of a name, one by one, so that many footnotes stay flat in memory."""
    with package.open(part) as stream:
        for _, one in etree.iterparse(stream, tag=f"{W}{element}"):
            yield one.get(f"{W}{attribute}", "")
            one.clear()


def _related(package: zipfile.ZipFile, part: str) -> frozenset[str]:
    """Return the ids of a part's relationships."""
    folder, _, file = part.rpartition("/")
    relations = f"{folder}/_rels/{file}.rels"
    if relations not in package.namelist():
        return frozenset()
    root = etree.fromstring(package.read(relations))
    return frozenset(one.get("Id", "") for one in root.iter(f"{_RELATIONS}Relationship"))


def _not_well_formed(package: zipfile.ZipFile, name: str) -> str:
    with package.open(name) as stream:
        try:
            expat.ParserCreate().ParseFile(stream)
        except expat.ExpatError as fault:
            return f"not well-formed ({fault})"
    return ""


def _types(package: zipfile.ZipFile, listed: frozenset[str]) -> Iterator[str]:
    root = etree.fromstring(package.read("[Content_Types].xml"))
    named = [one.get("PartName", "").lstrip("/") for one in root.iter(f"{_TYPES}Override")]
    endings = {one.get("Extension", "") for one in root.iter(f"{_TYPES}Default")}
    if len(set(named)) != len(named):
        yield "a content type is declared twice"
    for name in sorted(set(named) - listed):
        yield f"a content type is declared for {name}, which is not there"
    for name in sorted(listed - set(named) - {"[Content_Types].xml"}):
        if name.rpartition(".")[2] not in endings or (name.endswith(".xml") and name.startswith("word/")):
            yield f"{name} has no content type"


def _links(package: zipfile.ZipFile, listed: frozenset[str]) -> Iterator[str]:
    for name in sorted(one for one in listed if one.endswith(".rels")):
        folder = name.rpartition("_rels/")[0]
        for one in etree.fromstring(package.read(name)).iter(f"{_RELATIONS}Relationship"):
            if one.get("TargetMode") != "External" and f"{folder}{one.get('Target')}" not in listed:
                yield f"{name}: {one.get('Id')} points at {one.get('Target')}, which is not there"
