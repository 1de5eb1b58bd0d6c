"""Native charts as text: literal data, no workbook inside, so a chart costs next to nothing and stays a drawing.

Price and time charts are bars lying on their side, one per comparison or statement. A range or a window that runs
across all of them is a second set of bars without gaps on the secondary axis, half transparent. Colours come with a
pattern or a shape, so that the charts can be read in grey.
"""

from collections.abc import Callable, Sequence
from decimal import Decimal
from xml.sax.saxutils import escape

from appraise.report.engine.environment import clean
from appraise.report.engine.names import XML_HEAD
from appraise.report.engine.views import HistoryChart, PriceChart, TimeBar, TimeChart

_INK, _MAIN, _BAND, _LINE, _QUIET = "1F2A44", "5B7596", "B8862B", "8A1C1C", "55595F"
_LINES = ("8A1C1C", "1F2A44", "2E6B4F", "6B3F7A")
_SERIES = (("1F2A44", "circle"), ("8A1C1C", "square"), ("2E6B4F", "triangle"), ("8A6312", "diamond"))
_SPACES = (
    'xmlns:c="http://schemas.openxmlformats.org/drawingml/2006/chart" '
    'xmlns:a="http://schemas.openxmlformats.org/drawingml/2006/main" '
    'xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"'
)


def natural_height(chart: PriceChart | TimeChart | HistoryChart) -> int:
    """Return the height [mm] a chart needs for its rows."""
    if isinstance(chart, HistoryChart):
        return 65
    rows = len(chart.labels) if isinstance(chart, PriceChart) else len(chart.bars)
    return min(26 + 8 * max(rows, 1), 200)


def chart_part(chart: PriceChart | TimeChart | HistoryChart) -> str:
    """Return the chart part of a price, time or history chart."""
    if isinstance(chart, PriceChart):
        return _price(chart)
    if isinstance(chart, TimeChart):
        return _time(chart)
    return _history(chart)


def _text_size(hundredths: int, colour: str = _QUIET, bold: int = 0) -> str:
    return (
        f'<c:txPr><a:bodyPr/><a:p><a:pPr><a:defRPr sz="{hundredths}" b="{bold}"><a:solidFill>'
        f'<a:srgbClr val="{colour}"/></a:solidFill><a:latin typeface="Arial"/></a:defRPr></a:pPr>'
        '<a:endParaRPr lang="en-US"/></a:p></c:txPr>'
    )


def _shown(text: str) -> str:
    return escape(" ".join(clean(text).split()))


def _solid(colour: str, opaque: int = 100) -> str:
    alpha = f'<a:alpha val="{opaque * 1000}"/>' if opaque < 100 else ""
    return (
        f'<c:spPr><a:solidFill><a:srgbClr val="{colour}">{alpha}</a:srgbClr></a:solidFill>'
        "<a:ln><a:noFill/></a:ln></c:spPr>"
    )


def _hatched(colour: str, pattern: str) -> str:
    return (
        f'<c:spPr><a:pattFill prst="{pattern}"><a:fgClr><a:srgbClr val="{colour}"/></a:fgClr>'
        f'<a:bgClr><a:srgbClr val="FFFFFF"/></a:bgClr></a:pattFill><a:ln w="6350"><a:solidFill>'
        f'<a:srgbClr val="{colour}"/></a:solidFill></a:ln></c:spPr>'
    )


_NOTHING = "<c:spPr><a:noFill/><a:ln><a:noFill/></a:ln></c:spPr>"


def _categories(labels: Sequence[str]) -> str:
    points = "".join(f'<c:pt idx="{n}"><c:v>{_shown(text)}</c:v></c:pt>' for n, text in enumerate(labels))
    return f'<c:cat><c:strLit><c:ptCount val="{len(labels)}"/>{points}</c:strLit></c:cat>'


def _values(values: Sequence[Decimal | None]) -> str:
    points = "".join(
        f'<c:pt idx="{n}"><c:v>{value:f}</c:v></c:pt>' for n, value in enumerate(values) if value is not None
    )
    counted = f'<c:ptCount val="{len(values)}"/>'
    return f"<c:val><c:numLit><c:formatCode>General</c:formatCode>{counted}{points}</c:numLit></c:val>"


