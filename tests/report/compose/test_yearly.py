"""What only the report of a yearly reappraisal has, from the yearly demonstration (worked case V12)."""

import re
from datetime import date
from decimal import Decimal
from functools import cache
from pathlib import Path

from support.demo import REPOSITORY

from appraise.jobs.examine import Examined, examine
from appraise.jobs.report_inputs import report_inputs
from appraise.report.compose.printing import PrintedFigures
from appraise.report.compose.report import compose
from appraise.report.item_view import ItemView
from appraise.report.view import ReportView, YearlyPart, YearlyView
from appraise.report.view_parts import Table
from appraise.workbook.writing.write import write_job
from workbooks_demo.sources import read_rows

DEMO = REPOSITORY / "workbooks_demo" / "yearly"


def composed(examined: Examined) -> tuple[ReportView, tuple[ItemView, ...], PrintedFigures]:
    figures = PrintedFigures()
    made = compose(report_inputs(examined, {}, draft=False), figures)
    return made.report, tuple(made.items), figures


@cache
def demo() -> tuple[ReportView, tuple[ItemView, ...], PrintedFigures]:
    return composed(examine(DEMO / "yearly.xlsx", today=date(2025, 7, 14)))


def yearly() -> YearlyView:
    view = demo()[0].yearly
    assert view is not None
    return view


def part() -> YearlyPart:
    (one,) = yearly().parts
    return one


def number(text: str) -> Decimal:
    return Decimal(re.sub(r"[^0-9.]", "", text)) * (-1 if text.startswith("−") else 1)


def column(table: Table, position: int) -> dict[str, str]:
    return {row.cells[0]: row.cells[position] for row in table.rows}


def test_the_change_table_is_that_of_the_case() -> None:
    rows = {row.cells[0]: row.cells[3:] for row in part().changes.rows}
    assert rows["1"] == ("41,300", "42,800", "+1,500", "+3.6%")
    assert rows["2"] == ("37,800", "37,100", "−700", "−1.9%")
    assert rows["7"] == ("5,550", "5,550", "0", "0.0%")
    assert rows["10"] == ("2,850", "–", "removed", "")
    assert rows["12"] == ("–", "7,450", "added", "")
    assert rows[""] == ("283,890", "297,600", "+13,710", "+4.8%")
    reasons = column(part().changes, 2)
    assert reasons["4"].startswith("Index ELEC, June 2024 to June 2025: × 0.984312.\nOwner reports no change")
    assert reasons["8"].startswith("Index OTHER, June 2023 to June 2025"), "a held line is rolled over the whole time"
    assert all(reasons[one] for one in reasons if one)


def test_the_bridge_printed_closes() -> None:
    amounts = [number(row.cells[1]) for row in part().bridge.rows]
    assert amounts == [283890, 9110, -2850, 7450, 297600]
    assert sum(amounts[:-1]) == amounts[-1]
    assert "USD\xa0297,352.10" in part().bridge.note and "USD\xa0247.90" in part().bridge.note


def test_the_causes_printed_add_up_to_the_change_of_the_total() -> None:
    amounts = [number(row.cells[1]) for row in part().causes.rows]
    assert sum(amounts[:-1]) == amounts[-1] == Decimal("13710.00")
    assert "Condition" not in column(part().causes, 1), "no line says that its state explains a part"


def test_families_add_up_and_both_percents_are_said() -> None:
    table = part().families
    assert table is not None
    rows = [row.cells for row in table.rows]
    for position in (1, 2, 3, 4, 5):
        assert sum(number(cells[position]) for cells in rows[:-1]) == number(rows[-1][position])
    (sentence,) = part().intro
    assert "+4.8%" in sentence and "+3.2%" in sentence


def test_what_is_due_and_what_was_not_inspected() -> None:
    due = yearly().due
    assert due is not None
    assert [row.cells for row in due.rows] == [
        ("6", "Ketterhaugh Ringstone", "Strand house, Vell Harbor", "Nov 3, 2021", "Nov 3, 2024")
    ]
    assert any(
        "1, 2, 4, 5, 6, 7, 8, and 11" in words and "extraordinary assumption" in words for words in yearly().intro
    )
    assert any(words.startswith("Moved without fresh comparables") and "4" in words for words in part().notes)


def test_limits_before_and_after() -> None:
    table = yearly().limits
    assert table is not None
    rows = {row.cells[0]: row.cells[1:] for row in table.rows}
    assert rows["Total of the schedule"] == ("283,890", "297,600")
    assert rows["Limit as a percent of the total"] == ("112.7%", "107.5%")
    assert yearly().limits_notes == ("The blanket limit is not below the new total.",)


def test_the_history_is_that_of_the_records() -> None:
    table, chart = part().history, part().total_chart
    assert table is not None and chart is not None
    assert [row.cells for row in table.rows] == [
        ("Jun 30, 2022", "133,900", "8"),
        ("Jun 30, 2023", "137,140", "9"),
        ("Jun 30, 2024", "283,890", "11"),
        ("Jun 30, 2025", "297,600", "11"),
    ]
    assert chart.years == ("2022", "2023", "2024", "2025")
    assert chart.series[0].values == tuple(Decimal(one) for one in (133900, 137140, 283890, 297600))
    families = {one.label: one.values for drawn in part().family_charts for one in drawn.series}
    assert len(families) == 12
    assert families["Mandolin family"] == (None, None, Decimal(130000), Decimal(137000))
    assert families["Tube amplifier"][-1] is None, "the line was removed"


def test_a_removed_item_has_no_section_and_the_total_does_not_lack_it() -> None:
    report, items, _ = demo()
    assert [one.id for one in items] == [f"Y{number:02d}" for number in range(1, 13) if number != 10]
    assert report.summary.note == ""
    assert report.elements.table is not None
    assert not [row for row in report.elements.table.rows if "Y10" in " ".join(row.cells)]
    assert report.summary.table.rows[-1].figures == ("297,600",)


