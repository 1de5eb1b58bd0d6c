"""The same report as PDF, through LibreOffice where it is installed: tagged, with its contents list brought up to date.

LibreOffice is started with a profile folder of its own, so that neither a running office nor its settings matter, and
a small macro in that profile opens the Word file, updates the contents list (which the plain conversion does not do),
gives the charts back the descriptions that are lost when a Word file is opened, and stores the PDF. LibreOffice ends
with success even when it has failed; so the file itself is looked at.
"""

import hashlib
import os
import re
import shutil
import signal
import subprocess
import tempfile
import zipfile
from datetime import date
from pathlib import Path
from xml.sax.saxutils import escape

from lxml import etree  # type: ignore[import-untyped]

from appraise.model.frozen import frozen
from appraise.report.engine.names import WP, C

#: Names under which LibreOffice is started, and where it lies when it is not on the path.
PROGRAMS = ("soffice", "libreoffice")
_PLACES = (
    "/Applications/LibreOffice.app/Contents/MacOS/soffice",
    "C:\\Program Files\\LibreOffice\\program\\soffice.exe",
)
MISSING = (
    "LibreOffice is not installed, so no PDF was made. Install LibreOffice and run again, or open the Word file and "
    "save it as PDF there (update the contents list first: right click, Update field)."
)


@frozen
class NoPdf:
    """Why there is no PDF, as a sentence for the user."""

    because: str


@frozen
class Pdf:
    """The PDF's bytes and number of pages."""

    content: bytes
    pages: int


def find_office() -> str | None:
    """Return how LibreOffice is started on this machine, or None."""
    for name in PROGRAMS:
        found = shutil.which(name)
        if found:
            return found
    return next((place for place in _PLACES if Path(place).is_file()), None)


def make_pdf(word_file: Path, *, created: date, seconds: int = 300, office: str | None = None) -> Pdf | NoPdf:
    """Return the Word file as PDF, or why not.

    created  the report's day, which becomes the PDF's own date, so that the same report gives the same bytes
    seconds  after so long LibreOffice is stopped
    office   how LibreOffice is started; looked for if not given
    """
    program = office or find_office()
    if program is None:
        return NoPdf(MISSING)
    with tempfile.TemporaryDirectory(prefix="appraise-pdf-") as folder:
        home = Path(folder)
        source, target = home / "report.docx", home / "report.pdf"
        shutil.copyfile(word_file, source)
        described = home / "charts.txt"
        described.write_text("\n".join(_chart_descriptions(source)), "utf-8")
        _write_profile(home / "profile", source, target, described)
        command = [
            program,
            "-env:UserInstallation=" + (home / "profile").as_uri(),
            "--headless",
            "--norestore",
            "--nologo",
            "macro:///Standard.Report.Convert",
        ]
        ended = _run(command, {**os.environ, "TZ": "UTC"}, seconds)
        if not ended:
            return NoPdf(f"LibreOffice did not finish within {seconds} seconds and was stopped; no PDF was made.")
        content = target.read_bytes() if target.is_file() else b""
    if not content.startswith(b"%PDF") or b"%%EOF" not in content[-1024:]:
        return NoPdf(
            "LibreOffice could not turn the Word file into a PDF; open the Word file and save it as PDF there."
        )
    content = _dated(content, created)
    return Pdf(content, _pages(content))


def _run(command: list[str], environment: dict[str, str], seconds: int) -> bool:
    """Return whether the command ended by itself in time; it and what it started are stopped otherwise."""
    running = subprocess.Popen(  # noqa: S603 - a fixed command
        command,
        env=environment,
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        start_new_session=os.name == "posix",
    )
    try:
        running.wait(seconds)
    except subprocess.TimeoutExpired:
        if os.name == "posix":
            os.killpg(running.pid, signal.SIGKILL)
        else:
            running.kill()
        running.wait()
        return False
    return True


def _chart_descriptions(word_file: Path) -> list[str]:
    """Return the descriptions of the charts of a Word file, in order, a line each; none of what is no such file."""
    if not zipfile.is_zipfile(word_file):
        return []
    found = []
    with zipfile.ZipFile(word_file) as package:
        if "word/document.xml" not in package.namelist():
            return []
        with package.open("word/document.xml") as stream:
            for _, inline in etree.iterparse(stream, tag=f"{WP}inline"):
                if next(inline.iter(f"{C}chart"), None) is not None:
                    found.append((inline.find(f"{WP}docPr").get("descr") or "").replace("\n", " "))
                inline.clear()
    return found


_COUNT = re.compile(rb"/Type\s*/Pages\b[^>]*?/Count\s+(\d+)|/Count\s+(\d+)[^>]*?/Type\s*/Pages\b", re.DOTALL)


def _pages(content: bytes) -> int:
    """Return the number of pages: the largest count of the page tree."""
    return max((int(one[1] or one[2]) for one in _COUNT.finditer(content)), default=0)


_DAYS = re.compile(rb"(?<=/CreationDate\(D:)\d{14}|(?<=/ModDate\(D:)\d{14}")
_STAMPS = re.compile(rb"(?<=<xmp:CreateDate>)[\d:T-]{19}|(?<=<xmp:ModifyDate>)[\d:T-]{19}")
_MARKS = re.compile(rb"(/ID\s*\[\s*<)([0-9A-F]{32})(>\s*<)([0-9A-F]{32})(>)|(/DocChecksum\s*/)([0-9A-F]{32})")


