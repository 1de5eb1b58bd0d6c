"""Native charts as text: literal data, no workbook inside, so a chart costs next to nothing and stays a drawing.

Price and time charts are bars lying on their side, one per comparison or statement. A range or a window that runs
across all of them is a second set of bars without gaps on the secondary axis, half transparent. Colours come with a
pattern or a shape, so that the charts can be read in grey.
"""

import textwrap
from collections.abc import Sequence
from decimal import Decimal

from appraise.model.frozen import frozen
from appraise.report.engine.chart_xml import (
    NOTHING,
    QUIET,
    bar_chart,
    category_axis,
    chart_space,
    edged,
    grouped,
    hatched,
    one_series,
    shown,
    solid,
    value_axis,
)
from appraise.report.engine.views import HistoryChart, PriceChart, TimeBar, TimeChart

_MAIN, _LIGHT, _BAND = "5B7596", "D3DDE9", "B8862B"
_LINES = ("8C5A2B", "1F2A44", "2E6B4F", "6B3F7A")
_SERIES = (("1F2A44", "circle"), ("8C5A2B", "square"), ("2E6B4F", "triangle"), ("6B3F7A", "diamond"))
_ZERO = Decimal(0)


#: Measures of a chart of rows [mm]: its width, the column of labels, and what stands above and below the rows.
_WIDTH = Decimal(160)
_ROW = Decimal("6.5")
#: Mean width of a sign of a label, rather too wide than too narrow [mm].
_SIGN = Decimal("1.6")
#: LibreOffice draws no chart lower than this and squeezes the drawing into less (seen with version 7.4).
_LOWEST, _TALLEST = Decimal(70), Decimal(200)


@frozen
class _Frame:
    """Where the rows of a chart lie [mm].

    labels        width of the column of labels
    above, below  room for the legend, and for the scale and what it counts
    """

    labels: Decimal
    above: Decimal
    below: Decimal

    def height(self, rows: int) -> Decimal:
        """Height of the whole chart; a few rows share the lowest one."""
        return max(_LOWEST, min(self.above + _ROW * rows + self.below, _TALLEST))

    def label(self, text: str) -> str:
        """The label on lines that fit its column; programs break labels each in its own way, or cut them."""
        return "\n".join(textwrap.wrap(text, int(self.labels / _SIGN), break_on_hyphens=False))

    def layout(self, rows: int) -> str:
        """The place of the rows as shares of the whole, so that every program draws them alike."""
        height = self.height(rows)
        shares = (
            self.labels / _WIDTH,
            self.above / height,
            (_WIDTH - self.labels - 5) / _WIDTH,
            (height - self.above - self.below) / height,
        )
        x, y, w, h = (f"{share:.4f}" for share in shares)
        return (
            '<c:layout><c:manualLayout><c:layoutTarget val="inner"/><c:xMode val="edge"/><c:yMode val="edge"/>'
            f'<c:x val="{x}"/><c:y val="{y}"/><c:w val="{w}"/><c:h val="{h}"/></c:manualLayout></c:layout>'
        )


_PRICES = _Frame(Decimal(46), Decimal(3), Decimal(14))
_TIMES = _Frame(Decimal(66), Decimal(14), Decimal(8))


def natural_height(chart: PriceChart | TimeChart | HistoryChart) -> int:
    """Return the height [mm] a chart needs for its rows."""
    if isinstance(chart, HistoryChart):
        return 65
    height = (_PRICES if isinstance(chart, PriceChart) else _TIMES).height(_rows(chart))
    return int(height.to_integral_value("ROUND_CEILING"))


def _rows(chart: PriceChart | TimeChart) -> int:
    if isinstance(chart, PriceChart):
        return len(chart.labels) + len(chart.lines) + (chart.low is not None and chart.high is not None)
    return len(chart.bars) + (chart.window is not None)


def chart_part(chart: PriceChart | TimeChart | HistoryChart) -> str:
    """Return the chart part of a price, time or history chart."""
    if isinstance(chart, PriceChart):
        return _price(chart)
    if isinstance(chart, TimeChart):
        return _time(chart)
    return _history(chart)


def _categories(labels: Sequence[str], frame: _Frame | None = None) -> str:
    """Return the labels of the rows; `frame` breaks them into lines."""
    lines = [shown(text) if frame is None else "\n".join(map(shown, frame.label(text).split("\n"))) for text in labels]
    points = "".join(f'<c:pt idx="{n}"><c:v>{text}</c:v></c:pt>' for n, text in enumerate(lines))
    return f'<c:cat><c:strLit><c:ptCount val="{len(labels)}"/>{points}</c:strLit></c:cat>'


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
    labels = [*chart.labels, *(line.label for line in chart.lines)]
    if chart.low is not None and chart.high is not None:
        labels.append(chart.words[1])
    categories, count = _categories(labels, _PRICES), len(labels)
    rows = _own_row(0, chart.words[0], edged(_LIGHT, _MAIN), categories, count, 0, chart.values, chart.printed)
    for n, line in enumerate(chart.lines):
        colour = _LINES[n % len(_LINES)]
        rows += _own_row(
            n + 1,
            line.label,
            edged(_LIGHT, colour) if line.printed else solid(colour),
            categories,
            count,
            len(chart.labels) + n,
            (line.value,),
            (line.printed,),
        )
    pieces = "".join(
        one_series(number, name, look, categories, [width] * count)
        for number, (name, look, width) in enumerate(_across(chart, high / 300), len(chart.lines) + 1)
    )
    axes = category_axis(1, 2) + value_axis(
        2, 1, low=_ZERO, high=high, step=step, form=grouped(chart.group), title=chart.axis
    )
    if pieces:
        pieces = bar_chart(pieces, (3, 4), 0)
        axes += _second_axes(_ZERO, high)
    return chart_space(f"{bar_chart(rows, (1, 2), 40)}{pieces}{axes}", legend=False, layout=_PRICES.layout(count))