def _series(
    number: int,
    name: str,
    look: str,
    labels: Sequence[str],
    values: Sequence[Decimal | None],
    *,
    printed: Sequence[str] = (),
    marker: str = "",
    bar: bool = True,
) -> str:
    inverted = '<c:invertIfNegative val="0"/>' if bar else ""
    smooth = "" if bar else '<c:smooth val="0"/>'
    return (
        f'<c:ser><c:idx val="{number}"/><c:order val="{number}"/><c:tx><c:v>{_shown(name)}</c:v></c:tx>{look}{inverted}'
        f"{marker}{_point_labels(printed)}{_categories(labels)}{_values(values)}"
        f"{smooth}</c:ser>"
    )


_SHOW = (
    '<c:showLegendKey val="0"/><c:showVal val="{}"/><c:showCatName val="0"/><c:showSerName val="0"/>'
    '<c:showPercent val="0"/><c:showBubbleSize val="0"/>'
)


def _point_labels(printed: Sequence[str]) -> str:
    """Return labels that show each point's value exactly as the report prints it."""
    if not printed:
        return ""
    one = "".join(
        f'<c:dLbl><c:idx val="{n}"/><c:tx><c:rich><a:bodyPr/><a:p><a:pPr><a:defRPr sz="800"/></a:pPr><a:r>'
        f'<a:rPr lang="en-US" sz="800"><a:solidFill><a:srgbClr val="FFFFFF"/></a:solidFill>'
        f'<a:latin typeface="Arial"/></a:rPr><a:t>{_shown(text)}</a:t></a:r></a:p></c:rich></c:tx>'
        f'<c:dLblPos val="inEnd"/>{_SHOW.format(1)}</c:dLbl>'
        for n, text in enumerate(printed)
    )
    return f'<c:dLbls>{one}{_text_size(800, "FFFFFF")}<c:dLblPos val="inEnd"/>{_SHOW.format(1)}</c:dLbls>'


def _bars(series: str, axes: tuple[int, int], gap: int) -> str:
    return (
        '<c:barChart><c:barDir val="bar"/><c:grouping val="stacked"/><c:varyColors val="0"/>'
        f'{series}<c:gapWidth val="{gap}"/><c:overlap val="100"/><c:axId val="{axes[0]}"/><c:axId val="{axes[1]}"/>'
        "</c:barChart>"
    )


_LINE_AXIS = f'<c:spPr><a:ln w="6350"><a:solidFill><a:srgbClr val="{_QUIET}"/></a:solidFill></a:ln></c:spPr>'
_GRID = (
    '<c:majorGridlines><c:spPr><a:ln w="3175"><a:solidFill><a:srgbClr val="DDE1E7"/></a:solidFill></a:ln></c:spPr>'
    "</c:majorGridlines>"
)


def _axis_title(text: str) -> str:
    if not text:
        return ""
    return (
        '<c:title><c:tx><c:rich><a:bodyPr/><a:p><a:pPr><a:defRPr sz="800" b="0"/></a:pPr><a:r>'
        f'<a:rPr lang="en-US" sz="800" b="0"><a:solidFill><a:srgbClr val="{_QUIET}"/></a:solidFill>'
        f'<a:latin typeface="Arial"/></a:rPr><a:t>{_shown(text)}</a:t></a:r></a:p></c:rich></c:tx>'
        '<c:overlay val="0"/></c:title>'
    )


def _category_axis(ident: int, crossing: int, *, hidden: bool = False, top_down: bool = True, place: str = "l") -> str:
    order = "maxMin" if top_down else "minMax"
    return (
        f'<c:catAx><c:axId val="{ident}"/><c:scaling><c:orientation val="{order}"/></c:scaling>'
        f'<c:delete val="{int(hidden)}"/><c:axPos val="{place}"/><c:majorTickMark val="none"/>'
        f'<c:minorTickMark val="none"/><c:tickLblPos val="low"/>{_LINE_AXIS}{_text_size(850, "1A1A1A")}'
        f'<c:crossAx val="{crossing}"/><c:crosses val="autoZero"/><c:auto val="0"/><c:lblAlgn val="ctr"/>'
        '<c:lblOffset val="100"/><c:noMultiLvlLbl val="1"/></c:catAx>'
    )


