"""The whole report of the small estate job: its sections, its figures, what a draft says."""

import dataclasses
from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal

import pytest
from support.report_job import ARCHTOP, FMV, JOB, RRV, inputs, known_finding, not_concluded, replacement, valuation

from appraise.model.figure import Figure
from appraise.model.finding import finding
from appraise.model.ledger import RecordingLedger
from appraise.model.place import Place
from appraise.records.dating import Evidence
from appraise.records.declare import filled
from appraise.records.tables import Answer, Clause
from appraise.report.compose.inputs import AnsweredFinding
from appraise.report.compose.printing import PrintedFigures
from appraise.report.compose.report import compose
from appraise.report.compose.sums import bridge, bridged, totals
from appraise.wording.numbers import decimal_text, language

NBSP = "\N{NO-BREAK SPACE}"


def all_texts(view) -> Iterator[str]:
    """Yield every text of a view."""
    if isinstance(view, str):
        yield view
    elif isinstance(view, tuple):
        for one in view:
            yield from all_texts(one)
    elif dataclasses.is_dataclass(view):
        for field in dataclasses.fields(view):
            yield from all_texts(getattr(view, field.name))


@pytest.fixture(scope="module")
def composed():
    figures = PrintedFigures()
    report = compose(inputs(), figures)
    return report, tuple(report.items), figures


def made_figures() -> dict[str, Figure]:
    """Return every figure the job's results and sums contain, by id."""
    ledger, steps = RecordingLedger("schedule"), RecordingLedger("G01.bridge")
    totals(ledger, inputs().results(), (FMV, RRV), frozenset({("G02", RRV)}), "USD")
    bridge(steps, (valuation(), replacement()), "USD")
    found = {**ledger.figures, **steps.figures}
    for one in (valuation(), replacement()):
        lines = [outcome for line in one.comparisons for outcome in line.steps.values()]
        for outcome in (*one.subject.values(), *one.figures.values(), *lines):
            if isinstance(outcome, Figure):
                found[outcome.id] = outcome
    return found


def test_printed_ids_are_those_of_figures_and_the_texts_are_their_numbers(composed):
    _, _, figures = composed
    made = made_figures()
    assert figures.texts.keys() <= made.keys()
    assert len(figures.texts) > 100
    for figure_id, printed in figures.texts.items():
        figure = made[figure_id]
        if isinstance(figure.value, Decimal):
            whole = figure.value == figure.value.to_integral_value()
            places = {figure.kind.places} | ({0} if whole else set())
            numbers = {decimal_text(abs(figure.value), language("en"), one) for one in places}
            for text in printed:
                assert text.strip("+−%").removeprefix(f"USD{NBSP}").lstrip("−") in numbers, (figure_id, text)


def test_every_step_of_every_comparison_is_printed(composed):
    _, _, figures = composed
    steps = [one.id for line in valuation().comparisons for one in line.steps.values() if isinstance(one, Figure)]
    assert set(steps) <= figures.texts.keys()


def test_every_text_of_the_report_is_finished(composed):
    report, items, _ = composed
    for text in all_texts((report.report, items)):
        assert "{" not in text.replace("<R&D>", ""), text
        assert text != "None" and "=None" not in text, text
        assert "BLANK" not in text, text


def test_final_and_draft_differ_in_the_open_points():
    names = [one.name for one in compose(inputs()).sections]
    draft = [one.name for one in compose(inputs(draft=True)).sections]
    assert "open_points" not in names
    assert "open_points" in draft
    assert [name for name in draft if name != "open_points"] == names
    assert [one.name for one in compose(inputs()).sections if one.per_item] == ["item"]


def test_answered_findings_have_a_section_of_their_own_only_if_there_are_any():
    assert "answered" in [one.name for one in compose(inputs()).sections]
    none = replace(inputs(), findings=())
    assert "answered" not in [one.name for one in compose(none).sections]


