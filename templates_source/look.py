"""The look of the house document: measures, fonts, colours and styles, in one place.

Serif text of a family every office program has or replaces by one of the same widths, so pages break alike in Word and
in LibreOffice. Tables and page edges are set in the sans-serif of the same kind. Every colour of text stands against
white at 4.5 : 1 or better (WCAG 2.2, success criterion 1.4.3).
"""

SERIF = "Times New Roman"
SANS = "Arial"
INK = "1F2A44"
TEXT = "1A1A1A"
QUIET = "55595F"
RULE = "8A93A3"
HAIR = "C9CED6"
TINT = "F2F4F7"
WARN = "8A1C1C"

#: Width of the text [mm]; the same on A4 and on letter paper.
TEXT_WIDTH = 160
#: Width of the text on a page that lies on its side, A4 [mm]; letter has 1 mm more.
WIDE_WIDTH = 247


def twips(millimetres: float) -> int:
    """Return twentieths of a point, of which an inch of 25.4 mm has 1,440."""
    return round(millimetres * 1440 / 25.4)


def _fonts(name: str) -> str:
    return f'<w:rFonts w:ascii="{name}" w:hAnsi="{name}" w:eastAsia="{name}" w:cs="{name}"/>'


def _style(
    ident: str,
    name: str,
    *,
    based: str = "Normal",
    following: str = "",
    paragraph: str = "",
    run: str = "",
    primary: bool = True,
    kind: str = "paragraph",
    default: bool = False,
) -> str:
    first = ' w:default="1"' if default else ""
    return (
        f'<w:style w:type="{kind}"{first} w:styleId="{ident}"><w:name w:val="{name}"/>'
        + (f'<w:basedOn w:val="{based}"/>' if based else "")
        + (f'<w:next w:val="{following}"/>' if following else "")
        + '<w:uiPriority w:val="9"/>'
        + ("<w:qFormat/>" if primary else "")
        + (f"<w:pPr>{paragraph}</w:pPr>" if paragraph else "")
        + (f"<w:rPr>{run}</w:rPr>" if run else "")
        + "</w:style>"
    )


def _space(before: float = 0, after: float = 0, line: int = 0) -> str:
    lines = f' w:line="{line}" w:lineRule="auto"' if line else ""
    return f'<w:spacing w:before="{round(before * 20)}" w:after="{round(after * 20)}"{lines}/>'


def _size(points: float) -> str:
    half = round(points * 2)
    return f'<w:sz w:val="{half}"/><w:szCs w:val="{half}"/>'


def _colour(value: str) -> str:
    return f'<w:color w:val="{value}"/>'


def _border(side: str, colour: str = RULE, eighths: int = 4, space: int = 1) -> str:
    return f'<w:{side} w:val="single" w:sz="{eighths}" w:space="{space}" w:color="{colour}"/>'


def _tab(position: float, kind: str = "right", leader: str = "") -> str:
    dots = f' w:leader="{leader}"' if leader else ""
    return f'<w:tab w:val="{kind}"{dots} w:pos="{twips(position)}"/>'


def _indent(left: float = 0, hanging: float = 0, right: float = 0) -> str:
    return f'<w:ind w:left="{twips(left)}" w:right="{twips(right)}" w:hanging="{twips(hanging)}"/>'


def _contents_tabs(text: float) -> str:
    return f"<w:tabs>{_tab(text, 'left')}{_tab(TEXT_WIDTH, 'right', 'dot')}</w:tabs>"


_SANS = _fonts(SANS)
_EXACT = '<w:spacing w:before="0" w:after="0" w:line="{}" w:lineRule="exact"/>'
_CELL = _space(0.7, 0.7)

DEFAULTS = (
    f"<w:docDefaults><w:rPrDefault><w:rPr>{_fonts(SERIF)}{_colour(TEXT)}{_size(11)}"
    '<w:lang w:val="en-US" w:eastAsia="en-US"/></w:rPr></w:rPrDefault><w:pPrDefault/></w:docDefaults>'
)