def _dated(content: bytes, created: date) -> bytes:
    """Return the PDF with the report's day for the hour it was made, and marks made from its content.

    Every replacement is as long as what it replaces, so no position in the file changes.
    """
    content = _DAYS.sub(created.strftime("%Y%m%d000000").encode(), content)
    content = _STAMPS.sub(created.strftime("%Y-%m-%dT00:00:00").encode(), content)
    blank = _MARKS.sub(lambda m: m[6] + b"0" * 32 if m[6] else m[1] + b"0" * 32 + m[3] + b"0" * 32 + m[5], content)
    mark = hashlib.sha256(blank).hexdigest()[:32].upper().encode()
    return _MARKS.sub(lambda m: m[6] + mark if m[6] else m[1] + mark + m[3] + mark + m[5], content)


#: Charts that LibreOffice may keep open at a time; each takes memory, so there is a limit.
_CHARTS_OPEN = 400

_MACRO = """
Function Named(key As String, content As Variant) As Variant
    Dim pair As New com.sun.star.beans.PropertyValue
    pair.Name = key
    pair.Value = content
    Named = pair
End Function

Sub Describe(charts As Object)
    Dim lines As Object, n As Integer, told(charts.getCount()) As String
    lines = createUnoService("com.sun.star.io.TextInputStream")
    lines.setInputStream(createUnoService("com.sun.star.ucb.SimpleFileAccess").openFileRead("{described}"))
    lines.setEncoding("UTF-8")
    n = 0
    Do While Not lines.isEOF() And n < charts.getCount()
        told(n) = lines.readLine()
        n = n + 1
    Loop
    If Not lines.isEOF() Or n < charts.getCount() Then Exit Sub
    For n = 0 To charts.getCount() - 1
        If charts.hasByName("Object" & (n + 1)) Then charts.getByName("Object" & (n + 1)).Description = told(n)
    Next n
End Sub

Sub Convert
    On Error Goto Finish
    Dim opened As Object, indexes As Object, round As Integer, n As Integer
    opened = StarDesktop.loadComponentFromURL("{source}", "_blank", 0, _
        Array(Named("Hidden", True), Named("FilterName", "MS Word 2007 XML")))
    indexes = opened.getDocumentIndexes()
    For round = 1 To 2
        For n = 0 To indexes.getCount() - 1
            indexes.getByIndex(n).update()
        Next n
        opened.refresh()
    Next round
    Describe opened.getEmbeddedObjects()
    Dim choices As Variant
    choices = Array(Named("UseTaggedPDF", True), Named("PDFUACompliance", True), Named("ExportBookmarks", True), _
        Named("DisplayPDFDocumentTitle", True), Named("UseLosslessCompression", False), Named("Quality", 90), _
        Named("ReduceImageResolution", False))
    opened.storeToURL("{target}", Array(Named("FilterName", "writer_pdf_Export"), Named("FilterData", _
        com_sun_star_uno_Any(choices))))
    opened.close(True)
Finish:
    StarDesktop.terminate()
End Sub
"""


def _write_profile(profile: Path, source: Path, target: Path, described: Path) -> None:
    """Write a profile whose standard library holds the macro for these files; `described` has the charts' texts."""
    library = profile / "user" / "basic" / "Standard"
    library.mkdir(parents=True)
    macro = _MACRO.replace("{source}", source.as_uri()).replace("{target}", target.as_uri())
    macro = macro.replace("{described}", described.as_uri())
    macro = macro.replace(
        "com_sun_star_uno_Any(choices)", 'CreateUnoValue("[]com.sun.star.beans.PropertyValue", choices)'
    )
    head = '<?xml version="1.0" encoding="UTF-8"?>\n'
    (library / "Report.xba").write_text(
        f'{head}<!DOCTYPE script:module PUBLIC "-//OpenOffice.org//DTD OfficeDocument 1.0//EN" "module.dtd">\n'
        '<script:module xmlns:script="http://openoffice.org/2000/script" script:name="Report" '
        f'script:language="StarBasic">{escape(macro)}</script:module>',
        "utf-8",
    )
    (library / "script.xlb").write_text(
        f'{head}<!DOCTYPE library:library PUBLIC "-//OpenOffice.org//DTD OfficeDocument 1.0//EN" "library.dtd">\n'
        '<library:library xmlns:library="http://openoffice.org/2000/library" library:name="Standard" '
        'library:readonly="false" library:passwordprotected="false"><library:element library:name="Report"/>'
        "</library:library>",
        "utf-8",
    )
    # Without the first entry the first start copies an empty standard library over ours. The second is the number of
    # charts kept open: of more than that (20, if nothing is said) the rest is drawn from pictures, stretched.
    (profile / "user" / "registrymodifications.xcu").write_text(
        f'{head}<oor:items xmlns:oor="http://openoffice.org/2001/registry">'
        '<item oor:path="/org.openoffice.Setup/Office"><prop oor:name="ooSetupInstCompleted" oor:op="fuse">'
        "<value>true</value></prop></item>"
        '<item oor:path="/org.openoffice.Office.Common/Cache/Writer"><prop oor:name="OLE_Objects" oor:op="fuse">'
        f"<value>{_CHARTS_OPEN}</value></prop></item></oor:items>",
        "utf-8",
    )
    (library.parent / "script.xlc").write_text(
        f'{head}<!DOCTYPE library:libraries PUBLIC "-//OpenOffice.org//DTD OfficeDocument 1.0//EN" "libraries.dtd">\n'
        '<library:libraries xmlns:library="http://openoffice.org/2000/library" '
        'xmlns:xlink="http://www.w3.org/1999/xlink"><library:library library:name="Standard" '
        'xlink:href="$(USER)/basic/Standard/script.xlb/" xlink:type="simple" library:link="false"/>'
        "</library:libraries>",
        "utf-8",
    )
