"""Charts: literal data, the right rows, names escaped, and a description on the drawing."""

from dataclasses import replace
from decimal import Decimal

import pytest
from lxml import etree
from support.report_samples import HISTORY, PRICE, TIME, month

from appraise.report.engine import drawing
from appraise.report.engine.charts import chart_part, natural_height, nice_step
from appraise.report.engine.names import C
from appraise.report.engine.views import Chart, HistoryChart, PriceChart, Series, TimeBar, TimeChart


def series(chart: Chart) -> list[tuple[str, list[str | None]]]:
    """Return each series' name and values; None where a row has none."""
    root = etree.fromstring(chart_part(chart).encode())
    found = []
    for one in root.iter(f"{C}ser"):
        count = int(one.find(f"{C}val/{C}numLit/{C}ptCount").get("val"))
        values: list[str | None] = [None] * count
        for point in one.iter(f"{C}pt"):
            if point.getparent().tag == f"{C}numLit":
                values[int(point.get("idx"))] = point.findtext(f"{C}v")
        found.append((one.findtext(f"{C}tx/{C}v"), values))
    return found


def labels(chart: Chart) -> list[str]:
    root = etree.fromstring(chart_part(chart).encode())
    first = next(root.iter(f"{C}cat"))
    return [one.text for one in first.iter(f"{C}v")]


def test_a_price_chart_has_a_row_for_each_comparison_line_and_the_range() -> None:
    assert labels(PRICE) == ["S01, March 2024", "S02, June 2024", "S03, November 2024", "Mean", "Opinion", "Range"]
    rows = dict(series(PRICE)[:3])
    assert rows["Adjusted price"] == ["9180.00", "9671.25", "10450.00", None, None, None]
    assert rows["Mean"][3] == "9767.08"
    assert rows["Opinion"][4] == "9800"


def test_the_band_runs_from_low_to_high_and_is_cut_by_the_lines() -> None:
    across = series(PRICE)[3:]
    ends, position = [], Decimal(0)
    for name, values in across:
        assert len(set(values)) == 1  # the same in every row
        position += Decimal(values[0] or 0)
        ends.append((name, position))
    assert ends[0] == (" ", Decimal("9180.00"))
    assert ends[-1][1] == Decimal("10450.00")
    named = [name for name, _ in ends if name.strip()]
    assert named == ["Range", "Mean", "Opinion"]


def test_the_printed_value_is_the_label() -> None:
    text = chart_part(PRICE)
    assert "9,671.25" in text and "9,767.08" in text


def test_one_comparison_and_no_range_make_a_chart() -> None:
    chart = PriceChart("one", ("S01",), (Decimal(5),), ("5.00",))
    assert series(chart) == [("Adjusted price", ["5"])]


def test_a_time_chart_draws_each_statement_from_its_first_to_its_last_month() -> None:
    rows = dict(series(TIME))
    assert labels(TIME)[-1] == "window"
    # The serial list bounds January 1937 to December 1938: two years from 1937.
    assert rows["counts"][0] == "2"
    offsets = series(TIME)[0][1]
    assert offsets[0] == "1937"
    assert rows["set aside"][3] not in (None, "0")
    assert rows["counts"][3] == "0"
    assert rows["no first date"][2] not in (None, "0") and rows["no first date"][0] == "0"
    assert rows["no last date"][3] not in (None, "0")
    assert set(rows["window"]) == {"2"}


def test_evidence_in_conflict_has_no_window_row() -> None:
    chart = TimeChart("conflict", (TimeBar("a", month(1930), month(1931)), TimeBar("b", month(1940), None)), None)
    assert labels(chart) == ["a", "b"]
    assert "window" not in dict(series(chart))


def test_a_time_chart_without_any_date_is_still_a_chart() -> None:
    assert series(TimeChart("none", (TimeBar("a", None, None),), None))


def test_a_history_chart_leaves_gaps_where_a_year_has_no_value() -> None:
    assert dict(series(HISTORY))["Banjos"] == ["18000", None, "17500", "17900"]
    many = HistoryChart("m", ("2024",), tuple(Series(f"F{n}", (Decimal(n),)) for n in range(9)))
    assert len(series(many)) == 9


def test_labels_are_escaped_and_cleaned() -> None:
    chart = PriceChart("a", ("S & <1>\x00\n2",), (Decimal(1),), ("1",), axis="<US>")
    assert labels(chart) == ["S & <1> 2"]


@pytest.mark.parametrize(
    ("span", "pieces", "step"), [("10450", 6, "2000"), ("9", 10, "1"), ("11", 10, "2"), ("0", 6, "1"), ("61", 6, "20")]
)
def test_steps_are_one_two_or_five_times_a_power_of_ten(span: str, pieces: int, step: str) -> None:
    assert nice_step(Decimal(span), pieces) == Decimal(step)


def prices(count: int) -> PriceChart:
    return PriceChart("many", tuple(map(str, range(count))), (Decimal(5),) * count, ("5.00",) * count)


def test_height_follows_the_rows_between_the_lowest_and_the_tallest() -> None:
    assert natural_height(prices(20)) == 3 + 130 + 14  # 6.5 mm a row
    assert natural_height(prices(3)) == natural_height(TIME) == 70
    assert natural_height(prices(99)) == 200


@pytest.mark.parametrize("chart", [PRICE, TIME, prices(20)])
def test_rows_lie_where_the_chart_says_with_room_for_labels_and_scale(chart: PriceChart | TimeChart) -> None:
    root = etree.fromstring(chart_part(chart).encode())
    (layout,) = root.iter(f"{C}manualLayout")
    x, y, w, h = (Decimal(layout.find(f"{C}{side}").get("val")) for side in "xywh")
    assert x >= Decimal("0.25") and x + w < 1  # labels of two or three words fit beside the rows
    assert y * natural_height(chart) >= Decimal("2.9")
    assert (1 - y - h) * natural_height(chart) >= Decimal("7.9")


def test_long_labels_are_broken_into_lines_that_fit() -> None:
    long = "Bridge plate: number 1284; the numbers 0900 to 1650 belong to 1958 to 1960"
    (label,) = labels(TimeChart("a", (TimeBar(long, 1, 2),), None))
    assert label.replace("\n", " ") == long
    assert [len(line) <= 41 for line in label.split("\n")] == [True, True]


def test_no_label_may_be_left_out() -> None:
    """LibreOffice leaves out every second label unless the turn of the text is said to be none."""
    root = etree.fromstring(chart_part(PRICE).encode())
    axis = next(root.iter(f"{C}catAx"))
    assert [one.get("rot") for one in axis.iter("{http://schemas.openxmlformats.org/drawingml/2006/main}bodyPr")] == [
        "0"
    ]


def test_a_drawing_without_a_description_is_our_own_mistake() -> None:
    with pytest.raises(ValueError, match="who cannot see it"):
        drawing.chart("rId1", 1, (1, 1), "  ")


def test_pictures_keep_their_proportion_in_their_box() -> None:
    assert drawing.fitted(4000, 3000, width_mm=80, height_mm=80) == (80 * 36000, 60 * 36000)
    assert drawing.fitted(3000, 4000, width_mm=80, height_mm=80) == (60 * 36000, 80 * 36000)


@pytest.mark.parametrize("mark", [",", ".", "\N{NARROW NO-BREAK SPACE}"])
def test_scales_have_the_marks_of_the_reports_language_and_not_the_machines(mark: str) -> None:
    part = chart_part(replace(PRICE, group=mark))
    assert f"[&gt;=1000]0\\{mark}000;0" in part
    assert "#,##0" not in part
