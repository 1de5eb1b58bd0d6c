"""Pieces of the XML of a chart: series, axes, legends, fills and texts; `charts` puts them together."""

from collections.abc import Sequence
from decimal import Decimal
from xml.sax.saxutils import escape

from appraise.report.engine.environment import clean
from appraise.report.engine.names import XML_HEAD

QUIET = "55595F"
#: Text that stands out on white and on light bars alike.
TEXT = "1A1A1A"
_SPACES = (
    'xmlns:c="http://schemas.openxmlformats.org/drawingml/2006/chart" '
    'xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main" '
    'xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"'
)


def text_size(hundredths: int, colour: str = QUIET, bold: int = 0) -> str:
    """Return how texts look: size [1/100 pt], colour as RRGGBB."""
    return (
        # Turned by 0, said so: else LibreOffice leaves out labels of two lines, or every second one.
        f'<c:txPr><a:bodyPr rot="0" vert="horz"/><a:p><a:pPr><a:defRPr sz="{hundredths}" b="{bold}"><a:solidFill>'
        f'<a:srgbClr val="{colour}"/></a:solidFill><a:latin typeface="Arial"/></a:defRPr></a:pPr>'
        '<a:endParaRPr lang="en-US"/></a:p></c:txPr>'
    )


def shown(text: str) -> str:
    """Return a text as one line of XML."""
    return escape(" ".join(clean(text).split()))


def solid(colour: str, opaque: int = 100) -> str:
    """Return a plain fill; `opaque` in percent."""
    alpha = f'<a:alpha val="{opaque * 1000}"/>' if opaque < 100 else ""
    return (
        f'<c:spPr><a:solidFill><a:srgbClr val="{colour}">{alpha}</a:srgbClr></a:solidFill>'
        "<a:ln><a:noFill/></a:ln></c:spPr>"
    )


def edged(colour: str, edge: str) -> str:
    """Return a light fill with a dark edge: what is printed on it may run on over its end and stays readable."""
    return (
        f'<c:spPr><a:solidFill><a:srgbClr val="{colour}"/></a:solidFill><a:ln w="9525"><a:solidFill>'
        f'<a:srgbClr val="{edge}"/></a:solidFill></a:ln></c:spPr>'
    )


def hatched(colour: str, pattern: str) -> str:
    """Return a fill of lines in one colour on white; `pattern` as DrawingML names it."""
    return (
        f'<c:spPr><a:pattFill prst="{pattern}"><a:fgClr><a:srgbClr val="{colour}"/></a:fgClr>'
        f'<a:bgClr><a:srgbClr val="FFFFFF"/></a:bgClr></a:pattFill><a:ln w="6350"><a:solidFill>'
        f'<a:srgbClr val="{colour}"/></a:solidFill></a:ln></c:spPr>'
    )


NOTHING = "<c:spPr><a:noFill/><a:ln><a:noFill/></a:ln></c:spPr>"


def _values(values: Sequence[Decimal | None]) -> str:
    points = "".join(
        f'<c:pt idx="{n}"><c:v>{value:f}</c:v></c:pt>' for n, value in enumerate(values) if value is not None
    )
    counted = f'<c:ptCount val="{len(values)}"/>'
    return f"<c:val><c:numLit><c:formatCode>General</c:formatCode>{counted}{points}</c:numLit></c:val>"


def one_series(
    number: int,
    name: str,
    look: str,
    categories: str,
    values: Sequence[Decimal | None],
    *,
    printed: Sequence[str] = (),
    marker: str = "",
    bar: bool = True,
) -> str:
    """Return one series; `printed` are the labels of its points, `look` its fill."""
    inverted = '<c:invertIfNegative val="0"/>' if bar else ""
    smooth = "" if bar else '<c:smooth val="0"/>'
    called = f"<c:tx><c:v>{shown(name) or ' '}</c:v></c:tx>"
    return (
        f'<c:ser><c:idx val="{number}"/><c:order val="{number}"/>{called}{look}{inverted}'
        f"{marker}{_point_labels(printed)}{categories}{_values(values)}"
        f"{smooth}</c:ser>"
    )


_SHOW = (
    '<c:showLegendKey val="0"/><c:showVal val="{}"/><c:showCatName val="0"/><c:showSerName val="0"/>'
    '<c:showPercent val="0"/><c:showBubbleSize val="0"/>'
)


def _point_labels(printed: Sequence[str]) -> str:
    """Return labels that show each point's value exactly as the report prints it."""
    if not any(printed):
        return ""
    one = "".join(
        f'<c:dLbl><c:idx val="{n}"/><c:tx><c:rich><a:bodyPr/><a:p><a:pPr><a:defRPr sz="800"/></a:pPr><a:r>'
        f'<a:rPr lang="en-US" sz="800"><a:solidFill><a:srgbClr val="{TEXT}"/></a:solidFill>'
        f'<a:latin typeface="Arial"/></a:rPr><a:t>{shown(text)}</a:t></a:r></a:p></c:rich></c:tx>'
        f'<c:dLblPos val="inBase"/>{_SHOW.format(1)}</c:dLbl>'
        for n, text in enumerate(printed)
        if text
    )
    return f'<c:dLbls>{one}{text_size(800, TEXT)}<c:dLblPos val="inBase"/>{_SHOW.format(0)}</c:dLbls>'


