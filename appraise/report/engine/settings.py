"""The parts that say how a document is to be treated and what it is; written by the engine, never copied."""

from xml.sax.saxutils import escape, quoteattr

from appraise.report.engine.environment import clean
from appraise.report.engine.house import House
from appraise.report.engine.names import DECLARED, XML_HEAD
from appraise.report.engine.views import Properties


def settings_part(found: House, language: str) -> str:
    """Return the settings part, in the order ECMA-376 gives its elements."""
    hyphens = "<w:autoHyphenation/>" if found.hyphenated else ""
    sides = "<w:evenAndOddHeaders/>" if found.odd_and_even else ""
    return (
        f'{XML_HEAD}<w:settings {DECLARED}><w:zoom w:percent="100"/><w:defaultTabStop w:val="567"/>{hyphens}{sides}'
        '<w:characterSpacingControl w:val="doNotCompress"/>'
        '<w:footnotePr><w:footnote w:id="-1"/><w:footnote w:id="0"/></w:footnotePr>'
        '<w:compat><w:compatSetting w:name="compatibilityMode" w:uri="http://schemas.microsoft.com/office/word" '
        f'w:val="15"/></w:compat><w:themeFontLang w:val={quoteattr(language)}/>'
        '<w:decimalSymbol w:val="."/><w:listSeparator w:val=","/></w:settings>'
    )


def _line(text: str, longest: int = 255) -> str:
    return escape(" ".join(clean(text).split())[:longest])


def core_part(properties: Properties) -> str:
    """Return title, author, language and day; the day is the report's, so the bytes do not depend on the clock."""
    day = f"{properties.created.isoformat()}T00:00:00Z"
    return (
        f"{XML_HEAD}<cp:coreProperties "
        'xmlns:cp="http://schemas.openxmlformats.org/package/2006/metadata/core-properties" '
        'xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:dcterms="http://purl.org/dc/terms/" '
        'xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">'
        f"<dc:title>{_line(properties.title)}</dc:title><dc:subject>{_line(properties.subject)}</dc:subject>"
        f"<dc:creator>{_line(properties.author)}</dc:creator>"
        f"<cp:lastModifiedBy>{_line(properties.author)}</cp:lastModifiedBy>"
        f'<dcterms:created xsi:type="dcterms:W3CDTF">{day}</dcterms:created>'
        f'<dcterms:modified xsi:type="dcterms:W3CDTF">{day}</dcterms:modified>'
        f"<dc:language>{_line(properties.language)}</dc:language></cp:coreProperties>"
    )


def app_part() -> str:
    """Return the part that names the producing program."""
    return (
        f'{XML_HEAD}<Properties xmlns="http://schemas.openxmlformats.org/officeDocument/2006/extended-properties">'
        "<Application>appraise</Application></Properties>"
    )