def test_an_answered_finding_names_statements_by_their_words_and_days_as_the_report_has_them():
    evidence = (
        filled(Evidence, id="G01-e1", item="G01", part="label", statement="serial number 2217"),
        filled(Evidence, id="G01-e10", item="G01", part="tailpiece", statement="engraved, from 1939"),
    )
    told = finding("DAT-41", Place("Evidence", 3, "statement"), "G01", conflicts="G01-e1, G01-e10", aside="2024-11-15")
    answer = filled(Answer, code="DAT-41", reason="Changed later.", initials="MT")
    given = replace(inputs(job=replace(JOB, evidence=evidence)), findings=(AnsweredFinding(told, answer),))
    table = compose(given).report.answered.table
    assert table is not None
    point = table.rows[0].cells[2]
    assert '"label: serial number 2217", "tailpiece: engraved, from 1939"' in point
    assert "G01-e" not in point and "Nov 15, 2024" in point


def test_open_points_list_what_is_not_answered_and_leave_notes_out():
    place = Place("Items", 3, "grade")
    points = tuple(AnsweredFinding(known_finding(topic, place, "G02"), None) for topic in ("ITM-", "ASG-"))
    view = compose(replace(inputs(draft=True), findings=points)).report.open_points
    assert view.table is not None
    assert {row.cells[0] for row in view.table.rows} <= {one.finding.code for one in points}
    assert all(len(row.cells) == len(view.table.heads) for row in view.table.rows)


def test_a_missing_figure_is_not_concluded_and_the_total_names_it(composed):
    report, items, _ = composed
    rows = report.report.summary.table.rows
    assert rows[1].figures == ("not concluded", "–")
    assert rows[2].figures == ("22,100", "35,300")
    assert "no. 2" in report.report.summary.note
    assert items[1].opinions[0].opinion == "not concluded"
    assert "not insured" in items[1].opinions[1].intro[0]


def test_totals_are_sums_of_rounded_lines_with_their_difference():
    (fmv, rrv) = totals(RecordingLedger("schedule"), inputs().results(), (FMV, RRV), frozenset({("G02", RRV)}), "USD")
    assert isinstance(fmv.total, Figure) and isinstance(fmv.difference, Figure)
    assert fmv.total.value == Decimal(22100)
    assert fmv.difference.value == Decimal("-28.58")
    assert (fmv.lacking, rrv.lacking) == (("G02",), ())
    assert list(fmv.by_location) == ["Port Aldous house"]
    assert fmv.largest == "G01"


def test_a_total_of_nothing_is_not_concluded():
    result = replace(inputs().results()[1], valuations=(not_concluded(),))
    (total,) = totals(RecordingLedger("schedule"), [result], (FMV,), frozenset(), "USD")
    assert not isinstance(total.total, Figure)
    assert total.lacking == ("G02",)


def test_the_steps_between_two_values_add_up_in_either_order():
    for pair in ((valuation(), replacement()), (replacement(), valuation())):
        steps = bridge(RecordingLedger("G01.bridge"), pair, "USD")
        numbers = {name: one.number for name, one in steps.items() if isinstance(one, Figure)}
        assert numbers == {"market": Decimal("10571.42"), "tax": Decimal("2370.75"), "costs": Decimal("180.00")}
        assert Decimal("22128.58") + sum(numbers.values()) == Decimal("35250.75")
        found = bridged(pair)
        assert found is not None and found[0].value_type is FMV


def test_one_value_has_no_bridge():
    assert bridge(RecordingLedger("G01.bridge"), (valuation(),), "USD") == {}


def test_tables_have_a_cell_for_each_heading(composed):
    report, items, _ = composed

    def tables(view):
        if isinstance(view, tuple):
            for one in view:
                yield from tables(one)
        elif dataclasses.is_dataclass(view):
            if type(view).__name__ == "Table":
                yield view
            for field in dataclasses.fields(view):
                yield from tables(getattr(view, field.name))

    found = list(tables((report.report, items)))
    assert len(found) > 25
    for table in found:
        for row in table.rows:
            assert len(row.cells) == len(table.heads), table.caption
            assert len(row.figures) == len(table.figure_heads), table.caption