def _own_row(
    number: int,
    name: str,
    look: str,
    categories: str,
    count: int,
    start: int,
    values: Sequence[Decimal],
    printed: Sequence[str],
) -> str:
    """Return a series that has values in its own rows only."""
    after = count - start - len(values)
    padded = [*[None] * start, *values, *[None] * after]
    return one_series(number, name, look, categories, padded, printed=[*[""] * start, *printed, *[""] * after])


def _second_axes(low: Decimal, high: Decimal) -> str:
    return category_axis(3, 4, hidden=True, place="r") + value_axis(
        4, 3, low=low, high=high, hidden=True, place="t", crosses="autoZero"
    )


def _across(chart: PriceChart, thin: Decimal) -> list[tuple[str, str, Decimal]]:
    """Return what runs across all rows, from left to right: name in the legend, look, width.

    The pieces are stacked, so the band of the range is cut wherever a line crosses it; it is named once.
    """
    made: list[tuple[str, str, Decimal]] = []
    position = _ZERO

    def fill(end: Decimal, look: str, name: str) -> None:
        nonlocal position
        if end > position:
            made.append((name, look, end - position))
            position = end

    def band_to(end: Decimal) -> None:
        if chart.low is not None and chart.high is not None:
            fill(min(end, chart.low), NOTHING, "")
            named = any(name == chart.words[1] for name, _, _ in made)
            fill(min(end, chart.high), solid(_BAND, 35), "" if named else chart.words[1])
        fill(end, NOTHING, "")

    for value, n, label in sorted((line.value, n, line.label) for n, line in enumerate(chart.lines)):
        band_to(value - thin / 2)
        fill(value + thin / 2, solid(_LINES[n % len(_LINES)]), label)
    if chart.high is not None:
        band_to(max(chart.high, position))
    return made


def _year(month: int | Decimal) -> Decimal:
    return Decimal(month) / 12


def _time(chart: TimeChart) -> str:
    """Return the time chart: a row per statement, the window as the last row and as a band across all."""
    low, high = _span(chart)
    labels = [bar.label for bar in chart.bars]
    rows = [_pieces(bar, low, high) for bar in chart.bars]
    if chart.window is not None:
        first, last = _year(chart.window[0]), _year(chart.window[1] + 1)
        labels.append(chart.words[4])
        rows.append((first, _ZERO, _ZERO, _ZERO, _ZERO))
    looks = (
        ("", NOTHING),
        (chart.words[2], hatched(_MAIN, "wdDnDiag")),
        (chart.words[0], solid(_MAIN)),
        (chart.words[1], hatched(QUIET, "ltUpDiag")),
        (chart.words[3], hatched(_MAIN, "wdUpDiag")),
    )
    categories, count = _categories(labels, _TIMES), len(labels)
    kept = [n for n in range(len(looks)) if n == 0 or any(row[n] for row in rows)]
    bars = "".join(one_series(n, *looks[n], categories, [row[n] for row in rows]) for n in kept)
    step = max(nice_step(high - low, 10), Decimal(1))
    axes = category_axis(1, 2) + value_axis(2, 1, low=low, high=high, step=step)
    layout = _TIMES.layout(count)
    if chart.window is None:
        return chart_space(f"{bar_chart(bars, (1, 2), 45)}{axes}", layout=layout)
    shade = one_series(len(looks), "", NOTHING, categories, [first] * count)
    shade += one_series(len(looks) + 1, chart.words[4], solid(_BAND, 35), categories, [last - first] * count)
    return chart_space(
        f"{bar_chart(bars, (1, 2), 45)}{bar_chart(shade, (3, 4), 0)}{axes}{_second_axes(low, high)}", layout=layout
    )


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


def _pieces(bar: TimeBar, low: Decimal, high: Decimal) -> tuple[Decimal, ...]:
    """Return the lengths of a row from zero: nothing, open start, counts, set aside, open end."""
    fade = (high - low) / 40
    start = low if bar.first is None else _year(bar.first)
    end = high if bar.last is None else _year(bar.last + 1)
    left = min(fade, end - start) if bar.first is None else _ZERO
    right = min(fade, end - start - left) if bar.last is None else _ZERO
    length = end - start - left - right
    return start, left, _ZERO if bar.dropped else length, length if bar.dropped else _ZERO, right


def _history(chart: HistoryChart) -> str:
    lines, categories = "", _categories(chart.years)
    for n, series in enumerate(chart.series):
        colour, shape = _SERIES[n % len(_SERIES)]
        dash = "" if n < len(_SERIES) else '<a:prstDash val="dash"/>'
        look = f'<c:spPr><a:ln w="19050"><a:solidFill><a:srgbClr val="{colour}"/></a:solidFill>{dash}</a:ln></c:spPr>'
        marker = f'<c:marker><c:symbol val="{shape}"/><c:size val="6"/>{solid(colour)}</c:marker>'
        lines += one_series(n, series.label, look, categories, series.values, marker=marker, bar=False)
    plot = (
        f'<c:lineChart><c:grouping val="standard"/><c:varyColors val="0"/>{lines}<c:marker val="1"/>'
        '<c:axId val="1"/><c:axId val="2"/></c:lineChart>'
    )
    axes = category_axis(1, 2, top_down=False, place="b") + value_axis(
        2, 1, low=_ZERO, high=None, form=grouped(chart.group), title=chart.axis, place="l", crosses="autoZero"
    )
    return chart_space(plot + axes)
