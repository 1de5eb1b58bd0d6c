"""The item section: window, originality, condition, cautions, grid, reconciliation, photographs."""

from dataclasses import replace
from decimal import Decimal

import pytest
from support.report_job import JOB, comparisons, conflicting_window, inputs, results, valuation

from appraise.dating.window import date_window
from appraise.model.missing import BLANK, UNKNOWN
from appraise.model.months import Months, Run, month_number
from appraise.records.vocabulary import Conclusion, Route
from appraise.report.compose.inputs import PreparedPhoto
from appraise.report.compose.item import grid
from appraise.report.compose.report import compose
from appraise.wording.texts import originals

NBSP = "\N{NO-BREAK SPACE}"


@pytest.fixture(scope="module")
def items():
    photos = {"G01": tuple(PreparedPhoto(name, b"x", name, 30, 40) for name in ("b.jpg", "a.jpg"))}
    return tuple(compose(inputs(photos=photos)).items)


def with_valuation(changed):
    first, second = results()
    replaced = replace(first, valuations=(changed, first.valuations[1]))
    return next(compose(replace(inputs(), results=lambda: (replaced, second))).items).opinions[0]


def test_the_window_in_words_with_its_edges(items):
    window = items[0].window
    assert window.sentence == "Completed 1937 to 1938: the evidence agrees."
    assert "serial number 2217 (label)" in window.reason
    assert window.chart is not None and window.chart.window == (month_number(1937, 1), month_number(1938, 12))
    assert [bar.dropped for bar in window.chart.bars] == [False, False, False, True]


def test_later_work_is_told(items):
    assert any("Engraved tailpiece" in one and "January 1939" in one for one in items[0].window.notes)
    treated = [row.cells[3] for row in items[0].window.statements.rows]
    assert treated == ["used", "used", "used", "replaced part, bounds nothing"]


def test_a_conflict_names_what_was_set_aside_and_calls_the_window_provisional(items):
    window = items[1].window
    assert "conflicts" in window.sentence and "speaker code" in window.sentence and "provisional" in window.sentence
    assert sum("exclude one another" in one for one in window.points) == 2
    assert [row.cells[3] for row in window.statements.rows] == ["used", "used", "set aside"]


def test_a_tie_shows_no_window():
    statements = [replace(one, strength=3) for one in conflicting_window().statements[1:]]
    statements = [replace(one, status=statements[0].status) for one in statements]
    tied = date_window("G02", statements, month_number(2025, 1))
    assert tied.shown is None
    first, second = results()
    report = compose(replace(inputs(), results=lambda: (first, replace(second, window=tied))))
    assert "no single window is stated" in tuple(report.items)[1].window.sentence
    assert report.report.summary.table.rows[1].cells[2] == "not established"


def test_no_evidence_is_said():
    bare = date_window("G02", [], month_number(2025, 1))
    first, second = results()
    view = tuple(compose(replace(inputs(), results=lambda: (first, replace(second, window=bare)))).items)[1]
    assert view.window.sentence == "No evidence was recorded."
    assert view.window.chart is None and view.window.statements is None


def test_originality_keeps_unknown_unknown(items):
    view = items[0].originality
    assert any("Not established: pickguard" in one for one in view.paragraphs)
    assert any("91.20 out of 100" in one and "not below 20" in one for one in view.paragraphs)
    states = [row.cells[1] for row in view.table.rows]
    assert states == ["original", "later replacement", "later replacement", "unknown"]
    assert view.table.rows[1].cells[3] == "yes; original not kept; changed about 1970s"


def test_a_part_without_a_state_is_never_original():
    job = replace(JOB, parts=(replace(JOB.parts[0], state=BLANK),))
    view = next(compose(inputs(job=job)).items).originality
    assert view.table.rows[0].cells[1] == "not stated"
    assert any("Not established: body" in one for one in view.paragraphs)