def test_an_official_wording_is_printed_as_a_quotation_with_its_source():
    clause = filled(
        Clause,
        key="definition.fair-market.us-estate",
        official="The words of the regulation.",
        citation="26 CFR 20.2031-1(b)",
        edition="2025",
        checked_by="MT",
    )
    meaning = compose(inputs(job=replace(JOB, clauses=(clause,)))).report.assignment.value_meanings[0]
    assert meaning.quotation == "The words of the regulation."
    assert "26 CFR 20.2031-1(b), 2025" in meaning.quotation_source
    plain = compose(inputs()).report.assignment.value_meanings[0]
    assert (plain.quotation, plain.quotation_source) == ("", "")
    assert "26 CFR 20.2031-1(b)" in plain.source


def test_an_appraisers_own_clause_replaces_ours():
    clause = filled(Clause, key="limiting.no-offer", text="Own words.")
    clauses = compose(inputs(job=replace(JOB, clauses=(clause,)))).report.limiting.clauses
    assert ("Own words.",) in [one.paragraphs for one in clauses]


def test_the_same_input_gives_the_same_view():
    first, second = compose(inputs()), compose(inputs())
    assert (first.report, tuple(first.items)) == (second.report, tuple(second.items))


def test_items_are_made_one_by_one():
    items = compose(inputs()).items
    assert next(items).heading == "Item 1: Skarvholm Consul 17, serial 2217"
    assert next(items).group_heading == ""
    with pytest.raises(StopIteration):
        next(items)


def test_paper_and_language_follow_the_locale():
    assert compose(inputs()).properties.paper == "letter"
    british = replace(JOB, assignment=replace(JOB.assignment, workbook_locale="en_GB"))
    properties = compose(inputs(job=british)).properties
    assert (properties.paper, properties.language) == ("A4", "en-GB")


def test_a_report_in_a_language_without_texts_keeps_its_numbers():
    spanish = replace(JOB, assignment=replace(JOB.assignment, report_language="es", workbook_locale="es_ES"))
    report = compose(inputs(job=spanish))
    assert report.properties.language == "es-ES"
    assert f"22.100{NBSP}USD" in list(all_texts(report.report.letter))


def test_only_tables_that_were_used_are_printed(composed):
    report, _, _ = composed
    words = list(all_texts(report.report.scope.tables))
    assert "A1" in words
    assert "Z" not in words and "JPY" not in words


def test_an_empty_workbook_still_gives_a_draft():
    empty = replace(
        JOB,
        assignment=filled(type(JOB.assignment)),
        value_terms=(),
        people=(),
        assumptions=(),
        items=(),
        sales=(),
        comparisons=(),
    )
    view = compose(replace(inputs(draft=True, job=empty), results=tuple, totals=(), findings=()))
    assert view.report.title == "not stated"
    assert list(view.items) == []


def test_the_archtop_is_named_everywhere_alike(composed):
    report, items, _ = composed
    assert ARCHTOP.serial == "2217"
    assert report.report.summary.table.rows[0].cells[1] == "Skarvholm Consul 17, serial 2217"
    assert report.report.summary.table.rows[0].key == items[0].key


def test_an_open_point_names_its_place_as_the_reader_of_the_workbook_finds_it():
    point = AnsweredFinding(known_finding("ASG-", Place("Items", 3, "grade"), "G02"), None)
    given = replace(inputs(draft=True), findings=(point,))
    assert compose(given).report.open_points.table.rows[0].cells[2] == "Items, row 3, Grade"
    by_file = replace(given, place_name=lambda place: f"{place.sheet}!F{place.row}")
    assert compose(by_file).report.open_points.table.rows[0].cells[2] == "Items!F3"