PARAGRAPH_STYLES = "".join(
    (
        _style("Normal", "Normal", based="", default=True),
        _style("BodyText", "Body Text", paragraph=f"<w:widowControl/>{_space(0, 7, 276)}"),
        _style(
            "Heading1",
            "heading 1",
            based="Normal",
            following="BodyText",
            paragraph='<w:keepNext/><w:keepLines/><w:numPr><w:ilvl w:val="0"/><w:numId w:val="1"/></w:numPr>'
            f'<w:pBdr>{_border("bottom", RULE, 4, 4)}</w:pBdr>{_space(24, 10)}<w:outlineLvl w:val="0"/>',
            run=f"{_colour(INK)}{_size(16)}",
        ),
        _style(
            "Heading2",
            "heading 2",
            based="Normal",
            following="BodyText",
            paragraph='<w:keepNext/><w:keepLines/><w:numPr><w:ilvl w:val="1"/><w:numId w:val="1"/></w:numPr>'
            f'{_space(18, 6)}<w:outlineLvl w:val="1"/>',
            run=f"<w:b/>{_colour(INK)}{_size(12.5)}",
        ),
        _style(
            "Heading3",
            "heading 3",
            based="Normal",
            following="BodyText",
            paragraph=f'<w:keepNext/><w:keepLines/>{_space(12, 4)}<w:outlineLvl w:val="2"/>',
            run=f"<w:b/><w:i/>{_colour(INK)}{_size(11)}",
        ),
        _style(
            "HeadingFront",
            "Heading Front",
            based="Heading1",
            following="BodyText",
            paragraph='<w:numPr><w:numId w:val="0"/></w:numPr><w:ind w:left="0" w:firstLine="0"/>',
        ),
        _style(
            "ContentsTitle",
            "Contents Title",
            following="BodyText",
            paragraph=f"<w:keepNext/><w:pBdr>{_border('bottom', RULE, 4, 4)}</w:pBdr>{_space(0, 12)}",
            run=f"{_colour(INK)}{_size(16)}",
        ),
        _style(
            "Title",
            "Title",
            following="Subtitle",
            paragraph=f"<w:keepLines/>{_space(0, 10)}<w:contextualSpacing/>",
            run=f"{_colour(INK)}{_size(27)}",
        ),
        _style(
            "Subtitle", "Subtitle", following="BodyText", paragraph=_space(0, 20), run=f"{_colour(QUIET)}{_size(14)}"
        ),
        _style(
            "CoverLabel",
            "Cover Label",
            following="CoverText",
            paragraph=f"<w:keepNext/>{_space(9, 1)}",
            run=f'{_SANS}<w:caps/>{_colour(QUIET)}<w:spacing w:val="14"/>{_size(7.5)}',
        ),
        _style("CoverText", "Cover Text", paragraph=_space(0, 2), run=_size(12)),
        _style(
            "Caption",
            "caption",
            following="BodyText",
            paragraph=f"<w:keepLines/>{_space(4, 10)}",
            run=f"{_SANS}{_colour(QUIET)}{_size(8.5)}",
        ),
        _style(
            "TableCaption",
            "Table Caption",
            based="Caption",
            following="BodyText",
            paragraph=f"<w:keepNext/><w:keepLines/>{_space(10, 4)}",
        ),
        _style("Figure", "Figure", following="Caption", paragraph=f"<w:keepNext/>{_space(6, 0)}"),
        _style("TableText", "Table Text", paragraph=_CELL, run=f"{_SANS}{_size(8.5)}"),
        _style("TableFigure", "Table Figure", based="TableText", paragraph='<w:jc w:val="right"/>'),
        _style("TableHead", "Table Head", based="TableText", paragraph="<w:keepNext/>", run=f"<w:b/>{_colour(INK)}"),
        _style("TableHeadFigure", "Table Head Figure", based="TableHead", paragraph='<w:jc w:val="right"/>'),
        _style("GridHead", "Grid Head", based="TableHeadFigure", run=_size(7.5)),
        _style("TableTotal", "Table Total", based="TableText", run="<w:b/>"),
        _style("TableTotalFigure", "Table Total Figure", based="TableTotal", paragraph='<w:jc w:val="right"/>'),
        _style("FactLabel", "Fact Label", based="TableText", run=_colour(QUIET)),
        _style("TableNote", "Table Note", paragraph=_space(4, 8), run=f"{_SANS}{_colour(QUIET)}{_size(8)}"),
        _style("TableEnd", "Table End", paragraph=_EXACT.format(160)),
        _style(
            "Quote",
            "Quote",
            based="BodyText",
            following="QuoteSource",
            paragraph=f"<w:keepLines/>{_space(2, 3, 264)}{_indent(10, 0, 10)}",
            run="<w:i/>",
        ),
        _style(
            "QuoteSource",
            "Quote Source",
            following="BodyText",
            paragraph=f"{_space(0, 9)}{_indent(10, 0, 10)}",
            run=f"{_SANS}{_colour(QUIET)}{_size(8.5)}",
        ),
        _style(
            "Notice",
            "Notice",
            based="BodyText",
            paragraph=f"<w:keepLines/><w:pBdr>{_border('left', INK, 18, 8)}</w:pBdr>"
            f'<w:shd w:val="clear" w:color="auto" w:fill="{TINT}"/>{_space(6, 8, 264)}{_indent(4, 0, 2)}',
        ),
        _style(
            "OpenPoint",
            "Open Point",
            based="BodyText",
            paragraph=f"<w:keepLines/><w:pBdr>{_border('left', WARN, 18, 8)}</w:pBdr>{_space(2, 6, 264)}{_indent(4)}",
        ),
        _style(
            "Opinion",
            "Opinion",
            based="BodyText",
            following="BodyText",
            paragraph=f"<w:keepLines/><w:pBdr>{_border('top', INK, 6, 5)}{_border('bottom', INK, 6, 5)}</w:pBdr>"
            f"{_space(10, 12, 264)}",
            run=f"{_colour(INK)}{_size(12)}",
        ),
        _style(
            "ListBullet",
            "List Bullet",
            based="BodyText",
            paragraph=f'<w:numPr><w:numId w:val="2"/></w:numPr>{_space(0, 3, 264)}{_indent(6, 5)}',
        ),
        _style(
            "ListItem",
            "List Item",
            based="BodyText",
            paragraph=f"<w:tabs>{_tab(9, 'left')}</w:tabs>{_space(0, 5, 264)}{_indent(9, 9)}",
        ),
        _style("Letter", "Letter", based="BodyText", paragraph=_space(0, 9, 276)),
        _style("Address", "Address", paragraph=_space(0, 0, 264)),
        _style(
            "SignatureLine",
            "Signature Line",
            following="SignatureText",
            paragraph=f"<w:keepNext/><w:keepLines/><w:pBdr>{_border('bottom', TEXT, 4, 1)}</w:pBdr>{_space(34, 2)}"
            f"{_indent(0, 0, 80)}",
        ),
        _style(
            "SignatureText", "Signature Text", paragraph=f"<w:keepLines/>{_space(0, 2)}", run=f"{_SANS}{_size(8.5)}"
        ),
        _style(
            "TOC1",
            "toc 1",
            following="Normal",
            primary=False,
            paragraph=_contents_tabs(8) + _space(6, 2),
        ),
        _style(
            "TOC2",
            "toc 2",
            following="Normal",
            primary=False,
            paragraph=_contents_tabs(20) + _space(0, 2) + _indent(8),
            run=_size(10),
        ),
        _style(
            "TOC3",
            "toc 3",
            following="Normal",
            primary=False,
            paragraph=f"<w:tabs>{_tab(TEXT_WIDTH, 'right', 'dot')}</w:tabs>{_space(0, 1)}{_indent(20)}",
            run=_size(10),
        ),
        _style(
            "Header",
            "header",
            primary=False,
            paragraph=f"<w:pBdr>{_border('bottom', HAIR, 4, 4)}</w:pBdr><w:tabs>{_tab(TEXT_WIDTH)}</w:tabs>",
            run=f"{_SANS}{_colour(QUIET)}{_size(8)}",
        ),
        _style(
            "Footer",
            "footer",
            primary=False,
            paragraph=f"<w:tabs>{_tab(TEXT_WIDTH)}</w:tabs>",
            run=f"{_SANS}{_colour(QUIET)}{_size(8)}",
        ),
        _style(
            "FootnoteText",
            "footnote text",
            primary=False,
            paragraph=f"{_space(0, 2)}{_indent(0, 0)}",
            run=_size(8.5),
        ),
        _style("PageBreak", "Page Break", primary=False, paragraph=_EXACT.format(20)),
    )
)