def bar_chart(series: str, axes: tuple[int, int], gap: int) -> str:
    """Return stacked bars lying on their side; `gap` between rows in percent of a bar."""
    return (
        '<c:barChart><c:barDir val="bar"/><c:grouping val="stacked"/><c:varyColors val="0"/>'
        f'{series}<c:gapWidth val="{gap}"/><c:overlap val="100"/><c:axId val="{axes[0]}"/><c:axId val="{axes[1]}"/>'
        "</c:barChart>"
    )


_LINE_AXIS = f'<c:spPr><a:ln w="6350"><a:solidFill><a:srgbClr val="{QUIET}"/></a:solidFill></a:ln></c:spPr>'
_GRID = (
    '<c:majorGridlines><c:spPr><a:ln w="3175"><a:solidFill><a:srgbClr val="DDE1E7"/></a:solidFill></a:ln></c:spPr>'
    "</c:majorGridlines>"
)


def _axis_title(text: str) -> str:
    if not text:
        return ""
    return (
        '<c:title><c:tx><c:rich><a:bodyPr/><a:p><a:pPr><a:defRPr sz="800" b="0"/></a:pPr><a:r>'
        f'<a:rPr lang="en-US" sz="800" b="0"><a:solidFill><a:srgbClr val="{QUIET}"/></a:solidFill>'
        f'<a:latin typeface="Arial"/></a:rPr><a:t>{shown(text)}</a:t></a:r></a:p></c:rich></c:tx>'
        '<c:overlay val="0"/></c:title>'
    )


#: An axis that bears the second set of bars. Deleting it would take its bars away in LibreOffice.
_UNSEEN = "<c:spPr><a:ln><a:noFill/></a:ln></c:spPr>"


def category_axis(ident: int, crossing: int, *, hidden: bool = False, top_down: bool = True, place: str = "l") -> str:
    """Return the axis of the rows; a hidden one bears the second set of bars."""
    order = "maxMin" if top_down else "minMax"
    labels = f'<c:tickLblPos val="none"/>{_UNSEEN}' if hidden else f'<c:tickLblPos val="low"/>{_LINE_AXIS}'
    return (
        f'<c:catAx><c:axId val="{ident}"/><c:scaling><c:orientation val="{order}"/></c:scaling>'
        f'<c:delete val="0"/><c:axPos val="{place}"/><c:majorTickMark val="none"/>'
        f'<c:minorTickMark val="none"/>{labels}{text_size(800, TEXT)}'
        f'<c:crossAx val="{crossing}"/><c:crosses val="autoZero"/><c:auto val="0"/><c:lblAlgn val="ctr"/>'
        '<c:lblOffset val="100"/><c:noMultiLvlLbl val="1"/></c:catAx>'
    )


def grouped(mark: str) -> str:
    """Return the number format of a scale with `mark` between groups of three digits.

    Where the format has the usual comma, a program puts the mark of its own language, not of the report's.
    """
    sign = "\\" + mark if mark else ""
    return f"[>=1000000]0{sign}000{sign}000;[>=1000]0{sign}000;0"


def value_axis(
    ident: int,
    crossing: int,
    *,
    low: Decimal | None,
    high: Decimal | None,
    step: Decimal | None = None,
    form: str = "0",
    title: str = "",
    hidden: bool = False,
    place: str = "b",
    crosses: str = "max",
) -> str:
    """Return the axis of the values, from `low` to `high` in steps of `step`."""
    unit = "" if step is None else f'<c:majorUnit val="{step:f}"/>'
    if hidden:
        look = f'<c:majorTickMark val="none"/><c:minorTickMark val="none"/><c:tickLblPos val="none"/>{_UNSEEN}'
    else:
        look = f'<c:majorTickMark val="out"/><c:minorTickMark val="none"/><c:tickLblPos val="nextTo"/>{_LINE_AXIS}'
    ends = "" if high is None else f'<c:max val="{high:f}"/>'
    ends += "" if low is None else f'<c:min val="{low:f}"/>'
    return (
        f'<c:valAx><c:axId val="{ident}"/><c:scaling><c:orientation val="minMax"/>{ends}</c:scaling>'
        f'<c:delete val="0"/><c:axPos val="{place}"/>{"" if hidden else _GRID}{_axis_title(title)}'
        f'<c:numFmt formatCode="{escape(form)}" sourceLinked="0"/>{look}{text_size(800)}<c:crossAx val="{crossing}"/>'
        f'<c:crosses val="{crosses}"/><c:crossBetween val="between"/>'
        f"{unit}</c:valAx>"
    )


def chart_space(plot: str, *, legend: bool = True, layout: str = "<c:layout/>") -> str:
    """Return the whole part. A series without a name has no colour either, so its place in the legend stays blank."""
    names = f'<c:legend><c:legendPos val="t"/><c:overlay val="0"/>{text_size(800)}</c:legend>' if legend else ""
    return (
        f'{XML_HEAD}<c:chartSpace {_SPACES}><c:date1904 val="0"/><c:roundedCorners val="0"/><c:chart>'
        f'<c:autoTitleDeleted val="1"/><c:plotArea>{layout}{plot}</c:plotArea>{names}'
        f'<c:plotVisOnly val="1"/><c:dispBlanksAs val="gap"/></c:chart>{NOTHING}'
        f"{text_size(800)}</c:chartSpace>"
    )