def test_the_section_of_a_carried_line_shows_the_chain() -> None:
    items = {one.id: one for one in demo()[1]}
    (opinion,) = items["Y01"].opinions
    assert opinion.results is not None
    assert [row.cells[1] for row in opinion.results.rows] == [
        "41,317.42",
        "41,300.00",
        "101.8750",
        "105.5000",
        "1.035583",
        "42,787.62",
        "42,800",
    ]
    assert opinion.opinion == "USD\xa042,800"
    assert items["Y03"].opinions[0].grids, "a line valued afresh shows its comparisons"
    assert items["Y06"].opinions[0].notes == ("The line is due for inspection; its condition is the one last seen.",)


def test_every_figure_printed_about_a_line_has_its_id() -> None:
    figures = demo()[2].texts
    assert figures["Y01.rrv.year.factor"] == ["1.035583"]
    assert "297,600" in figures["schedule.rrv.new_total"]
    assert figures["schedule.rrv.causes.by_index"] == ["+7,502.90"]


def test_the_letter_and_the_certification_speak_of_the_revaluation() -> None:
    report = demo()[0]
    assert any("USD\xa0283,890" in words and "USD\xa0297,600" in words for words in report.letter.paragraphs)
    assert any("30 June 2024" in words for words in report.certification.statements), "prior services as typed"
    assert any("were not developed afresh" in words for words in report.certification.statements)


def test_nothing_says_that_an_item_seen_in_an_earlier_year_was_inspected_for_this_report() -> None:
    report = demo()[0]
    (scope,) = next(one for one in report.scope.clauses if one.heading == "Inspection").paragraphs
    assert "for this report: no. 3, 9, and 12." in scope
    assert "Not inspected again: no. 1, 2, 4, 5, 6, 7, 8, and 11" in scope
    (certified,) = (one for one in report.certification.statements if " in person" in one)
    assert "Maud Tarrow inspected no. 3, 9, and 12 in person" in certified
    opening = report.letter.opening[0]
    assert "examined" not in opening
    assert "Not every item was inspected for this report" in opening


def test_a_retail_price_to_which_nothing_was_added_is_not_called_a_build_up() -> None:
    harp = next(one for one in demo()[1] if "Concert Harp" in one.heading)
    (opinion,) = harp.opinions
    assert any("none are added" in words for words in opinion.reconciliation)
    assert opinion.opinion_note.startswith("within a range of")


def test_a_removed_amplifier_brings_no_condition_of_its_own() -> None:
    titles = [one.heading for one in demo()[0].limiting.clauses]
    assert "Electrical safety" not in titles


def test_findings_are_told_in_words_and_days_of_the_report() -> None:
    table = demo()[0].answered.table
    assert table is not None
    assert {row.cells[1] for row in table.rows} == {"warning"}
    assert any("Nov 3, 2021" in row.cells[2] for row in table.rows)


def test_prior_services_are_disclosed_even_where_none_are_typed(tmp_path: Path) -> None:
    rows = read_rows(DEMO)
    rows["assignment"][0]["prior_services"] = "none"
    path = write_job(tmp_path / "job.xlsx", rows)
    report, _, _ = composed(examine(path, today=date(2025, 7, 14)))
    assert any("appraisal as of June 30, 2024" in words for words in report.certification.statements)


def test_another_currency_shows_both_totals_and_a_changed_market_is_no_growth(tmp_path: Path) -> None:
    rows = read_rows(DEMO)
    for row in rows["treatments"]:
        if "prior_rounded" in row:
            row["prior_currency"] = "EUR"
    rows["treatments"][2] |= {"market": "auction"}
    rows["rates"] = [
        {"currency": "EUR", "day": day, "rate": Decimal("1.10"), "direction": "report currency per foreign unit"}
        for day in (date(2024, 6, 30), date(2023, 6, 30))
    ]
    rows["yearly_terms"][0]["currency_reason"] = "The policy is now in US dollars."
    report, _, _ = composed(examine(write_job(tmp_path / "job.xlsx", rows), today=date(2025, 7, 14)))
    assert report.yearly is not None
    (one,) = report.yearly.parts
    assert one.printed is not None
    assert [row.cells[1] for row in one.printed.rows] == ["EUR\xa0283,890.00", "USD\xa0312,279.00"]
    assert any(words.startswith("Market or type of value changed for") and "3" in words for words in one.notes)
    assert "not growth" in column(one.changes, 2)["3"]
    causes = column(one.causes, 1)
    assert number(causes["Market or type of value changed: not growth"]) != 0
    amounts = [number(row.cells[1]) for row in one.causes.rows]
    assert sum(amounts[:-1]) == amounts[-1]


def test_a_year_that_is_not_concluded_yet_is_said_to_be_so_once(tmp_path: Path) -> None:
    rows = read_rows(DEMO)
    for row in rows["treatments"]:
        row.pop("index", None)
    rows["assignment"][0].pop("report_date")
    examined = examine(write_job(tmp_path / "job.xlsx", rows), today=date(2025, 7, 14))
    made = compose(report_inputs(examined, {}, draft=False))
    report = made.report
    assert report.yearly is not None
    (open_part,) = report.yearly.parts
    assert open_part.intro == (
        "The total by retail replacement value was USD\xa0283,890; this year's is not concluded yet.",
    )
    assert open_part.bridge is not None and open_part.bridge.note == ""
    assert {row.cells[6] for row in open_part.changes.rows if row.cells[5] == "not concluded"} == {"–"}
    assert made.edges.footer_left == "Report not dated"
    assert report.letter.day == "(not dated)"