CHARACTER_STYLES = "".join(
    (
        _style(
            "DefaultParagraphFont", "Default Paragraph Font", based="", kind="character", default=True, primary=False
        ),
        _style("Strong", "Strong", based="DefaultParagraphFont", kind="character", run="<w:b/>"),
        _style("Emphasis", "Emphasis", based="DefaultParagraphFont", kind="character", run="<w:i/>"),
        _style("Quiet", "Quiet", based="DefaultParagraphFont", kind="character", run=_colour(QUIET)),
        _style("Warning", "Warning", based="DefaultParagraphFont", kind="character", run=f"<w:b/>{_colour(WARN)}"),
        _style(
            "FootnoteReference",
            "footnote reference",
            based="DefaultParagraphFont",
            kind="character",
            primary=False,
            run='<w:vertAlign w:val="superscript"/>',
        ),
    )
)


def _cell_margins(vertical: float, side: float) -> str:
    return (
        f'<w:tblCellMar><w:top w:w="{twips(vertical)}" w:type="dxa"/><w:left w:w="{twips(side)}" w:type="dxa"/>'
        f'<w:bottom w:w="{twips(vertical)}" w:type="dxa"/><w:right w:w="{twips(side)}" w:type="dxa"/></w:tblCellMar>'
    )


def _table_style(ident: str, name: str, borders: str, *, vertical: float, side: float, conditions: str = "") -> str:
    return (
        f'<w:style w:type="table" w:customStyle="1" w:styleId="{ident}"><w:name w:val="{name}"/>'
        '<w:basedOn w:val="TableNormal"/><w:uiPriority w:val="9"/><w:qFormat/>'
        f"<w:tblPr><w:tblBorders>{borders}</w:tblBorders>{_cell_margins(vertical, side)}</w:tblPr>"
        f"{conditions}</w:style>"
    )


