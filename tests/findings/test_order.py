"""Findings come in the order in which the workbook is filled."""

from appraise.findings.order import in_order
from appraise.model.finding import finding
from appraise.model.place import Place


def test_sheet_row_column_then_code() -> None:
    places = [
        Place("Nowhere", 1, "x"),
        Place("Sales", 10, "price"),
        Place("Sales", 2, "price"),
        Place("Sales", 2, "maker"),
        Place("Sales", 2),
        Place("Items", 30, "wear"),
        Place("Assignment", 0, "signed_on"),
        Place("Assignment", 0, "use"),
        Place("Assignment"),
    ]
    found = in_order(finding("ITM-02", place) for place in places)
    assert [one.place for one in found] == places[::-1]


def test_one_place_by_code_then_subjects() -> None:
    place = Place("Items", 2, "id")
    one, two, three = finding("ASG-02", place, "B"), finding("ASG-02", place, "A"), finding("ITM-02", place, "A")
    assert in_order([three, one, two]) == [two, one, three]
    assert in_order([]) == []
