"""Inline pictures and charts, and fields, as the text of their elements."""

from xml.sax.saxutils import escape, quoteattr

from appraise.report.engine.environment import clean

#: English metric units in a millimetre (ECMA-376: 914,400 in an inch, which is 25.4 mm).
EMU_PER_MM = 36_000


def size(width_mm: int, height_mm: int) -> tuple[int, int]:
    """Return width and height in English metric units."""
    return width_mm * EMU_PER_MM, height_mm * EMU_PER_MM


def fitted(width: int, height: int, *, width_mm: int, height_mm: int) -> tuple[int, int]:
    """Return the largest size [EMU] of the same proportion that fits into a box [mm]."""
    box_width, box_height = size(width_mm, height_mm)
    if width * box_height >= height * box_width:
        return box_width, max(box_width * height // width, 1)
    return max(box_height * width // height, 1), box_height


def _inline(number: int, name: str, extent: tuple[int, int], alt: str, graphic: str) -> str:
    if not alt.strip():
        raise ValueError(f"{name} {number} has no text for who cannot see it")
    described = quoteattr(clean(alt).replace("{", "("), {"\n": " ", "\t": " "})
    return (
        '<w:r><w:drawing><wp:inline distT="0" distB="0" distL="0" distR="0">'
        f'<wp:extent cx="{extent[0]}" cy="{extent[1]}"/><wp:effectExtent l="0" t="0" r="0" b="0"/>'
        f'<wp:docPr id="{number}" name="{name} {number}" descr={described}/>'
        f"<wp:cNvGraphicFramePr/>{graphic}</wp:inline></w:drawing></w:r>"
    )


def picture(relation: str, number: int, extent: tuple[int, int], alt: str) -> str:
    """Return a run that holds a picture; its name is neutral, never a file's."""
    uri = "http://schemas.openxmlformats.org/drawingml/2006/picture"
    return _inline(
        number,
        "Picture",
        extent,
        alt,
        f'<a:graphic><a:graphicData uri="{uri}"><pic:pic><pic:nvPicPr>'
        f'<pic:cNvPr id="{number}" name="Picture {number}"/><pic:cNvPicPr><a:picLocks noChangeAspect="1"/>'
        f'</pic:cNvPicPr></pic:nvPicPr><pic:blipFill><a:blip r:embed="{relation}"/>'
        '<a:stretch><a:fillRect/></a:stretch></pic:blipFill><pic:spPr><a:xfrm><a:off x="0" y="0"/>'
        f'<a:ext cx="{extent[0]}" cy="{extent[1]}"/></a:xfrm><a:prstGeom prst="rect"><a:avLst/></a:prstGeom>'
        "</pic:spPr></pic:pic></a:graphicData></a:graphic>",
    )


def chart(relation: str, number: int, extent: tuple[int, int], alt: str) -> str:
    """Return a run that holds a chart."""
    uri = "http://schemas.openxmlformats.org/drawingml/2006/chart"
    return _inline(
        number,
        "Chart",
        extent,
        alt,
        f'<a:graphic><a:graphicData uri="{uri}"><c:chart r:id="{relation}"/></a:graphicData></a:graphic>',
    )


def simple_field(code: str, shown: str) -> str:
    """Return a field with what it shows until it is worked out anew."""
    return f"<w:fldSimple w:instr={quoteattr(code)}><w:r><w:t>{escape(shown)}</w:t></w:r></w:fldSimple>"


def page_reference(bookmark: str, shown: str = "") -> str:
    """Return the field for the page of a bookmark."""
    return (
        '<w:r><w:fldChar w:fldCharType="begin"/></w:r>'
        f'<w:r><w:instrText xml:space="preserve"> PAGEREF {bookmark} \\h </w:instrText></w:r>'
        '<w:r><w:fldChar w:fldCharType="separate"/></w:r>'
        f"<w:r><w:t>{escape(shown)}</w:t></w:r>"
        '<w:r><w:fldChar w:fldCharType="end"/></w:r>'
    )