def test_parts_that_were_not_changed_need_no_columns_for_changes():
    whole = replace(JOB, parts=(JOB.parts[0],))
    table = next(compose(inputs(job=whole)).items).originality.table
    assert table.heads == ("Part", "State", "What told it")
    assert all(len(row.cells) == 3 for row in table.rows) and table.note == ""


def test_condition_has_four_judgements_a_grade_and_the_cost_to_correct(items):
    labels = [line.label for line in items[0].condition]
    assert labels == ["Structure", "Finish", "Wear", "Playability or function", "Grade", "Cost to correct"]
    assert items[0].condition[4].text == "7: honest wear, no open damage"
    assert any("not to be read as sound" in one for one in items[0].condition_notes)
    assert items[1].condition[4].text == "not stated"


def test_the_owners_story_is_the_owners(items):
    lines = {line.label: line.text for line in items[0].provenance}
    assert lines["Owner's statement"] == "As told by the owner, not verified: bought from the first owner"
    assert lines["Stolen-goods check"] == "not done"


def test_past_dealings_and_none_known(items):
    assert items[0].history.rows[0].cells[3] == f"USD{NBSP}325.00"
    assert items[1].history is None
    assert {line.label: line.text for line in items[1].provenance}["Past dealings with it"] == "None known."


def test_cautions_for_materials_and_mains(items):
    assert any("no legal" in one for one in items[0].cautions)
    assert not any("mains" in one for one in items[0].cautions)
    assert any("dangerous voltages" in one for one in items[1].cautions)
    first, second = results()
    unknown = replace(first, item=replace(first.item, restricted_materials=UNKNOWN))
    said = next(compose(replace(inputs(), results=lambda: (unknown, second))).items).cautions
    assert "not established" in said[0] and "no legal" in said[1]


def test_photographs_in_the_order_typed_with_captions_and_alternative_text(items):
    (row,) = items[0].photo_rows
    assert row.first.caption == "1.1. Front (taken Jan 20, 2025)"
    assert row.second.caption == "1.2. Label"
    assert row.third is None
    assert row.first.alt == "Photograph of Skarvholm Consul 17: Front"
    assert "lost.jpg" in items[0].photos_note


def test_grids_hold_six_comparisons_at_most(items):
    (one,) = items[0].opinions[0].grids
    assert [column.name for column in one.columns] == ["c1", "c2", "c3", "c4", "c5", "c6"]


def test_more_comparisons_than_fit_are_shared_out_evenly(monkeypatch):
    monkeypatch.setattr(grid, "COLUMNS", 5)
    grids = next(compose(inputs()).items).opinions[0].grids
    assert [[column.name for column in one.columns] for one in grids] == [["c1", "c2", "c3"], ["c4", "c5", "c6"]]
    for one in grids:
        assert all(len(row.cells) == len(one.columns) for row in one.rows)


def test_the_grid_shows_each_step_with_its_sign(items):
    rows = {row.label: row.cells[:3] for row in items[0].opinions[0].grids[0].rows}
    assert rows["Price as recorded"] == ("21,000.00", "14,500.00", "31,500.00")
    assert rows["Currency"] == ("USD", "GBP", "USD")
    assert rows["In USD"] == ("", "23,341.94", "")
    assert rows["Market level"] == ("", "", "−15%")
    assert rows["Time factor"] == ("0.998089", "0.972235", "1.006261")
    assert rows["Condition"] == ("−8.86%", "+9.09%", "−8.86%")
    assert rows["Its originality, out of 100"] == ("100.00", "96.00", "100.00")
    assert rows["Lump sum"] == ("−350.00", "", "−350.00")
    assert rows["Adjusted price"] == ("21,402.33", "23,518.88", "20,253.06")


def test_a_step_the_report_does_not_know_is_printed_all_the_same():
    changed = valuation()
    line = changed.comparisons[0]
    new = replace(line, steps={**line.steps, "new_step": line.steps["basis"]})
    view = with_valuation(replace(changed, comparisons=(new, *changed.comparisons[1:])))
    assert "new step" in [row.label for row in view.grids[0].rows]


