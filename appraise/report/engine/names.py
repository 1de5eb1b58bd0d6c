"""Namespaces, relationship types and content types of a Word file (ECMA-376, part 1)."""

NAMESPACES = {
    "w": "http://schemas.openxmlformats.org/wordprocessingml/2006/main",
    "r": "http://schemas.openxmlformats.org/officeDocument/2006/relationships",
    "wp": "http://schemas.openxmlformats.org/drawingml/2006/wordprocessingDrawing",
    "a": "http://schemas.openxmlformats.org/drawingml/2006/main",
    "pic": "http://schemas.openxmlformats.org/drawingml/2006/picture",
    "c": "http://schemas.openxmlformats.org/drawingml/2006/chart",
    "v": "urn:schemas-microsoft-com:vml",
    "o": "urn:schemas-microsoft-com:office:office",
    "w10": "urn:schemas-microsoft-com:office:word",
}
W = "{" + NAMESPACES["w"] + "}"
R = "{" + NAMESPACES["r"] + "}"
WP = "{" + NAMESPACES["wp"] + "}"
A = "{" + NAMESPACES["a"] + "}"
C = "{" + NAMESPACES["c"] + "}"

DECLARED = " ".join(f'xmlns:{prefix}="{uri}"' for prefix, uri in NAMESPACES.items())
XML_HEAD = '<?xml version="1.0" encoding="UTF-8" standalone="yes"?>\n'

_RELATION = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/"
IMAGE = _RELATION + "image"
CHART = _RELATION + "chart"
HYPERLINK = _RELATION + "hyperlink"
HEADER = _RELATION + "header"
FOOTER = _RELATION + "footer"
STYLES = _RELATION + "styles"
NUMBERING = _RELATION + "numbering"
SETTINGS = _RELATION + "settings"
FONT_TABLE = _RELATION + "fontTable"
THEME = _RELATION + "theme"
FOOTNOTES = _RELATION + "footnotes"
OFFICE_DOCUMENT = _RELATION + "officeDocument"
EXTENDED_PROPERTIES = _RELATION + "extended-properties"
CORE_PROPERTIES = "http://schemas.openxmlformats.org/package/2006/relationships/metadata/core-properties"

_WORD = "application/vnd.openxmlformats-officedocument.wordprocessingml."
TYPES = {
    "document": _WORD + "document.main+xml",
    "styles": _WORD + "styles+xml",
    "numbering": _WORD + "numbering+xml",
    "settings": _WORD + "settings+xml",
    "fontTable": _WORD + "fontTable+xml",
    "footnotes": _WORD + "footnotes+xml",
    "header": _WORD + "header+xml",
    "footer": _WORD + "footer+xml",
    "theme": "application/vnd.openxmlformats-officedocument.theme+xml",
    "chart": "application/vnd.openxmlformats-officedocument.drawingml.chart+xml",
    "core": "application/vnd.openxmlformats-package.core-properties+xml",
    "app": "application/vnd.openxmlformats-officedocument.extended-properties+xml",
}