def _value_axis(
    ident: int,
    crossing: int,
    *,
    low: Decimal | None,
    high: Decimal | None,
    step: Decimal | None = None,
    form: str = "#,##0",
    title: str = "",
    hidden: bool = False,
    place: str = "b",
    crosses: str = "max",
) -> str:
    unit = "" if step is None else f'<c:majorUnit val="{step:f}"/>'
    ends = "" if high is None else f'<c:max val="{high:f}"/>'
    ends += "" if low is None else f'<c:min val="{low:f}"/>'
    return (
        f'<c:valAx><c:axId val="{ident}"/><c:scaling><c:orientation val="minMax"/>{ends}</c:scaling>'
        f'<c:delete val="{int(hidden)}"/><c:axPos val="{place}"/>{"" if hidden else _GRID}{_axis_title(title)}'
        f'<c:numFmt formatCode="{form}" sourceLinked="0"/><c:majorTickMark val="out"/><c:minorTickMark val="none"/>'
        f'<c:tickLblPos val="nextTo"/>{_LINE_AXIS}{_text_size(800)}<c:crossAx val="{crossing}"/>'
        f'<c:crosses val="{crosses}"/><c:crossBetween val="between"/>'
        f"{unit}</c:valAx>"
    )


def _space(plot: str, *, silent: Sequence[int] = ()) -> str:
    """Return the whole part; `silent` are the entries the legend leaves out."""
    gone = "".join(f'<c:legendEntry><c:idx val="{n}"/><c:delete val="1"/></c:legendEntry>' for n in silent)
    return (
        f'{XML_HEAD}<c:chartSpace {_SPACES}><c:date1904 val="0"/><c:roundedCorners val="0"/><c:chart>'
        f'<c:autoTitleDeleted val="1"/><c:plotArea><c:layout/>{plot}</c:plotArea><c:legend><c:legendPos val="t"/>{gone}'
        f'<c:overlay val="0"/>{_text_size(800)}</c:legend><c:plotVisOnly val="1"/><c:dispBlanksAs val="gap"/></c:chart>'
        '<c:spPr><a:solidFill><a:srgbClr val="FFFFFF"/></a:solidFill><a:ln><a:noFill/></a:ln></c:spPr>'
        f"{_text_size(800)}</c:chartSpace>"
    )


def nice_step(span: Decimal, pieces: int = 6) -> Decimal:
    """Return the smallest of 1, 2, 5 times a power of ten that divides a span into at most so many pieces."""
    step = Decimal(1).scaleb((span / pieces).adjusted()) if span > 0 else Decimal(1)
    while True:
        for factor in (1, 2, 5):
            if span <= step * factor * pieces:
                return step * factor
        step *= 10


def _price(chart: PriceChart) -> str:
    everything = [*chart.values, *(line.value for line in chart.lines)]
    everything += [end for end in (chart.low, chart.high) if end is not None]
    top = max([*everything, Decimal(1)])
    step = nice_step(top)
    high = (top / step).to_integral_value("ROUND_CEILING") * step
    if high - top < step / 10:
        high += step
    bars = _bars(
        _series(0, chart.words[0], _solid(_MAIN), chart.labels, chart.values, printed=chart.printed), (1, 2), 60
    )
    across = _across(chart, high)
    second = _bars("".join(across[0]), (3, 4), 0) if across[0] else ""
    axes = _category_axis(1, 2) + _value_axis(2, 1, low=Decimal(0), high=high, step=step, title=chart.axis)
    if second:
        axes += _category_axis(3, 4, hidden=True, place="r")
        axes += _value_axis(4, 3, low=Decimal(0), high=high, hidden=True, place="t", crosses="autoZero")
    return _space(f"{bars}{second}{axes}", silent=across[1])


def _across(chart: PriceChart, high: Decimal) -> tuple[list[str], list[int]]:
    """Return the series that run across all rows, cut into pieces from left to right, and those without a name.

    Pieces are stacked, so the band is split wherever a line crosses it.
    """
    thin = high / 250
    marks = sorted((line.value - thin / 2, n, line.label) for n, line in enumerate(chart.lines))
    edges: list[tuple[Decimal, Decimal, str, str]] = []
    for start, n, label in marks:
        edges.append((start, start + thin, _solid(_LINES[n % len(_LINES)]), label))
    made: list[str] = []
    silent: list[int] = []
    band_named = False
    position = Decimal(0)

    def add(end: Decimal, look: str, name: str) -> None:
        nonlocal position
        if end <= position:
            return
        number = len(made) + 1
        if not name:
            silent.append(number)
        made.append(_series(number, name or "-", look, chart.labels, [end - position] * len(chart.labels)))
        position = end

    def plain_to(end: Decimal) -> None:
        nonlocal band_named
        if chart.low is not None and chart.high is not None:
            add(min(end, chart.low), _NOTHING, "")
            if position < min(end, chart.high):
                add(min(end, chart.high), _solid(_BAND, 35), "" if band_named else chart.words[1])
                band_named = True
        add(end, _NOTHING, "")

    for start, end, look, label in edges:
        plain_to(start)
        add(end, look, label)
    if chart.high is not None:
        plain_to(max(chart.high, position))
    return made, silent