def _rule(side: str, colour: str, eighths: int) -> str:
    return f'<w:{side} w:val="single" w:sz="{eighths}" w:space="0" w:color="{colour}"/>'


_HEAD_ROW = (
    '<w:tblStylePr w:type="firstRow"><w:tcPr><w:tcBorders>'
    f'{_rule("top", INK, 8)}{_rule("bottom", INK, 6)}</w:tcBorders><w:vAlign w:val="bottom"/></w:tcPr></w:tblStylePr>'
)

TABLE_STYLES = (
    '<w:style w:type="table" w:default="1" w:styleId="TableNormal"><w:name w:val="Normal Table"/>'
    '<w:uiPriority w:val="99"/><w:semiHidden/><w:unhideWhenUsed/><w:tblPr><w:tblInd w:w="0" w:type="dxa"/>'
    f"{_cell_margins(0, 1.9)}</w:tblPr></w:style>"
    + _table_style(
        "Schedule",
        "Schedule",
        _rule("top", INK, 8) + _rule("bottom", INK, 8) + _rule("insideH", HAIR, 4),
        vertical=0.3,
        side=1.5,
        conditions=_HEAD_ROW,
    )
    + _table_style(
        "Facts",
        "Facts",
        _rule("top", HAIR, 4) + _rule("bottom", HAIR, 4) + _rule("insideH", HAIR, 4),
        vertical=0.3,
        side=1.5,
    )
    + _table_style("Pictures", "Pictures", "", vertical=0, side=0.8)
)


def _level(level: int, text: str, style: str, left: float, hanging: float, form: str = "decimal", run: str = "") -> str:
    linked = f'<w:pStyle w:val="{style}"/>' if style else ""
    look = f"<w:rPr>{run}</w:rPr>" if run else ""
    return (
        f'<w:lvl w:ilvl="{level}"><w:start w:val="1"/><w:numFmt w:val="{form}"/>{linked}<w:lvlText w:val="{text}"/>'
        f'<w:lvlJc w:val="left"/><w:pPr>{_indent(left, hanging)}</w:pPr>{look}</w:lvl>'
    )


NUMBERING = (
    '<w:abstractNum w:abstractNumId="1"><w:multiLevelType w:val="multilevel"/>'
    + _level(0, "%1", "Heading1", 10, 10)
    + _level(1, "%1.%2", "Heading2", 12, 12)
    + "</w:abstractNum>"
    + '<w:abstractNum w:abstractNumId="2"><w:multiLevelType w:val="hybridMultilevel"/>'
    + _level(0, "•", "", 6, 5, "bullet")
    + "</w:abstractNum>"
    + '<w:num w:numId="1"><w:abstractNumId w:val="1"/></w:num><w:num w:numId="2"><w:abstractNumId w:val="2"/></w:num>'
)