def test_every_adjustment_has_its_reason(items):
    reasons = items[0].opinions[0].reasons
    given = [(row.cells[0], row.cells[1], row.cells[2]) for row in reasons.rows]
    assert ("c3", "Market level", "−15%") in given
    assert ("c5", "Provenance", "−2.5%") in given
    assert ("c2", "Departs from original", "4%") in given
    assert sum(row.cells[1] == "Weight" for row in reasons.rows) == len(comparisons())


def test_asking_prices_later_sales_and_weight_zero_are_pointed_out(items):
    notes = " ".join(items[0].opinions[0].notes)
    assert "c4 is an asking price" in notes
    assert "c6 is dated after the effective date" in notes
    assert "c6 is shown but carries no weight" in notes


def test_mean_with_the_median_as_a_check_and_the_range(items):
    opinion = items[0].opinions[0]
    assert f"weighted mean of the adjusted prices, USD{NBSP}22,128.58" in opinion.reconciliation[0]
    assert f"USD{NBSP}21,402.33" in opinion.reconciliation[0]
    assert opinion.opinion == f"USD{NBSP}22,100"
    assert opinion.opinion_note == f"within a range of USD{NBSP}20,300 to USD{NBSP}24,300"
    assert [row.cells[1] for row in opinion.results.rows][-1] == "22,100"


def test_a_median_by_a_tie_is_explained(items):
    assert "exactly" in items[0].opinions[1].reconciliation[0]


def test_the_range_of_a_build_up_is_that_of_the_prices_before_tax_and_costs(items):
    opinion = items[0].opinions[1]
    assert "before tax and costs" in opinion.opinion_note
    assert "within a range" not in opinion.opinion_note


def test_a_typed_conclusion_is_never_called_computed():
    view = with_valuation(replace(valuation(), conclusion=Conclusion.TYPED))
    assert "not a computed figure" in view.reconciliation[0]
    assert "22,128.58" in view.reconciliation[0] and "21,402.33" in view.reconciliation[0]


def test_the_short_route_has_no_results_table():
    view = with_valuation(replace(valuation(), route=Route.SHORT, comparisons=()))
    assert view.results is None and view.grids == ()
    assert "not a computed figure" in view.reconciliation[0]


def test_the_chart_shows_every_adjusted_price_and_marks_weight_zero(items):
    chart = items[0].opinions[0].chart
    assert len(chart.values) == 6 and chart.labels[-1] == "c6 (weight 0)"
    assert (chart.low, chart.high) == (Decimal("20253.06"), Decimal("24342.91"))
    assert "6 comparisons" in chart.alt


def test_the_values_side_by_side_show_tax_and_costs(items):
    rows = [row.cells for row in items[0].bridge.table.rows]
    assert [cells[1] for cells in rows] == [
        "22,128.58",
        "+10,571.42",
        "32,700.00",
        "+2,370.75",
        "+180.00",
        "–",
        "35,250.75",
        "22,100",
        "35,300",
    ]
    assert items[1].bridge is None


def test_reasons_typed_without_a_full_stop_get_one(items):
    for item in items:
        for opinion in item.opinions:
            assert [words for words in opinion.reconciliation if not words.endswith((".", "!", "?"))] == []


def test_a_code_with_a_year_in_each_decade_is_told_by_its_ends():
    """The last digit of a year leaves a span in every decade; a cell that lists them all is as long as a page."""
    runs = Months.of(Run(12 * year, 12 * year + 11) for year in range(1946, 1996, 10))
    result, second = results()
    first = replace(result.window.statements[0], outer=runs, inner=runs)
    window = replace(result.window, statements=(first, *result.window.statements[1:]))
    view = next(compose(replace(inputs(), results=lambda: (replace(result, window=window), second))).items)
    told = view.window.statements.rows[0].cells[2]
    assert told == "5 separate spans of months between January 1946 and December 1986"


def test_every_figure_of_a_conclusion_that_was_typed_has_a_name():
    keys = originals()
    assert {"result.typed_from_mean_pct", "result.typed_from_median_pct"} <= set(keys)