def _year(month: int | Decimal) -> Decimal:
    return Decimal(month) / 12


def _time(chart: TimeChart) -> str:
    low, high = _span(chart)
    labels = [bar.label for bar in chart.bars]
    fade = (high - low) / 40
    rows = [_pieces(bar, low, high, fade) for bar in chart.bars]
    pick: Callable[[int], list[Decimal]] = lambda which: [row[which] for row in rows]  # noqa: E731
    looks = (
        ("-", _NOTHING),
        (chart.words[2], _hatched(_MAIN, "wdDnDiag")),
        (chart.words[0], _solid(_MAIN)),
        (chart.words[1], _hatched(_QUIET, "ltUpDiag")),
        ("-", _hatched(_MAIN, "wdDnDiag")),
    )
    used = [n for n in range(5) if n in (0, 2) or any(pick(n))]
    silent = [0, *([4] if 4 in used and 1 in used else [])]
    names = {4: chart.words[2] if 1 not in used else "-"}
    bars = _bars("".join(_series(n, names.get(n, looks[n][0]), looks[n][1], labels, pick(n)) for n in used), (1, 2), 55)
    silent = [position for position, n in enumerate(used) if n in silent]
    axes = _category_axis(1, 2) + _value_axis(
        2, 1, low=low, high=high, step=max(nice_step(high - low, 10), Decimal(1)), form="0"
    )
    second = ""
    if chart.window is not None:
        first, last = _year(chart.window[0]), _year(chart.window[1] + 1)
        shade = _series(5, "-", _NOTHING, labels, [first] * len(labels))
        shade += _series(6, chart.words[3], _solid(_BAND, 35), labels, [last - first] * len(labels))
        second = _bars(shade, (3, 4), 0)
        silent.append(len(used))
        axes += _category_axis(3, 4, hidden=True, place="r")
        axes += _value_axis(4, 3, low=low, high=high, hidden=True, place="t", crosses="autoZero")
    return _space(f"{bars}{second}{axes}", silent=silent)


def _span(chart: TimeChart) -> tuple[Decimal, Decimal]:
    """Return the first and the last year of the scale: all dated ends, with room for the open ones."""
    ends = [bar.first for bar in chart.bars if bar.first is not None]
    ends += [bar.last + 1 for bar in chart.bars if bar.last is not None]
    ends += [chart.window[0], chart.window[1] + 1] if chart.window else []
    if not ends:
        return Decimal(1900), Decimal(1910)
    low, high = min(ends) // 12, -(-max(ends) // 12)
    room = max((high - low) // 8, 1)
    return Decimal(low - room), Decimal(high + room)


def _pieces(bar: TimeBar, low: Decimal, high: Decimal, fade: Decimal) -> tuple[Decimal, ...]:
    """Return the lengths of a row from zero: nothing, open end, kept, set aside, open end."""
    start = low if bar.first is None else _year(bar.first)
    end = high if bar.last is None else _year(bar.last + 1)
    left = min(fade, end - start) if bar.first is None else Decimal(0)
    right = min(fade, end - start - left) if bar.last is None else Decimal(0)
    length = end - start - left - right
    if bar.dropped:
        return start, Decimal(0), Decimal(0), end - start, Decimal(0)
    return start, left, length, Decimal(0), right


def _history(chart: HistoryChart) -> str:
    lines = ""
    for n, series in enumerate(chart.series):
        colour, shape = _SERIES[n % len(_SERIES)]
        dash = "" if n < len(_SERIES) else '<a:prstDash val="dash"/>'
        look = f'<c:spPr><a:ln w="19050"><a:solidFill><a:srgbClr val="{colour}"/></a:solidFill>{dash}</a:ln></c:spPr>'
        marker = f'<c:marker><c:symbol val="{shape}"/><c:size val="6"/>{_solid(colour)}</c:marker>'
        lines += _series(n, series.label, look, chart.years, series.values, marker=marker, bar=False)
    plot = (
        f'<c:lineChart><c:grouping val="standard"/><c:varyColors val="0"/>{lines}<c:marker val="1"/>'
        '<c:axId val="1"/><c:axId val="2"/></c:lineChart>'
    )
    axes = _category_axis(1, 2, top_down=False, place="b") + _value_axis(
        2, 1, low=Decimal(0), high=None, title=chart.axis, place="l", crosses="autoZero"
    )
    return _space(plot + axes)
